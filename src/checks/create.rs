//! `POST /v1/checks`

use axum::{Json, extract::State, http::HeaderMap};
use serde_json::{Value, json};
use time::OffsetDateTime;
use uuid::Uuid;

use super::{
    SetupIn,
    answer_out::{CheckAnswer, FindingOut, OwnerOut},
    question::{Question, QuestionQuery},
    store::{self, KeptCheck},
};
use crate::{
    access::{AnyRole, Caller, Permitted},
    check::{Verdict, judge},
    database::TenantTx,
    http::{AppState, JsonBody, Query, problem::Problem, responses::AskProblems},
    trade::Coded,
    wire::ToWire,
};

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
    ),
    responses(
        (status = 200, description = "The verdict with its reasons", body = CheckAnswer),
        AskProblems,
    ),
)]
pub(super) async fn check_setup(
    permitted: Permitted<AnyRole>,
    State(state): State<AppState>,
    headers: HeaderMap,
    Query(query): Query<QuestionQuery>,
    JsonBody(body): JsonBody,
) -> Result<Json<CheckAnswer>, Problem> {
    let caller = &permitted.caller;
    let question = Question::read(&state, caller, &headers, &body).await?;
    let mut answer = answer(&state, caller, &query, &question)?;
    if question.sent.keep == Some(true) {
        answer.check_id = Some(keep(&state, caller, &question, &answer).await?);
    }
    Ok(Json(answer))
}

/// Judges a question; shared by single checks and streams.
pub(super) fn answer(
    state: &AppState,
    caller: &Caller,
    query: &QuestionQuery,
    question: &Question,
) -> Result<CheckAnswer, Problem> {
    let detail = query.detail(caller)?;
    let units = query.units(&question.rulebook)?;
    let judged = judge(&question.rulebook.book, &question.setup, question.day);
    let (rulebook, too_old) = question.rulebook_now(state);
    let mut answer = CheckAnswer::new(&judged, rulebook, units, detail);
    if too_old {
        let verdict = judged.verdict.max(Verdict::Undetermined);
        answer.verdict = verdict.code();
        answer.findings.insert(0, age_finding(&answer));
    }
    Ok(answer)
}

/// Records that nobody has confirmed for too long allow nothing.
fn age_finding(answer: &CheckAnswer) -> FindingOut {
    let rulebook = &answer.rulebook;
    FindingOut {
        check: "rulebook-age",
        pointer: "",
        outcome: "not-given",
        force: "required",
        given: None,
        allowed: None,
        owner: OwnerOut { kind: "service", name: "this service".to_owned() },
        reason: format!(
            "The records were last confirmed {} s ago; past {} {} nothing is allowed.",
            rulebook.age.value, rulebook.stale_after.value, rulebook.stale_after.unit
        ),
        remedy: Some(
            "Wait until the service reaches its database again, then check anew.".to_owned(),
        ),
        consequence: Some("A procedure may have been withdrawn in the meantime."),
        accuracy_unknown: false,
    }
}

async fn keep(
    state: &AppState,
    caller: &Caller,
    question: &Question,
    answer: &CheckAnswer,
) -> Result<Uuid, Problem> {
    let check_id = Uuid::now_v7();
    let mut answer: Value = json!(answer);
    answer["check_id"] = json!(check_id);
    let kept = KeptCheck {
        check_id,
        at: OffsetDateTime::now_utc(),
        rulebook_version: question.rulebook.version,
        setup: question.sent.to_wire(),
        answer,
    };
    let mut tx = TenantTx::begin(&state.pool, caller.actor()).await?;
    store::insert(&mut tx, &kept).await?;
    tx.commit().await?;
    Ok(check_id)
}
