//! `POST /v1/procedures/{code}/revision-withdrawal`

use axum::{extract::State, response::Response};

use super::{Step, revision_named, take};
use crate::{
    access::{Approve, Permitted},
    check::ProcedureState,
    http::{
        AppState, CodePath, IfMatch, JsonBody, NoQuery, Retry, problem::Problem,
        responses::ChangeProblems,
    },
    procedures::ProcedureDocument,
    records::RecordAnswer,
    wire::{self, wire_object},
};

wire_object! {
    /// A revision to be withdrawn alone.
    pub struct RevisionWithdrawalIn {
        /// The revision.
        pub revision: u32,
        /// Why, for those who read the history.
        pub reason: String,
    }
}

/// Withdraw one revision
///
/// Takes one revision out of use and leaves the others as they are: a released one while a newer one is being
/// written, or a superseded one before its last day. The newest revision goes with the procedure.
#[utoipa::path(
    post, path = "/v1/procedures/{code}/revision-withdrawal", tag = "procedures",
    request_body = RevisionWithdrawalIn,
    params(
        ("code" = String, Path, description = "Number of the procedure"),
        ("If-Match" = String, Header, description = "ETag of the version you read"),
        ("Idempotency-Key" = Option<String>, Header, description = "For a safe retry"),
    ),
    responses(
        (status = 200, description = "Withdrawn; checks no longer see it",
            headers(
                ("ETag" = String, description = "Version of the record"),
                ("Rulebook-Version" = i64, description = "First rulebook that knows it; sent where checks need it"),
            ),
            body = RecordAnswer<ProcedureDocument>),
        ChangeProblems,
    ),
)]
pub(in crate::procedures) async fn withdraw_procedure_revision(
    permitted: Permitted<Approve>,
    State(state): State<AppState>,
    if_match: IfMatch,
    retry: Retry,
    _: NoQuery,
    CodePath(code): CodePath,
    JsonBody(body): JsonBody,
) -> Result<Response, Problem> {
    let sent: RevisionWithdrawalIn = wire::read(&body)?;
    let step = Step {
        path: "revision-withdrawal",
        event: "withdrawn",
        from: &[ProcedureState::Released, ProcedureState::Superseded],
        to: Some(ProcedureState::Withdrawn),
        second_person: false,
        reason: Some(&sent.reason),
        effective_from: None,
        revision: revision_named(Some(sent.revision))?,
    };
    take(&state, &permitted.caller, (&if_match, &retry), &code, &body, step, None).await
}
