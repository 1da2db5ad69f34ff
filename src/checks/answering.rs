//! From a question to its answer, and the answer's text.

use super::{
    answer_out::{CheckAnswer, Detail, FindingOut, OwnerOut},
    caution_out::Said,
    question::{Question, QuestionQuery, unknown_records},
    rulebook_out::RulebookOut,
};
use crate::{
    access::Caller,
    check::{Verdict, judge_named},
    http::problem::Problem,
    rulebook::Rulebooks,
    trade::Coded,
    wire::{Units, write_json},
};

/// Judges a question, and writes the answer.
///
/// # Errors
/// Records that it names and that do not exist, units and details that do not.
pub(super) fn answered(
    rulebooks: &Rulebooks,
    caller: &Caller,
    query: &QuestionQuery,
    question: &Question,
) -> Result<Vec<u8>, Problem> {
    let answer = answer(rulebooks, caller, query, question, None)?;
    let mut text = Vec::with_capacity(answer.room());
    write_json(&answer, &mut text).map_err(Problem::internal)?;
    Ok(text)
}

/// Judges a question; shared by single checks and streams, whose lines do not say again what was `said`.
pub(super) fn answer(
    rulebooks: &Rulebooks,
    caller: &Caller,
    query: &QuestionQuery,
    question: &Question,
    said: Option<&mut Said>,
) -> Result<CheckAnswer, Problem> {
    let units = query.units(&question.rulebook)?;
    told(question, question.rulebook_now(rulebooks), units, query.detail(caller)?, said)
}

/// The answer to send and the whole one to keep, which are the same but for how much is told.
pub(super) fn answers_to_keep(
    rulebooks: &Rulebooks,
    caller: &Caller,
    query: &QuestionQuery,
    question: &Question,
) -> Result<(CheckAnswer, CheckAnswer), Problem> {
    let (units, now) = (query.units(&question.rulebook)?, question.rulebook_now(rulebooks));
    let detail = query.detail(caller)?;
    let whole = told(question, now, units, Detail::Full, None)?;
    let sent = match detail {
        Detail::Full => whole.clone(),
        Detail::Summary => told(question, now, units, detail, None)?,
    };
    Ok((sent, whole))
}

fn told(
    question: &Question,
    (rulebook, too_old): (RulebookOut, bool),
    units: Units,
    detail: Detail,
    said: Option<&mut Said>,
) -> Result<CheckAnswer, Problem> {
    let Question { setup, day, rulebook: held_to, .. } = question;
    let judged =
        judge_named(&held_to.book, setup, *day, detail.telling()).map_err(unknown_records)?;
    let verdict = judged.verdict;
    let mut answer =
        CheckAnswer::after(said, judged, rulebook, units, detail).map_err(Problem::internal)?;
    if too_old {
        let verdict = verdict.max(Verdict::Undetermined);
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
        owner: OwnerOut { kind: "service", name: "this service".into() },
        reason: format!(
            "The records were last confirmed {} s ago; past {} {} nothing is allowed.",
            rulebook.age.value, rulebook.stale_after.value, rulebook.stale_after.unit
        ),
        remedy: Some(
            "Wait until the service reaches its database again, then check anew.".to_owned(),
        ),
        consequence: Some("A procedure may have been withdrawn in the meantime."),
        accuracy_unknown: false,
        conformity: None,
    }
}
