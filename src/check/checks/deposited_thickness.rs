//! `deposited-thickness`: thickness that is deposited against the procedure.

use crate::check::{
    Case, Findings, Force, Outcome, Shown,
    choice_check::{Rule, Words, texts},
    registry::declare_check,
};

declare_check! {
    /// ## Checks
    /// The thickness that this process deposits in all its runs lies inside the range the procedure covers, ends
    /// included. Where it covers any, nothing is said, unless the setup states one: that is then left open.
    ///
    /// ## Why
    /// Of a joint that two processes fill, each deposits a part; a test of a thin deposit says nothing about the
    /// layers above it.
    ///
    /// ## Source
    /// The procedure. Rules behind it: ISO 15614-1:2017, 8.3.2 and its tables (deposited thickness of each
    /// process); ASME IX QW-451 (deposited weld metal).
    ///
    /// ## Not checked
    /// Whether the runs add up to it: the setup states it.
    "deposited-thickness", DepositedThickness => check, texts!(WORDS)
}

const WORDS: Words = Words {
    consequence: Some(
        "A thicker deposit than tested is held and heated otherwise by its layers: cracks, hard or brittle metal.",
    ),
    change: Some("Use a procedure for this deposit; this one covers"),
    state: Some("State the thickness that this process deposits in the joint."),
    ..Words::NONE
};

fn check(case: &Case<'_>, findings: &mut Findings) {
    let source = case.procedure_source();
    let rule = Rule { check: &CHECK, source, force: Force::Required, words: &WORDS };
    let stated = case.setup.job.deposited_thickness;
    if let Some(range) = case.procedure.deposited_thickness.as_deref() {
        rule.within(findings, stated, range, ("how thick the deposit is", "A deposit"));
    } else if let Some(stated) = stated {
        let given = || Shown::Amount(stated.amount());
        let why = "The deposited thickness is left open";
        rule.of_owner(findings, Outcome::NotApplicable, given, why);
    }
}

#[cfg(test)]
mod tests {
    use crate::check::{
        Outcome::*,
        Verdict,
        fixture::{Scene, quantity, range},
    };

    fn scene(limited: bool, stated: Option<&'static str>) -> Scene {
        Scene::allowed().with(|s| {
            s.procedure.deposited_thickness = limited.then(|| Box::new(range("8 mm", "24 mm")));
            s.setup.job.deposited_thickness = stated.map(quantity);
        })
    }

    /// 24 mm is 0.944 881 9 in (own arithmetic).
    #[test]
    fn a_range_has_to_be_stated_and_kept() {
        let outcomes = |limited, stated| scene(limited, stated).outcomes("deposited-thickness");
        for (stated, outcome) in [
            (Some("8 mm"), Inside),
            (Some("24 mm"), Inside),
            (Some("0.944 in"), Inside),
            (Some("0.945 in"), Outside),
            (Some("7.99 mm"), Outside),
            (None, NotGiven),
        ] {
            assert_eq!(outcomes(true, stated), [outcome], "{stated:?}");
        }
        assert_eq!(outcomes(false, None), []);
        assert_eq!(outcomes(false, Some("40 mm")), [NotApplicable]);
        assert_eq!(scene(true, None).verdict(), Verdict::Undetermined);
        assert_eq!(scene(true, Some("25 mm")).verdict(), Verdict::NotAllowed);
        assert_eq!(scene(true, Some("12 mm")).verdict(), Verdict::Allowed);
    }
}
