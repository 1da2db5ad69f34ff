//! `current-form`: steady or pulsed current against the procedure.

use crate::check::{
    Case, Findings, Force,
    choice_check::{Rule, Words, texts},
    registry::declare_check,
};

declare_check! {
    /// ## Checks
    /// The current is steady or pulsed as the procedure fixes it for this run. Where it fixes none, nothing is
    /// said, unless the setup states one: that is then left open.
    ///
    /// ## Why
    /// Pulses melt and cast off the wire at a mean current at which a steady arc would short-circuit: another
    /// penetration at the same reading of the ammeter.
    ///
    /// ## Source
    /// The procedure. Rules behind it: ISO 15614-1:2017, 8.4.6 (type of current: alternating, direct, pulsed).
    ///
    /// ## Not checked
    /// Settings of the pulses; whether the output is waveform-controlled is the check `waveform`.
    "current-form", CurrentForm => check, texts!(WORDS)
}

const WORDS: Words = Words {
    consequence: Some(
        "At the same mean current the arc melts the joint otherwise than tested: lack of fusion, or burn-through.",
    ),
    change: Some("Set the source for the current of the procedure:"),
    state: Some("State whether the current is steady or pulsed."),
    ..Words::NONE
};

fn check(case: &Case<'_>, findings: &mut Findings) {
    if findings.has_settled(CHECK.variable) {
        return;
    }
    let source = case.procedure_source();
    let rule = Rule { check: &CHECK, source, force: Force::Required, words: &WORDS };
    let (stated, fixed) = (case.setup.settings.current_form, case.run.current_form);
    rule.kept(findings, stated, fixed, "The form of the current is left open for this run");
}

#[cfg(test)]
mod tests {
    use crate::{
        check::{Outcome::*, Verdict, fixture::Scene},
        qualify::record::CurrentForm::{self, Pulsed, Steady},
    };

    fn scene(fixed: Option<CurrentForm>, stated: Option<CurrentForm>) -> Scene {
        Scene::allowed().with(|s| {
            s.procedure.runs[0].current_form = fixed;
            s.setup.settings.current_form = stated;
        })
    }

    #[test]
    fn what_the_procedure_fixes_has_to_be_stated_and_kept() {
        let outcomes = |fixed, stated| scene(fixed, stated).outcomes("current-form");
        assert_eq!(outcomes(Some(Pulsed), Some(Pulsed)), [Inside]);
        assert_eq!(outcomes(Some(Pulsed), Some(Steady)), [Outside]);
        assert_eq!(outcomes(Some(Steady), None), [NotGiven]);
        assert_eq!(outcomes(None, None), []);
        assert_eq!(outcomes(None, Some(Pulsed)), [NotApplicable]);
        assert_eq!(scene(Some(Steady), None).verdict(), Verdict::Undetermined);
        assert_eq!(scene(Some(Steady), Some(Steady)).verdict(), Verdict::Allowed);
    }
}
