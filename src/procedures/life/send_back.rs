//! `POST /v1/procedures/{code}/return`

use axum::{extract::State, response::Response};

use super::{Step, take};
use crate::{
    access::{Approve, Permitted},
    check::ProcedureState,
    http::{
        AppState, CodePath, IfMatch, JsonBody, Retry, problem::Problem, responses::ChangeProblems,
    },
    procedures::ProcedureDocument,
    records::RecordAnswer,
    wire::{self, wire_object},
};

/// Name of the event.
pub(super) const EVENT: &str = "returned";

wire_object! {
    /// Why a revision is returned to its author.
    pub struct ReturnIn {
        /// What has to change.
        pub reason: String,
    }
}

/// Return a revision to its author
///
/// Returns a revision under review to its author. A signature of its support falls: the author may now
/// write something else than what was signed.
#[utoipa::path(
    post, path = "/v1/procedures/{code}/return", tag = "procedures",
    request_body = ReturnIn,
    params(
        ("code" = String, Path, description = "Number of the procedure"),
        ("If-Match" = String, Header, description = "ETag of the version you read"),
        ("Idempotency-Key" = Option<String>, Header, description = "For a safe retry"),
    ),
    responses(
        (status = 200, description = "A draft again",
            headers(
                ("ETag" = String, description = "Version of the record"),
                ("Rulebook-Version" = i64, description = "First rulebook that knows it; sent where checks need it"),
            ), body = RecordAnswer<ProcedureDocument>),
        ChangeProblems,
    ),
)]
pub(in crate::procedures) async fn return_procedure(
    permitted: Permitted<Approve>,
    State(state): State<AppState>,
    if_match: IfMatch,
    retry: Retry,
    CodePath(code): CodePath,
    JsonBody(body): JsonBody,
) -> Result<Response, Problem> {
    let sent: ReturnIn = wire::read(&body)?;
    let step = Step {
        path: "return",
        event: EVENT,
        from: &[ProcedureState::InReview],
        to: Some(ProcedureState::Draft),
        second_person: false,
        reason: Some(&sent.reason),
        effective_from: None,
        revision: None,
    };
    take(&state, &permitted.caller, (&if_match, &retry), &code, &body, step, None).await
}
