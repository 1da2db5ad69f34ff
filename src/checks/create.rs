//! `POST /v1/checks`

use std::sync::Arc;

use axum::{extract::State, http::StatusCode, response::Response};
use serde_json::{Value, json};
use time::OffsetDateTime;
use uuid::Uuid;

use super::{
    SetupIn,
    answer_out::CheckAnswer,
    answering::{answered, answers_to_keep},
    question::{Question, QuestionQuery},
    store::{self, KeptCheck},
};
use crate::{
    access::{AnyRole, Caller, Permitted},
    database::{Change, TenantTx, document_hash},
    http::{
        AppState, JsonText, Query, Retry, Writing, json_answer,
        problem::Problem,
        responses::KeepProblems,
        retry::{Begun, WantedRulebook},
    },
    wire::ToWire,
};

/// Where kept answers are found again.
const ROUTE: &str = "POST /v1/checks";

/// Check a setup
///
/// Checks a proposed setup before the arc.
///
/// Held to the procedure it names, or else to every released procedure that covers the job under its
/// governing code; all findings come from the best one. A setup that fails is an answer, not an error.
/// The check runs on records in memory and opens no database connection unless `keep` is set.
#[utoipa::path(
    post, path = "/v1/checks", tag = "checks",
    request_body = SetupIn,
    params(
        QuestionQuery,
        ("Rulebook-Version" = Option<i64>, Header,
            description = "Version a write gave; the check waits up to a second for it"),
        ("Idempotency-Key" = Option<String>, Header,
            description = "For a safe retry of a check that is kept"),
    ),
    responses(
        (status = 200, description = "The verdict with its reasons", body = CheckAnswer),
        KeepProblems,
    ),
)]
pub(super) async fn check_setup(
    permitted: Permitted<AnyRole>,
    State(state): State<AppState>,
    wanted: WantedRulebook,
    retry: Retry,
    Query(query): Query<QuestionQuery>,
    text: JsonText,
) -> Result<Response, Problem> {
    let mut caller = permitted.caller;
    if wanted.0.is_some() {
        caller.rulebook = Question::rulebook(&state, &caller, wanted).await?;
    }
    let rulebook = Arc::clone(&caller.rulebook);
    // In boxes, so that a check that is not kept does not carry the room for one that is.
    match text.read().and_then(|sent| Question::of_check(&caller, rulebook, sent)) {
        Ok(question) if question.sent.keep == Some(true) => {
            let asked = Asked { caller, query, text };
            Box::pin(kept(&state, &retry, &asked, &question)).await
        }
        Ok(question) => answered(&state.rulebooks, &caller, &query, &question).map(json_answer),
        Err(problem) if retry.is_asked_for() => {
            let asked = Asked { caller, query, text };
            Box::pin(answered_before(&state, &retry, &asked, problem)).await
        }
        Err(problem) => Err(problem),
    }
}

/// A check that is to be kept, as it was asked.
struct Asked {
    caller: Caller,
    query: QuestionQuery,
    text: JsonText,
}

/// The answer kept under the retry key of a check that is refused now: what may be asked may have changed since. The
/// problem, where there is none. (A record that was withdrawn since is met in [`kept`], behind the retry key.)
async fn answered_before(
    state: &AppState,
    retry: &Retry,
    asked: &Asked,
    problem: Problem,
) -> Result<Response, Problem> {
    let Ok(body) = asked.text.node().map(|node| node.to_value()) else { return Err(problem) };
    if body["keep"] != json!(true) {
        return Err(problem);
    }
    match Writing::begin(state, &asked.caller, ROUTE, retry, &body).await? {
        Begun::Fresh(_) => Err(problem),
        Begun::Replay(response) => Ok(response),
    }
}

/// Judges a question and keeps the setup with the whole answer, of which a summary may be sent.
async fn kept(
    state: &AppState,
    retry: &Retry,
    asked: &Asked,
    question: &Question,
) -> Result<Response, Problem> {
    let Asked { caller, query, text } = asked;
    let body = text.node()?.to_value();
    let mut writing = match Writing::begin(state, caller, ROUTE, retry, &body).await? {
        Begun::Fresh(writing) => writing,
        Begun::Replay(response) => return Ok(response),
    };
    let (mut sent, mut whole) = answers_to_keep(&state.rulebooks, caller, query, question)?;
    let check_id = Uuid::now_v7();
    (sent.check_id, whole.check_id) = (Some(check_id), Some(check_id));
    keep(writing.tx(), check_id, question, json!(whole)).await?;
    writing.finish(state, StatusCode::OK, &[], json!(sent)).await
}

/// Keeps setup and answer as evidence. The chain holds the hash of both, so that neither can be changed
/// unseen.
async fn keep(
    tx: &mut TenantTx,
    check_id: Uuid,
    question: &Question,
    answer: Value,
) -> Result<(), Problem> {
    let mut setup = question.sent.to_wire();
    // What was taken for granted is part of the evidence: a kiosk's own station, and the day.
    if let Some(station) = &question.setup.station {
        setup["station"] = json!(station);
    }
    setup["day"] = question.day.to_wire();
    // How long a filler lay in the air is judged by the moment.
    if let (Some(_), Some(at)) = (&question.setup.filler.batch, question.setup.at) {
        setup["at"] = at.to_wire();
    }
    let kept = KeptCheck {
        check_id,
        at: OffsetDateTime::now_utc(),
        rulebook_version: question.rulebook.version,
        setup,
        answer,
    };
    store::insert(tx, &kept).await?;
    let evidence = json!({ "setup": kept.setup, "answer": kept.answer });
    tx.note(Change {
        action: "kept",
        kind: "check",
        subject: check_id.to_string(),
        revision: None,
        document_hash: Some(document_hash(&evidence)),
        changes_rules: false,
    });
    Ok(())
}
