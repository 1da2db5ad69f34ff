//! From a question to its answer, and the answer's text.

use super::{
    answer_out::{CheckAnswer, FindingOut, OwnerOut},
    question::{Question, QuestionQuery},
};
use crate::{
    access::Caller,
    check::{Verdict, judge},
    http::problem::Problem,
    rulebook::Rulebooks,
    trade::Coded,
    wire::write_json,
};

/// Bytes that hold most answers.
pub(super) const ROOM: usize = 8 * 1024;

/// The answer as JSON text, written once.
pub(super) fn written(answer: &CheckAnswer) -> Result<Vec<u8>, Problem> {
    let mut text = Vec::with_capacity(ROOM);
    write_json(answer, &mut text).map_err(Problem::internal)?;
    Ok(text)
}

/// Judges a question; shared by single checks and streams.
pub(super) fn answer(
    rulebooks: &Rulebooks,
    caller: &Caller,
    query: &QuestionQuery,
    question: &Question,
) -> Result<CheckAnswer, Problem> {
    let detail = query.detail(caller)?;
    let units = query.units(&question.rulebook)?;
    let judged = judge(&question.rulebook.book, &question.setup, question.day, detail.telling());
    let (rulebook, too_old) = question.rulebook_now(rulebooks);
    let verdict = judged.verdict;
    let mut answer =
        CheckAnswer::new(judged, rulebook, units, detail).map_err(Problem::internal)?;
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
        conformity: None,
    }
}
