//! `thickness`: thickness of every part against the procedure.

use crate::check::{
    Case, Findings, Force, Outcome, Shown,
    choice_check::{Rule, Words, texts},
    registry::declare_check,
};

declare_check! {
    /// ## Checks
    /// The thickness of every part at the joint lies inside the range the procedure covers, ends
    /// included. A butt or a fillet joins two parts: one that is stated alone does not stand for the
    /// other.
    ///
    /// ## Why
    /// Thick parts draw the heat away and hold the weld fast: hard, cracked zones. Thin ones burn
    /// through.
    ///
    /// ## Source
    /// The procedure. Rules behind the range: ISO 15614-1:2017, 8.3.2 and its tables; AWS D1.1 (2015,
    /// Table 4.2, number from memory).
    ///
    /// ## Not checked
    /// Width of a run, pipe diameter; leg and throat are the check `fillet-size`, what is deposited is the check
    /// `deposited-thickness`.
    "thickness", Thickness => check, texts!(WORDS)
}

const WORDS: Words = Words {
    consequence: Some(
        "Cooling and restraint differ from the test: cracks in thick parts, burn-through in thin ones.",
    ),
    change: Some("Use a procedure for this thickness; this one covers"),
    state: Some(
        "State the thickness of every part at the joint; two parts alike are listed twice.",
    ),
    record: Some("Record the thickness range the procedure covers."),
};

fn check(case: &Case<'_>, findings: &mut Findings) {
    if findings.has_settled(CHECK.variable) {
        return;
    }
    let source = case.procedure_source();
    let rule = Rule { check: &CHECK, source, force: Force::Required, words: &WORDS };
    let Some(range) = &case.procedure.thickness else {
        rule.of_owner(findings, Outcome::NoLimit, || Shown::Nothing, "No thickness is set");
        return;
    };
    for part in &case.setup.job.base_metals {
        let named = ("how thick every part is", "A part");
        rule.within(findings, part.thickness, range, named);
    }
    rule.lacking_part(findings, &case.setup.job, "sets", || Shown::Range(range.amounts()));
}

#[cfg(test)]
mod tests {
    use crate::check::{
        Outcome,
        Outcome::*,
        fixture::{Scene, quantity},
    };

    fn outcomes(change: impl FnOnce(&mut Scene)) -> Vec<Outcome> {
        Scene::allowed().with(change).outcomes("thickness")
    }

    /// The procedure covers 6 to 24 mm; 24 mm is 0.944 881 9 in (own arithmetic).
    #[test]
    fn every_part_has_every_outcome() {
        let second = |text: &'static str| {
            outcomes(|s| s.setup.job.base_metals[1].thickness = Some(quantity(text)))
        };
        assert_eq!(second("24 mm"), [Inside, Inside]);
        assert_eq!(second("24.01 mm"), [Inside, Outside]);
        assert_eq!(second("0.945 in"), [Inside, Outside]);
        assert_eq!(second("6 mm"), [Inside, Inside]);
        assert_eq!(second("5.99 mm"), [Inside, Outside]);
        let open = outcomes(|s| s.setup.job.base_metals[0].thickness = None);
        assert_eq!(open, [NotGiven, Inside]);
        assert_eq!(outcomes(|s| s.setup.job.base_metals.clear()), [NotGiven]);
        assert_eq!(outcomes(|s| s.setup.job.base_metals.truncate(1)), [Inside, NotGiven]);
        assert_eq!(outcomes(|s| s.procedure.thickness = None), [NoLimit]);
    }
}
