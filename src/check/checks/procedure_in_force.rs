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
    consequence: "The weld would be made to limits that nobody has released for this day.",
    change: "Weld to a revision that is in force on",
    state: "Name a procedure that this organisation has.",
    record: "Release a revision of the procedure.",
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
