//! `POST /v1/qualifications/{code}/attachments/{attachment}/withdrawal`

use axum::{extract::State, http::StatusCode, response::Response};
use serde_json::json;

use super::{AttachmentOut, read::named, store};
use crate::{
    access::{Permitted, WriteData},
    database::Change,
    http::{
        AppState, JsonBody, NoQuery, Path, Retry, Writing,
        problem::{CONFLICT, Problem},
        responses::AskAboutProblems,
        retry::Begun,
    },
    qualifications::KIND,
    records,
    wire::{self, wire_object},
};

wire_object! {
    /// Why an attachment is taken back.
    pub struct AttachmentWithdrawalIn {
        /// Why, for those who read the record.
        pub reason: String,
    }
}

/// Withdraw an attachment
///
/// Marks an attachment as taken back, with the reason. Nothing is deleted: it stays readable.
#[utoipa::path(
    post, path = "/v1/qualifications/{code}/attachments/{attachment}/withdrawal", tag = "qualifications",
    request_body = AttachmentWithdrawalIn,
    params(
        ("code" = String, Path, description = "Number of the record"),
        ("attachment" = Uuid, Path, description = "Id of the attachment"),
        ("Idempotency-Key" = Option<String>, Header, description = "For a safe retry"),
    ),
    responses((status = 200, description = "Withdrawn", body = AttachmentOut), AskAboutProblems),
)]
pub(super) async fn withdraw_attachment(
    permitted: Permitted<WriteData>,
    State(state): State<AppState>,
    retry: Retry,
    _: NoQuery,
    Path((code, attachment)): Path<(String, String)>,
    JsonBody(body): JsonBody,
) -> Result<Response, Problem> {
    let sent: AttachmentWithdrawalIn = wire::read(&body)?;
    let id = named(&code, &attachment)?;
    let route = format!("POST /v1/qualifications/{code}/attachments/{id}/withdrawal");
    let mut writing = match Writing::begin(&state, &permitted.caller, &route, &retry, &body).await?
    {
        Begun::Fresh(writing) => writing,
        Begun::Replay(response) => return Ok(response),
    };
    let tx = writing.tx();
    let actor = tx.actor();
    // The record's head first, as everybody does who writes about it.
    let head = records::lock(tx.connection(), KIND, &code).await?;
    let head = head.ok_or_else(|| Problem::not_found(KIND.name, &code))?;
    let row = store::find(tx.connection(), &code, id).await?;
    let row = row.ok_or_else(|| Problem::not_found("attachment", &attachment))?;
    if row.withdrawn_at.is_some() {
        return Err(Problem::new(&CONFLICT, "The attachment is withdrawn already."));
    }
    store::withdraw(tx.connection(), actor, (&code, id), &sent.reason).await?;
    tx.note(Change {
        action: "attachment-withdrawn",
        kind: KIND.column,
        subject: code.clone(),
        revision: Some(head.revision),
        document_hash: Some(row.sha256),
        changes_rules: false,
    });
    let row = store::find(tx.connection(), &code, id).await?;
    let answer = json!(row.map(AttachmentOut::of));
    writing.finish(&state, StatusCode::OK, &[], answer).await
}
