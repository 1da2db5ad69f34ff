//! `POST /v1/procedures/{code}/support-signature`

use axum::{extract::State, response::Response};

use super::{Step, revision_named, take};
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
pub(super) const EVENT: &str = "support-signed";

wire_object! {
    /// The declaration a person signs.
    pub struct SignatureIn {
        /// What the signer has seen and vouches for, in words.
        pub statement: String,
        /// Revision that is signed; the newest where left out. A released revision can be signed while a newer
        /// one is being written.
        pub revision: Option<u32>,
    }
}

/// Sign the support
///
/// Signs the support of the newest revision, or of the one that is named: a person who wrote no part of it vouches that the procedure is
/// qualified, where that is declared, or vouches for what the rules could not judge in its qualification
/// records. Until then every verdict is at best `undetermined`.
#[utoipa::path(
    post, path = "/v1/procedures/{code}/support-signature", tag = "procedures",
    request_body = SignatureIn,
    params(
        ("code" = String, Path, description = "Number of the procedure"),
        ("If-Match" = String, Header, description = "ETag of the version you read"),
        ("Idempotency-Key" = Option<String>, Header, description = "For a safe retry"),
    ),
    responses(
        (status = 200, description = "Signed",
            headers(
                ("ETag" = String, description = "Version of the record"),
                ("Rulebook-Version" = i64, description = "First rulebook that knows it; sent where checks need it"),
            ), body = RecordAnswer<ProcedureDocument>),
        ChangeProblems,
    ),
)]
pub(in crate::procedures) async fn sign_procedure_support(
    permitted: Permitted<Approve>,
    State(state): State<AppState>,
    if_match: IfMatch,
    retry: Retry,
    CodePath(code): CodePath,
    JsonBody(body): JsonBody,
) -> Result<Response, Problem> {
    let sent: SignatureIn = wire::read(&body)?;
    let step = Step {
        path: "support-signature",
        event: EVENT,
        from: &[ProcedureState::InReview, ProcedureState::Released],
        to: None,
        second_person: true,
        reason: Some(&sent.statement),
        effective_from: None,
        revision: revision_named(sent.revision)?,
    };
    take(&state, &permitted.caller, (&if_match, &retry), &code, &body, step, None).await
}
