//! `diameter`: nominal wire or electrode size against the procedure and the consumable.

use crate::{
    check::{
        Case, Findings, Force, Outcome, Shown, Source,
        choice_check::{Rule, Said, Words, texts},
        registry::declare_check,
    },
    trade::Process,
};

declare_check! {
    /// ## Checks
    /// The nominal diameter is one the procedure allows and one the consumable is recorded in.
    /// 0.045 in and 1.2 mm are two sizes.
    ///
    /// ## Why
    /// Diameter sets the current density: the same feed of a thicker wire is another current, another
    /// bead and another heat.
    ///
    /// ## Source
    /// The procedure and the consumable's record. Filler size is an essential variable of AWS D1.1
    /// (2015, Table 4.5).
    ///
    /// ## Not checked
    /// Tolerance of the wire; the rolls of the feeder, which `station-feeder` checks.
    "diameter", Diameter => check, texts!(PROCEDURE, CONSUMABLE)
}

const PROCEDURE: Words = Words {
    consequence: Some(
        "Another size carries another current density: penetration and bead leave the test behind.",
    ),
    change: Some("Change to a diameter the procedure allows:"),
    state: Some("State the nominal diameter of the wire or electrode."),
    record: Some("Record the diameters the procedure allows."),
};

const CONSUMABLE: Words = Words {
    consequence: Some("The wire loaded is not the one recorded, or its size is misread."),
    change: Some("Read the size on the label again; this filler is recorded in"),
    state: Some("State the diameter, so that it can be held against the filler's sizes."),
    record: Some("Record the diameters the filler is bought in."),
};

fn check(case: &Case<'_>, findings: &mut Findings) {
    let stated = case.setup.filler.diameter;
    let sizes = &case.procedure.diameters;
    let rule = |source, words| Rule { check: &CHECK, source, force: Force::Required, words };
    let procedure = rule(case.procedure_source(), &PROCEDURE);
    if case.procedure.process == Process::TigAutogenous && sizes.is_empty() {
        let reason = "The process has no filler.";
        procedure.finding(findings, Outcome::NotApplicable, |_| Said::reason(reason));
        return;
    }
    let shown = |_| stated.map_or(Shown::Nothing, |diameter| Shown::Amount(diameter.amount()));
    if !findings.has_settled(CHECK.variable) {
        procedure.one_of_shown(findings, stated, shown, sizes);
    }
    if let Some(consumable) = case.consumable {
        let maker = rule(Source::Maker(consumable), &CONSUMABLE);
        maker.one_of_shown(findings, stated, shown, &consumable.diameters);
    }
}

#[cfg(test)]
mod tests {
    use crate::{
        check::{
            Outcome,
            Outcome::*,
            fixture::{Scene, quantity},
        },
        trade::Process,
    };

    fn outcomes(change: impl FnOnce(&mut Scene)) -> Vec<Outcome> {
        Scene::allowed().with(change).outcomes("diameter")
    }

    #[test]
    fn every_outcome() {
        assert_eq!(outcomes(|_| ()), [Inside, Inside]);
        assert_eq!(outcomes(|s| s.procedure.diameters = vec![quantity("1 mm")]), [Outside, Inside]);
        let bought =
            |s: &mut Scene| s.consumable.as_mut().unwrap().diameters = vec![quantity("1 mm")];
        assert_eq!(outcomes(bought), [Inside, Outside]);
        assert_eq!(outcomes(|s| s.setup.filler.diameter = None), [NotGiven, NotGiven]);
        assert_eq!(outcomes(|s| s.procedure.diameters.clear()), [NoLimit, Inside]);
        assert_eq!(outcomes(|s| s.consumable = None), [Inside]);
    }

    /// 0.045 in is 1.143 mm (exact).
    #[test]
    fn two_nominal_sizes_of_one_class_are_two() {
        let inch = outcomes(|s| s.setup.filler.diameter = Some(quantity("0.045 in")));
        assert_eq!(inch, [Outside, Outside]);
    }

    #[test]
    fn a_weld_without_filler_has_no_size() {
        let autogenous = outcomes(|s| {
            s.procedure.process = Process::TigAutogenous;
            s.procedure.diameters.clear();
        });
        assert_eq!(autogenous, [NotApplicable]);
    }
}
