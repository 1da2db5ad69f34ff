//! Taking a record out of use. Nothing is deleted.

use axum::{http::StatusCode, response::Response};
use serde_json::{Value, json};

use super::{RecordDocument, answer::etag, store};
use crate::{
    access::Caller,
    check::ProcedureState,
    database::Change,
    http::{
        AppState, IfMatch, Retry, Writing,
        problem::{CONFLICT, Problem},
        retry::Begun,
    },
    trade::Coded,
    wire::{self, wire_object},
};

wire_object! {
    /// Why a record is taken out of use.
    pub struct WithdrawalIn {
        /// Why, for those who read the record and the audit chain.
        pub reason: String,
    }
}

/// Marks the record as withdrawn, with the reason.
///
/// # Errors
/// No reason, a stale or missing `If-Match`, a record that is withdrawn already.
pub async fn withdraw<D: RecordDocument>(
    state: &AppState,
    caller: &Caller,
    if_match: &IfMatch,
    retry: &Retry,
    code: &str,
    body: &Value,
) -> Result<Response, Problem> {
    let sent: WithdrawalIn = wire::read(body)?;
    let route = format!("POST /v1/{}/{code}/withdrawal", D::KIND.path);
    let mut writing = match Writing::begin(state, caller, &route, retry, body).await? {
        Begun::Fresh(writing) => writing,
        Begun::Replay(response) => return Ok(response),
    };
    let tx = writing.tx();
    let head = store::lock(tx.connection(), D::KIND, code).await?;
    let head = head.ok_or_else(|| Problem::not_found(D::KIND.name, code))?;
    if_match.holds(head.version)?;
    let withdrawn = ProcedureState::Withdrawn.code();
    if head.state == withdrawn {
        return Err(Problem::new(&CONFLICT, "The record is withdrawn already."));
    }
    let revision = (head.revision, head.edit);
    let version = store::move_head(tx.connection(), D::KIND, code, revision, withdrawn).await?;
    let actor = tx.actor();
    store::withdraw(tx.connection(), actor, D::KIND, code, &sent.reason).await?;
    D::withdrawn(tx, code, &sent.reason).await?;
    tx.note(Change {
        action: "withdrawn",
        kind: D::KIND.column,
        subject: code.to_owned(),
        revision: Some(head.revision),
        document_hash: None,
        changes_rules: D::CHANGES_RULES,
    });
    let stored = store::find(tx.connection(), D::KIND, code).await?;
    let answer = json!(stored.map(super::RecordBody::of::<D>));
    writing.finish(state, StatusCode::OK, &[("etag", etag(version))], answer).await
}
