//! Changing a record: a new revision, or a new edit of a draft.

use axum::{http::StatusCode, response::Response};
use serde_json::{Value, json};

use super::{
    Head, RecordDocument,
    answer::etag,
    create::{refuse_faults, write},
    store,
};
use crate::{
    access::Caller,
    check::ProcedureState,
    http::{
        AppState, IfMatch, Retry, Writing,
        problem::{CONFLICT, Problem},
        retry::Begun,
    },
    trade::Coded,
    wire,
};

/// Reads the document and writes it as the next revision, or as the next edit of a draft.
///
/// # Errors
/// Field errors, a stale or missing `If-Match`, a record under review or withdrawn.
pub async fn revise<D: RecordDocument>(
    state: &AppState,
    caller: &Caller,
    if_match: &IfMatch,
    code: &str,
    reason: Option<&str>,
    body: &Value,
) -> Result<Response, Problem> {
    let document: D = wire::read(body)?;
    if document.code() != code {
        let detail = format!("the path says \"{code}\"; a record keeps its code");
        return Err(Problem::field(D::CODE_POINTER, detail));
    }
    let route = format!("PUT /v1/{}/{code}", D::KIND.path);
    let mut writing = match Writing::begin(state, caller, &route, &Retry::NONE, body).await? {
        Begun::Fresh(writing) => writing,
        Begun::Replay(response) => return Ok(response),
    };
    let tx = writing.tx();
    let head = store::lock(tx.connection(), D::KIND, code).await?;
    let head = head.ok_or_else(|| Problem::not_found(D::KIND.name, code))?;
    if_match.holds(head.version)?;
    let (revision, next_state) = next::<D>(&head)?;
    D::may_revise(&head, reason)?;
    refuse_faults(tx, &document).await?;
    write(tx, &document, revision, reason, "revised").await?;
    let version = store::move_head(tx.connection(), D::KIND, code, revision, next_state).await?;
    let stored = store::find(tx.connection(), D::KIND, code).await?;
    let answer = json!(stored.map(super::RecordBody::of::<D>));
    writing.finish(state, StatusCode::OK, &[("etag", etag(version))], answer).await
}

/// Revision, edit and state that follow the head.
fn next<D: RecordDocument>(head: &Head) -> Result<((i32, i32), &'static str), Problem> {
    match ProcedureState::from_code(&head.state) {
        Some(ProcedureState::Draft) => Ok(((head.revision, head.edit + 1), D::FIRST_STATE)),
        Some(ProcedureState::InReview) => Err(Problem::new(
            &CONFLICT,
            "The revision is under review; have it returned before changing it.",
        )),
        Some(ProcedureState::Withdrawn) => {
            Err(Problem::new(&CONFLICT, "The record is withdrawn; make a new one."))
        }
        _ => Ok(((head.revision + 1, 1), D::FIRST_STATE)),
    }
}
