//! `POST /v1/qualifications/{code}/signature` and `GET /v1/qualifications/{code}/signatures`

use axum::{Json, extract::State, http::StatusCode, response::Response};
use serde::Serialize;
use serde_json::json;
use time::OffsetDateTime;
use utoipa::ToSchema;
use uuid::Uuid;

use super::{
    KIND, QualificationDocument, SIGNED,
    store::{self, NewSignature, SignatureRow},
};
use crate::{
    access::{AnyRole, Approve, Permitted},
    check::ProcedureState,
    database::{Change, TenantTx},
    http::{
        AppState, CodePath, IfMatch, JsonBody, Retry, Writing,
        problem::{CONFLICT, Problem},
        responses::{ChangeProblems, ReadProblems},
        retry::Begun,
    },
    records::{self, Head, RecordAnswer, RecordBody, Signing, etag},
    trade::Coded,
    wire::{self, wire_object},
};

wire_object! {
    /// What the signer of a qualification record vouches for.
    pub struct QualificationSignatureIn {
        /// What was seen and compared, in words.
        pub statement: String,
    }
}

/// A signature under one revision.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct QualificationSignatureOut {
    /// Revision signed.
    pub revision: i32,
    /// SHA-256 of the document signed.
    pub document_hash: String,
    /// Id of the person who signed.
    pub person: Uuid,
    /// Their name.
    pub name: String,
    /// What they vouch for.
    pub statement: String,
    /// When.
    #[serde(with = "time::serde::rfc3339")]
    pub at: OffsetDateTime,
}

/// Signatures of a record, oldest first.
#[derive(Debug, Serialize, ToSchema)]
pub struct QualificationSignatures {
    /// One for each revision that was signed.
    pub items: Vec<QualificationSignatureOut>,
}

/// Sign a qualification record
///
/// Signs the newest revision: a person who wrote no part of the record, in whichever revision, vouches that the entry
/// says what the paper record says. A correction afterwards is a new revision with its reason, to be signed again.
#[utoipa::path(
    post, path = "/v1/qualifications/{code}/signature", tag = "qualifications",
    request_body = QualificationSignatureIn,
    params(
        ("code" = String, Path, description = "Number of the record"),
        ("If-Match" = String, Header, description = "ETag of the version you read"),
        ("Idempotency-Key" = Option<String>, Header, description = "For a safe retry"),
    ),
    responses(
        (status = 200, description = "Signed",
            headers(
                ("ETag" = String, description = "Version of the record"),
                ("Rulebook-Version" = i64, description = "First rulebook that knows it; sent where checks need it"),
            ), body = RecordAnswer<QualificationDocument>),
        ChangeProblems,
    ),
)]
pub(super) async fn sign_qualification(
    permitted: Permitted<Approve>,
    State(state): State<AppState>,
    if_match: IfMatch,
    retry: Retry,
    CodePath(code): CodePath,
    JsonBody(body): JsonBody,
) -> Result<Response, Problem> {
    let sent: QualificationSignatureIn = wire::read(&body)?;
    let caller = &permitted.caller;
    let person = caller.person()?;
    let route = format!("POST /v1/qualifications/{code}/signature");
    let mut writing = match Writing::begin(&state, caller, &route, &retry, &body).await? {
        Begun::Fresh(writing) => writing,
        Begun::Replay(response) => return Ok(response),
    };
    let tx = writing.tx();
    let head = records::lock(tx.connection(), KIND, &code).await?;
    let head = head.ok_or_else(|| Problem::not_found(KIND.name, &code))?;
    if_match.holds(head.version)?;
    may_sign(tx, &code, &head, person).await?;
    let version = write(tx, &code, &head, person, &sent.statement).await?;
    let stored = records::find(tx.connection(), KIND, &code).await?;
    let answer = json!(stored.map(RecordBody::of::<QualificationDocument>));
    writing.finish(&state, StatusCode::OK, &[("etag", etag(version))], answer).await
}

/// A draft is signed, once, by somebody who wrote no part of it, with whichever key.
async fn may_sign(tx: &mut TenantTx, code: &str, head: &Head, person: Uuid) -> Result<(), Problem> {
    if head.state != ProcedureState::Draft.code() {
        let detail = format!("The newest revision is {}; a draft is signed.", head.state);
        return Err(Problem::new(&CONFLICT, detail));
    }
    records::hold_second_person(tx.connection(), KIND, code, Signing::Content, person).await
}

async fn write(
    tx: &mut TenantTx,
    code: &str,
    head: &Head,
    person: Uuid,
    statement: &str,
) -> Result<i32, Problem> {
    let actor = tx.actor();
    let stored = records::find(tx.connection(), KIND, code).await?;
    let stored = stored.ok_or_else(|| Problem::internal(format!("{code} has no revision")))?;
    let new = NewSignature {
        code,
        revision: (head.revision, head.edit),
        document_hash: &stored.document_hash,
        person,
        key: actor.key.unwrap_or_default(),
        statement,
    };
    store::write_signature(tx.connection(), actor.organisation, new).await?;
    let revision = (head.revision, head.edit);
    let version = records::move_head(tx.connection(), KIND, code, revision, SIGNED).await?;
    tx.note(Change {
        action: SIGNED,
        kind: KIND.column,
        subject: code.to_owned(),
        revision: Some(head.revision),
        document_hash: Some(stored.document_hash),
        changes_rules: false,
    });
    Ok(version)
}

/// Read the signatures of a qualification record
///
/// Says who signed which revision, when, and what they vouch for.
#[utoipa::path(
    get, path = "/v1/qualifications/{code}/signatures", tag = "qualifications",
    params(("code" = String, Path, description = "Number of the record")),
    responses(
        (status = 200, description = "The signatures", body = QualificationSignatures),
        ReadProblems,
    ),
)]
pub(super) async fn read_qualification_signatures(
    permitted: Permitted<AnyRole>,
    State(state): State<AppState>,
    CodePath(code): CodePath,
) -> Result<Json<QualificationSignatures>, Problem> {
    let mut tx = TenantTx::begin(&state.pool, permitted.caller.actor()).await?;
    if records::find(tx.connection(), KIND, &code).await?.is_none() {
        return Err(Problem::not_found(KIND.name, &code));
    }
    let rows = store::signatures(tx.connection(), &code).await?;
    Ok(Json(QualificationSignatures { items: rows.into_iter().map(out).collect() }))
}

/// A signature as sent.
pub(super) fn out(row: SignatureRow) -> QualificationSignatureOut {
    QualificationSignatureOut {
        revision: row.revision,
        document_hash: hex::encode(row.document_hash),
        person: row.person_id,
        name: row.name,
        statement: row.statement,
        at: row.at,
    }
}
