//! `procedure-in-force`: whether the procedure revision may be welded to on the day.

use time::Date;

use crate::check::{
    Case, Finding, Force, Outcome, Owner, ProcedureReference, ProcedureState, Shown,
    choice_check::{Rule, Words, texts},
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

fn check(case: &Case<'_>, findings: &mut Vec<Finding>) {
    let Procedure { effective_from, effective_until, .. } = case.procedure;
    let (outcome, reason) = match (effective_from, effective_until) {
        (Some(from), _) if case.day < *from => {
            (Outcome::Outside, format!("The revision takes effect on {from}, after {}.", case.day))
        }
        (_, Some(until)) if *until < case.day => {
            (Outcome::Outside, format!("The revision ended on {until}, before {}.", case.day))
        }
        _ => (Outcome::Inside, format!("The revision is released and in force on {}.", case.day)),
    };
    let rule = rule(case.procedure_owner());
    findings.push(rule.finding(outcome, span(case.procedure), Shown::word(case.day), reason));
}

/// The finding where the procedure named has no released revision to hold a setup to: `state` is
/// that of its newest revision, `None` where the organisation has no such procedure.
pub fn nothing_released(
    named: &ProcedureReference,
    state: Option<ProcedureState>,
    day: Date,
) -> Finding {
    let number = &named.number;
    let given = match named.revision {
        Some(revision) => Shown::word(format!("{number} revision {revision}")),
        None => Shown::word(number),
    };
    let rule = rule(Owner::Service);
    match (state, named.revision) {
        (None, _) => {
            let reason = format!("This organisation has no procedure {number}.");
            rule.finding(Outcome::NotGiven, given, Shown::Nothing, reason)
        }
        (Some(state), Some(revision)) => {
            let reason = format!(
                "Revision {revision} of procedure {number} is not released; its newest is {state}."
            );
            rule.finding(Outcome::Outside, given, Shown::word(day), reason)
        }
        (Some(state), None) => {
            let reason =
                format!("Procedure {number} has no released revision; its newest is {state}.");
            rule.finding(Outcome::Outside, given, Shown::word(day), reason)
        }
    }
}

const fn rule(owner: Owner) -> Rule<'static> {
    Rule { check: &CHECK, owner, force: Force::Required, words: &WORDS }
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
    use crate::check::fixture::Scene;

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
        let named = |revision| ProcedureReference { number: "WPS-9".to_owned(), revision };
        let day = date!(2025 - 06 - 01);
        for state in [
            ProcedureState::Draft,
            ProcedureState::InReview,
            ProcedureState::Superseded,
            ProcedureState::Withdrawn,
        ] {
            let finding = nothing_released(&named(None), Some(state), day);
            assert_eq!(finding.outcome, Outcome::Outside);
            assert!(finding.reason.contains(&state.to_string()), "{}", finding.reason);
        }
        let old = nothing_released(&named(Some(1)), Some(ProcedureState::Released), day);
        assert_eq!(old.outcome, Outcome::Outside);
        let unknown = nothing_released(&named(None), None, day);
        assert_eq!(unknown.outcome, Outcome::NotGiven);
    }
}
