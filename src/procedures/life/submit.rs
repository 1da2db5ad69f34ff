//! `POST /v1/procedures/{code}/submission`

use axum::{extract::State, response::Response};
use serde_json::Value;

use super::{Step, take};
use crate::{
    access::{Permitted, WriteData},
    check::ProcedureState,
    http::{AppState, CodePath, IfMatch, Retry, problem::Problem, responses::ActProblems},
    procedures::ProcedureDocument,
    records::RecordAnswer,
};

/// Submit a draft for review
///
/// Hands the draft to a second person for review.
#[utoipa::path(
    post, path = "/v1/procedures/{code}/submission", tag = "procedures",
    params(
        ("code" = String, Path, description = "Number of the procedure"),
        ("If-Match" = String, Header, description = "ETag of the version you read"),
        ("Idempotency-Key" = Option<String>, Header, description = "For a safe retry"),
    ),
    responses(
        (status = 200, description = "Now in review",
            headers(
                ("ETag" = String, description = "Version of the record"),
                ("Rulebook-Version" = i64, description = "First rulebook that knows it; sent where checks need it"),
            ), body = RecordAnswer<ProcedureDocument>),
        ActProblems,
    ),
)]
pub(in crate::procedures) async fn submit_procedure(
    permitted: Permitted<WriteData>,
    State(state): State<AppState>,
    if_match: IfMatch,
    retry: Retry,
    CodePath(code): CodePath,
) -> Result<Response, Problem> {
    let step = Step {
        path: "submission",
        event: "submitted",
        from: &[ProcedureState::Draft],
        to: Some(ProcedureState::InReview),
        second_person: false,
        reason: None,
        effective_from: None,
        revision: None,
    };
    take(&state, &permitted.caller, (&if_match, &retry), &code, &Value::Null, step, None).await
}
