//! `mechanisation`: by hand or by machine, against the procedure.

use crate::check::{
    Case, Findings, Force,
    choice_check::{Rule, Words, texts},
    registry::declare_check,
};

declare_check! {
    /// ## Checks
    /// The degree of mechanisation is the one the procedure fixes for this run. A setup that states none is held
    /// by that of the welder's work. Where the procedure fixes none, nothing is said, unless the setup states one:
    /// that is then left open.
    ///
    /// ## Why
    /// A hand follows the joint and cannot keep the speed of a carriage; a carriage keeps its speed and does not
    /// see the joint. What one was tested with says little about the other.
    ///
    /// ## Source
    /// The procedure. Rules behind it: ISO 15614-1:2017, 8.4.1, level 2: each degree is qualified by itself; the
    /// degrees are those it lists. ISO 15609-1:2019 has the degree with the process (4.4.1, from memory).
    ///
    /// ## Not checked
    /// Whether the station can weld so.
    "mechanisation", Mechanisation => check, texts!(WORDS)
}

const WORDS: Words = Words {
    consequence: Some(
        "Speed, stick-out and place of the arc are held otherwise than tested: uneven runs, lack of fusion.",
    ),
    change: Some("Weld with the degree of mechanisation of the procedure:"),
    state: Some(
        "State the degree of mechanisation: manual, partly-mechanised, fully-mechanised or automatic.",
    ),
    ..Words::NONE
};

fn check(case: &Case<'_>, findings: &mut Findings) {
    if findings.has_settled(CHECK.variable) {
        return;
    }
    let source = case.procedure_source();
    let rule = Rule { check: &CHECK, source, force: Force::Required, words: &WORDS };
    let (stated, fixed) = (case.setup.mechanisation(), case.run.mechanisation);
    rule.kept(findings, stated, fixed, "The degree of mechanisation is left open for this run");
}

#[cfg(test)]
mod tests {
    use crate::{
        check::{Outcome, Outcome::*, Verdict, WelderClaim, fixture::Scene},
        qualify::record::Mechanisation::{self, Fully, Manual, Partly},
    };

    fn scene(fixed: Option<Mechanisation>, stated: Option<Mechanisation>) -> Scene {
        Scene::allowed().with(|s| {
            s.procedure.runs[0].mechanisation = fixed;
            s.setup.settings.mechanisation = stated;
        })
    }

    fn outcomes(fixed: Option<Mechanisation>, stated: Option<Mechanisation>) -> Vec<Outcome> {
        scene(fixed, stated).outcomes("mechanisation")
    }

    /// ISO 15614-1:2017, 8.4.1, level 2: each degree is qualified independently.
    #[test]
    fn what_the_procedure_fixes_has_to_be_stated_and_kept() {
        assert_eq!(outcomes(Some(Partly), Some(Partly)), [Inside]);
        assert_eq!(outcomes(Some(Partly), Some(Fully)), [Outside]);
        assert_eq!(outcomes(Some(Manual), Some(Partly)), [Outside]);
        assert_eq!(outcomes(Some(Partly), None), [NotGiven]);
        assert_eq!(scene(Some(Partly), None).verdict(), Verdict::Undetermined);
        assert_eq!(scene(Some(Partly), Some(Partly)).verdict(), Verdict::Allowed);
        assert_eq!(outcomes(None, None), []);
        assert_eq!(outcomes(None, Some(Manual)), [NotApplicable]);
    }

    #[test]
    fn the_welders_work_says_it_where_the_settings_do_not() {
        let with_welder = |stated, of_work| {
            let scene = scene(Some(Partly), stated).with(|s| {
                let mut claim = WelderClaim::default();
                claim.work.mechanisation = of_work;
                s.setup.welder = Some(claim);
            });
            scene.outcomes("mechanisation")
        };
        assert_eq!(with_welder(None, Some(Partly)), [Inside]);
        assert_eq!(with_welder(None, Some(Fully)), [Outside]);
        assert_eq!(with_welder(Some(Partly), Some(Fully)), [Inside]);
        assert_eq!(with_welder(None, None), [NotGiven]);
    }
}
