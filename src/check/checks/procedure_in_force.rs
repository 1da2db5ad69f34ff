//! `procedure-in-force`: whether the procedure revision may be welded to on the day.

use time::Date;

use crate::check::{
    Case, Findings, Force, Outcome, ProcedureReference, ProcedureState, Shown, Source,
    choice_check::{Rule, Said, Words, texts},
    record::Procedure,
    registry::declare_check,
};

declare_check! {
    /// ## Checks
    /// The procedure revision is released and its effective dates include the day the setup is judged
    /// for, both days included. A draft, a revision in review, a superseded and a withdrawn one are
    /// refused.
    ///
    /// ## Why
    /// A draft has not been approved; a withdrawn or replaced revision may hold limits that proved
    /// wrong.
    ///
    /// ## Source
    /// The organisation's own release. Control of documents: ISO 3834-2 asks for it (from memory).
    ///
    /// ## Not checked
    /// Whether the printed copy on the floor is this revision.
    "procedure-in-force", Procedure => check, texts!(WORDS)
}

const WORDS: Words = Words {
    consequence: Some("The weld would be made to limits that nobody has released for this day."),
    change: Some("Weld to a revision that is in force on"),
    state: Some("Name a procedure that this organisation has."),
    ..Words::NONE
};

fn check(case: &Case<'_>, findings: &mut Findings) {
    let Procedure { effective_from, effective_until, .. } = case.procedure;
    let day = case.day;
    let too_early = effective_from.filter(|from| day < *from);
    let too_late = effective_until.filter(|until| *until < day);
    let outcome = match too_early.or(too_late) {
        Some(_) => Outcome::Outside,
        None => Outcome::Inside,
    };
    rule(case.procedure_source()).finding(findings, outcome, |_| Said {
        given: span(case.procedure),
        allowed: Shown::word(day),
        reason: match (too_early, too_late) {
            (Some(from), _) => format!("The revision takes effect on {from}, after {day}."),
            (_, Some(until)) => format!("The revision ended on {until}, before {day}."),
            _ => format!("The revision is released and in force on {day}."),
        },
    });
}

/// The finding where the procedure named has no released revision to hold a setup to: `state` is
/// that of its newest revision, `None` where the organisation has no such procedure.
pub fn nothing_released(
    named: &ProcedureReference,
    state: Option<ProcedureState>,
    day: Date,
    findings: &mut Findings,
) {
    let number = &named.number;
    let outcome = if state.is_some() { Outcome::Outside } else { Outcome::NotGiven };
    rule(Source::Service).finding(findings, outcome, |_| Said {
        given: match named.revision {
            Some(revision) => Shown::word(format!("{number} revision {revision}")),
            None => Shown::word(number),
        },
        allowed: state.map_or(Shown::Nothing, |_| Shown::word(day)),
        reason: match (state, named.revision) {
            (None, _) => format!("This organisation has no procedure {number}."),
            (Some(state), Some(revision)) => format!(
                "Revision {revision} of procedure {number} is not released; its newest is {state}."
            ),
            (Some(state), None) => {
                format!("Procedure {number} has no released revision; its newest is {state}.")
            }
        },
    });
}

const fn rule(source: Source<'_>) -> Rule<'_> {
    Rule { check: &CHECK, source, force: Force::Required, words: &WORDS }
}

fn span(procedure: &Procedure) -> Shown {
    let text = |date: Option<Date>| date.map_or_else(|| "open".to_owned(), |date| date.to_string());
    let (from, until) = (text(procedure.effective_from), text(procedure.effective_until));
    Shown::word(format!("{from} to {until}"))
}

#[cfg(test)]
mod tests {
    use time::macros::date;

    use super::*;
    use crate::check::{Finding, Telling, fixture::Scene};

    fn on(day: Date) -> Finding {
        let mut scene = Scene::allowed();
        scene.day = day;
        scene.procedure.effective_until = Some(date!(2025 - 12 - 31));
        scene.of("procedure-in-force").remove(0)
    }

    #[test]
    fn both_days_are_in_force_and_the_days_beside_them_are_not() {
        let table = [
            (date!(2024 - 12 - 31), Outcome::Outside, "takes effect on 2025-01-01"),
            (date!(2025 - 01 - 01), Outcome::Inside, "in force"),
            (date!(2025 - 12 - 31), Outcome::Inside, "in force"),
            (date!(2026 - 01 - 01), Outcome::Outside, "ended on 2025-12-31"),
        ];
        for (day, outcome, words) in table {
            let finding = on(day);
            assert_eq!(finding.outcome, outcome, "{day}");
            assert!(finding.reason.contains(words), "{}", finding.reason);
        }
    }

    #[test]
    fn what_is_not_released_is_refused_and_what_does_not_exist_is_unknown() {
        let released = |revision, state| {
            let named = ProcedureReference { number: "WPS-9".to_owned(), revision };
            let mut findings = Findings::new(Telling::Everything);
            nothing_released(&named, state, date!(2025 - 06 - 01), &mut findings);
            findings.into_told().remove(0)
        };
        for state in [
            ProcedureState::Draft,
            ProcedureState::InReview,
            ProcedureState::Superseded,
            ProcedureState::Withdrawn,
        ] {
            let finding = released(None, Some(state));
            assert_eq!(finding.outcome, Outcome::Outside);
            assert!(finding.reason.contains(&state.to_string()), "{}", finding.reason);
        }
        let old = released(Some(1), Some(ProcedureState::Released));
        assert_eq!(old.outcome, Outcome::Outside);
        let unknown = released(None, None);
        assert_eq!(unknown.outcome, Outcome::NotGiven);
    }
}
