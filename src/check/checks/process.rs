//! `process`: welding process against the procedure and the filler's designation.

use crate::check::{
    Case, Findings, Force, Source,
    choice_check::{Rule, Words, texts},
    registry::declare_check,
};

declare_check! {
    /// ## Checks
    /// The welding process is the procedure's, by its ISO 4063 number, and one that the form of the consumable, as
    /// covered electrode or solid wire, and its designation serve.
    ///
    /// ## Why
    /// No code lets a qualification in one process stand for another: arc, metal transfer and
    /// protection of the puddle all differ.
    ///
    /// ## Source
    /// Process is an essential variable of ISO 15614-1:2017, 8.4.1 (clause from memory) and starts a
    /// new procedure in AWS D1.1 (2015, clause 4, Table 4.5 heading). Forms: the names of ISO 4063:2009 (from memory).
    ///
    /// ## Not checked
    /// Manual, partly mechanised or automatic operation, which `mechanisation` looks at.
    "process", Process => check, texts!(PROCEDURE, FORM, DESIGNATION)
}

const PROCEDURE: Words = Words {
    consequence: Some(
        "The test welds say nothing about this process: fusion and strength are unproven.",
    ),
    change: Some("Weld by process"),
    state: Some("State the welding process by its ISO 4063 number."),
    ..Words::NONE
};

const FORM: Words = Words {
    consequence: Some(
        "A filler of this form cannot be fed, carry the current or be shielded as the process needs.",
    ),
    change: Some("Use a filler of a form for this process; one of this form is for"),
    state: Some("State the process, so that it can be held against the form of the filler."),
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
    if let Some(consumable) = case.consumable {
        let source = Source::Maker(consumable);
        let rule = Rule { check: &CHECK, source, force: Force::Required, words: &FORM };
        rule.one_of(findings, process, consumable.kind.processes());
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
        trade::{Process, designation::FillerKind},
    };

    fn outcomes(change: impl FnOnce(&mut Scene)) -> Vec<crate::check::Outcome> {
        Scene::allowed().with(change).outcomes("process")
    }

    #[test]
    fn the_process_is_that_of_procedure_and_filler() {
        assert_eq!(outcomes(|_| ()), [Inside; 3]);
        assert_eq!(outcomes(|s| s.setup.process = None), [NotGiven; 3]);
        let solid = Some(Process::MagSolidWire);
        assert_eq!(outcomes(|s| s.setup.process = solid), [Outside; 3]);
    }

    #[test]
    fn moving_the_limit_past_the_value_flips_the_outcome() {
        let outcomes = outcomes(|s| s.procedure.process = Process::MagMetalCored);
        assert_eq!(outcomes, [Outside, Inside, Inside]);
    }

    /// ISO 4063:2009 (from memory): 111 is with covered electrode, 135 with solid wire, 141 with solid filler, 121 with
    /// solid wire electrode.
    #[test]
    fn a_filler_without_designation_is_known_by_its_form() {
        let with = |kind, process| {
            outcomes(|s| {
                let filler = s.consumable.as_mut().unwrap();
                (filler.kind, filler.designations) = (kind, Vec::new());
                (s.setup.process, s.procedure.process) = (Some(process), process);
            })
        };
        for (kind, process, outcome) in [
            (FillerKind::CoveredElectrode, Process::ManualMetalArc, Inside),
            (FillerKind::CoveredElectrode, Process::MagSolidWire, Outside),
            (FillerKind::CoveredElectrode, Process::TigSolidFiller, Outside),
            (FillerKind::CoveredElectrode, Process::SubmergedSolidWire, Outside),
            (FillerKind::SolidWire, Process::ManualMetalArc, Outside),
            (FillerKind::SolidWire, Process::SubmergedSolidWire, Inside),
            (FillerKind::Rod, Process::TigSolidFiller, Inside),
            (FillerKind::Rod, Process::MagSolidWire, Outside),
            (FillerKind::FluxCoredWire, Process::SelfShieldedFluxCored, Outside),
        ] {
            assert_eq!(with(kind, process), [Inside, outcome], "{kind} {process}");
        }
    }
}
