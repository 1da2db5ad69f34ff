//! `POST /v1/qualifications/{code}/attachments`

use axum::{
    body::{Bytes, to_bytes},
    extract::{Request, State},
    http::{StatusCode, Uri},
    response::Response,
};
use serde::Deserialize;
use serde_json::json;
use sha2::{Digest, Sha256};
use utoipa::IntoParams;
use uuid::Uuid;

use super::{
    AttachmentOut, LARGEST,
    media::{self, Media},
    store::{self, NewAttachment},
};
use crate::{
    access::{Permitted, WriteData},
    check::ProcedureState,
    database::{Change, TenantTx},
    http::{
        AppState, CodePath, Query, Retry, Writing, known_parameters,
        problem::{CONFLICT, Problem, TOO_LARGE},
        responses::AttachProblems,
        retry::Begun,
    },
    qualifications::KIND,
    records,
    trade::Coded,
};

/// What the attachment is called.
#[derive(Debug, Deserialize, IntoParams)]
#[into_params(parameter_in = Query)]
pub struct AttachmentQuery {
    /// Name of the file, such as `RT-9.pdf`.
    pub name: String,
}

/// Attach a file
///
/// Attaches a PDF or a photo (`application/pdf`, `image/jpeg`, `image/png`; at most 10 MiB) to a
/// qualification record. The first bytes have to be those of the stated kind. The SHA-256 of the bytes goes
/// into the audit chain; they never change.
#[utoipa::path(
    post, path = "/v1/qualifications/{code}/attachments", tag = "qualifications",
    params(
        ("code" = String, Path, description = "Number of the record"),
        AttachmentQuery,
        ("Idempotency-Key" = Option<String>, Header, description = "For a safe retry"),
    ),
    request_body(
        description = "The file",
        content(("application/pdf"), ("image/jpeg"), ("image/png")),
    ),
    responses(
        (status = 201, description = "Attached; `Location` says where",
            headers(
                ("Location" = String, description = "Path of what was made"),
            ), body = AttachmentOut),
        AttachProblems,
    ),
)]
pub(super) async fn add_attachment(
    permitted: Permitted<WriteData>,
    State(state): State<AppState>,
    uri: Uri,
    retry: Retry,
    CodePath(code): CodePath,
    Query(query): Query<AttachmentQuery>,
    request: Request,
) -> Result<Response, Problem> {
    known_parameters::<AttachmentQuery, AttachmentQuery>(&uri)?;
    let name = media::file_name(&query.name)?;
    let media = Media::stated(request.headers())?;
    let content = read(request).await?;
    media.holds(&content)?;
    let sha256 = Sha256::digest(&content).to_vec();
    let route = format!("POST /v1/qualifications/{code}/attachments");
    // The bytes themselves would be long to compare; their hash, name and kind are the request.
    let sent = json!({ "name": name, "media_type": media.name, "sha256": hex::encode(&sha256) });
    let mut writing = match Writing::begin(&state, &permitted.caller, &route, &retry, &sent).await?
    {
        Begun::Fresh(writing) => writing,
        Begun::Replay(response) => return Ok(response),
    };
    let id = Uuid::now_v7();
    let new = NewAttachment {
        code: &code,
        id,
        name: &name,
        media_type: media.name,
        sha256: &sha256,
        content: &content,
    };
    write(writing.tx(), new).await?;
    let row = store::find(writing.tx().connection(), &code, id).await?;
    let answer = json!(row.map(AttachmentOut::of));
    let location = format!("/v1/qualifications/{code}/attachments/{id}");
    writing.finish(&state, StatusCode::CREATED, &[("location", location)], answer).await
}

/// The body, as far as it may go.
async fn read(request: Request) -> Result<Bytes, Problem> {
    to_bytes(request.into_body(), LARGEST).await.map_err(|_| {
        let detail = format!("An attachment has at most 10 MiB ({LARGEST} bytes).");
        Problem::new(&TOO_LARGE, detail)
    })
}

/// Writes the attachment of a record that is in use, once.
async fn write(tx: &mut TenantTx, new: NewAttachment<'_>) -> Result<(), Problem> {
    let actor = tx.actor();
    let head = records::lock(tx.connection(), KIND, new.code).await?;
    let head = head.ok_or_else(|| Problem::not_found(KIND.name, new.code))?;
    if head.state == ProcedureState::Withdrawn.code() {
        let detail = "The record is withdrawn; nothing is attached to it any more.";
        return Err(Problem::new(&CONFLICT, detail));
    }
    let present = store::all(tx.connection(), new.code).await?;
    let same = |own: &&store::AttachmentRow| own.sha256 == new.sha256 && own.withdrawn_at.is_none();
    if let Some(own) = present.iter().find(same) {
        let detail = format!("The same file is attached already, as \"{}\".", own.name);
        return Err(Problem::new(&CONFLICT, detail));
    }
    store::insert(tx.connection(), actor, new).await?;
    tx.note(Change {
        action: "attached",
        kind: KIND.column,
        subject: new.code.to_owned(),
        revision: Some(head.revision),
        document_hash: Some(new.sha256.to_vec()),
        changes_rules: false,
    });
    Ok(())
}
