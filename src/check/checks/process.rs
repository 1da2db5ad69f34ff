//! `process`: welding process against the procedure and the filler's designation.

use crate::check::{
    Case, Findings, Force,
    choice_check::{Rule, Words, texts},
    registry::declare_check,
};

declare_check! {
    /// ## Checks
    /// The welding process is the procedure's, by its ISO 4063 number, and one that the designation
    /// of the consumable serves.
    ///
    /// ## Why
    /// No code lets a qualification in one process stand for another: arc, metal transfer and
    /// protection of the puddle all differ.
    ///
    /// ## Source
    /// Process is an essential variable of ISO 15614-1:2017, 8.4.1 (clause from memory) and starts a
    /// new procedure in AWS D1.1 (2015, clause 4, Table 4.5 heading).
    ///
    /// ## Not checked
    /// Manual, partly mechanised or automatic operation, which the records do not hold.
    "process", Process => check, texts!(PROCEDURE, DESIGNATION)
}

const PROCEDURE: Words = Words {
    consequence: Some(
        "The test welds say nothing about this process: fusion and strength are unproven.",
    ),
    change: Some("Weld by process"),
    state: Some("State the welding process by its ISO 4063 number."),
    ..Words::NONE
};

const DESIGNATION: Words = Words {
    consequence: Some(
        "A filler made for another process runs badly and misses its designed deposit.",
    ),
    change: Some("Use a filler for this process, or with this filler weld by"),
    state: Some("State the process, so that it can be held against the filler's designation."),
    ..Words::NONE
};

fn check(case: &Case<'_>, findings: &mut Findings) {
    let process = case.setup.process;
    let source = case.procedure_source();
    let rule = Rule { check: &CHECK, source, force: Force::Required, words: &PROCEDURE };
    if !findings.has_settled(CHECK.variable) {
        rule.one_of(findings, process, &[case.procedure.process]);
    }
    for designation in case.designations().filter(|known| !known.processes().is_empty()) {
        let source = case.designation_source(designation);
        let rule = Rule { check: &CHECK, source, force: Force::Required, words: &DESIGNATION };
        rule.one_of(findings, process, designation.processes());
    }
}

#[cfg(test)]
mod tests {
    use crate::{
        check::{Outcome::*, fixture::Scene},
        trade::Process,
    };

    fn outcomes(change: impl FnOnce(&mut Scene)) -> Vec<crate::check::Outcome> {
        Scene::allowed().with(change).outcomes("process")
    }

    #[test]
    fn the_process_is_that_of_procedure_and_filler() {
        assert_eq!(outcomes(|_| ()), [Inside, Inside]);
        assert_eq!(outcomes(|s| s.setup.process = None), [NotGiven, NotGiven]);
        let solid = Some(Process::MagSolidWire);
        assert_eq!(outcomes(|s| s.setup.process = solid), [Outside, Outside]);
    }

    #[test]
    fn moving_the_limit_past_the_value_flips_the_outcome() {
        let outcomes = outcomes(|s| s.procedure.process = Process::MagMetalCored);
        assert_eq!(outcomes, [Outside, Inside]);
    }

    #[test]
    fn a_filler_without_designation_sets_no_process() {
        let outcomes = outcomes(|s| s.consumable.as_mut().unwrap().designations.clear());
        assert_eq!(outcomes, [Inside]);
    }
}
