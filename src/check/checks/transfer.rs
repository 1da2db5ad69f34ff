//! `transfer`: metal transfer through the arc against the procedure.

use crate::check::{
    Case, Findings, Force,
    choice_check::{Rule, Words, texts},
    registry::declare_check,
};

declare_check! {
    /// ## Checks
    /// The metal transfer is the one the procedure fixes for this run. Where it fixes none, nothing is said,
    /// unless the setup states one: that is then left open.
    ///
    /// ## Why
    /// A short-circuiting arc puts in so little heat that it can lie on thick plate without fusing; spray and
    /// globular transfer burn through where it bridges a gap.
    ///
    /// ## Source
    /// The procedure. Rules behind it: ISO 15614-1:2017 + A1:2019, 8.5.2.3 (processes 131, 135, 138); ASME IX
    /// QW-409.2; AWS D1.1:2015, Table 4.5, row 14 (Table 6.5 of 2020; the edition's numbering is from a
    /// secondary text). ISO 15609-1:2019 lists it for processes 13x.
    ///
    /// ## Not checked
    /// Whether current, volts and gas give the transfer that is stated.
    "transfer", Transfer => check, texts!(WORDS)
}

const WORDS: Words = Words {
    consequence: Some(
        "Another transfer melts the joint otherwise than tested: lack of fusion, or burn-through.",
    ),
    change: Some("Set the source for the transfer of the procedure:"),
    state: Some("State the metal transfer: short-circuit, globular, spray or pulsed."),
    ..Words::NONE
};

fn check(case: &Case<'_>, findings: &mut Findings) {
    if findings.has_settled(CHECK.variable) {
        return;
    }
    let source = case.procedure_source();
    let rule = Rule { check: &CHECK, source, force: Force::Required, words: &WORDS };
    let (stated, fixed) = (case.setup.settings.transfer, case.run.transfer);
    rule.kept(findings, stated, fixed, "The metal transfer is left open for this run");
}

#[cfg(test)]
mod tests {
    use crate::{
        check::{
            Outcome,
            Outcome::*,
            Verdict,
            fixture::{Scene, set},
        },
        qualify::record::Transfer::{self, ShortCircuit, Spray},
    };

    fn scene(fixed: Option<Transfer>, stated: Option<Transfer>) -> Scene {
        Scene::allowed().with(|s| {
            s.procedure.runs[0].transfer = fixed;
            s.setup.settings.transfer = stated;
        })
    }

    fn outcomes(fixed: Option<Transfer>, stated: Option<Transfer>) -> Vec<Outcome> {
        scene(fixed, stated).outcomes("transfer")
    }

    #[test]
    fn what_the_procedure_fixes_has_to_be_stated_and_kept() {
        assert_eq!(outcomes(Some(Spray), Some(Spray)), [Inside]);
        assert_eq!(outcomes(Some(Spray), Some(ShortCircuit)), [Outside]);
        assert_eq!(outcomes(Some(ShortCircuit), Some(Spray)), [Outside]);
        assert_eq!(outcomes(Some(Spray), None), [NotGiven]);
        assert_eq!(scene(Some(Spray), None).verdict(), Verdict::Undetermined);
        assert_eq!(scene(Some(Spray), Some(Spray)).verdict(), Verdict::Allowed);
    }

    #[test]
    fn what_it_leaves_open_is_no_matter() {
        assert_eq!(outcomes(None, None), []);
        assert_eq!(outcomes(None, Some(ShortCircuit)), [NotApplicable]);
        assert_eq!(scene(None, Some(ShortCircuit)).verdict(), Verdict::Allowed);
    }

    /// A setting inside its limits does not say how the metal goes over.
    #[test]
    fn current_and_volts_do_not_stand_for_it() {
        let low = scene(Some(Spray), None).with(|s| {
            s.setup.settings.current = Some(set("200 A"));
            s.setup.settings.voltage = Some(set("25 V"));
        });
        assert_eq!(low.outcomes("transfer"), [NotGiven]);
    }
}
