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
};

/// Marks the record as withdrawn.
///
/// # Errors
/// A stale or missing `If-Match`, a record that is withdrawn already.
pub async fn withdraw<D: RecordDocument>(
    state: &AppState,
    caller: &Caller,
    if_match: &IfMatch,
    retry: &Retry,
    code: &str,
) -> Result<Response, Problem> {
    let route = format!("POST /v1/{}/{code}/withdrawal", D::KIND.path);
    let mut writing = match Writing::begin(state, caller, &route, retry, &Value::Null).await? {
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
    D::withdrawn(tx, code).await?;
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
