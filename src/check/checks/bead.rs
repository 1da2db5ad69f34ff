//! `bead`: stringer or weave against the procedure, and the practice for roots.

use crate::{
    check::{
        Case, Findings, Force, Outcome, Shown, Source,
        choice_check::{Rule, Words, texts},
        registry::declare_check,
    },
    trade::{AdvisedRange, AdvisedVariable},
};

declare_check! {
    /// ## Checks
    /// The bead is led as the procedure allows for this run, where it says so. Practice lays the root
    /// as a stringer: a weave there is advised against, unless the procedure allows it.
    ///
    /// ## Why
    /// A weave slows the travel and heats more; on a root it bridges the gap and leaves the edges
    /// unfused.
    ///
    /// ## Source
    /// The procedure. Stringer on the root: common practice, no source.
    ///
    /// ## Not checked
    /// The width of the weave, which `weave-width` checks.
    "bead", Bead => check, texts!(PROCEDURE, PRACTICE)
}

const PROCEDURE: Words = Words {
    consequence: Some(
        "Weaving changes heat and fusion at the toes; the procedure was not written for it, or counts on it.",
    ),
    change: Some("Lead the arc as the procedure says:"),
    state: Some("State whether the bead is a stringer or a weave."),
    ..Words::NONE
};

const PRACTICE: Words = Words {
    consequence: Some("A woven root bridges the gap: the edges of the root stay unfused."),
    change: Some("Lay the root as a"),
    ..Words::NONE
};

fn check(case: &Case<'_>, findings: &mut Findings) {
    let stated = case.setup.settings.bead;
    let allowed = &case.run.beads;
    let source = case.procedure_source();
    let rule = Rule { check: &CHECK, source, force: Force::Required, words: &PROCEDURE };
    if allowed.is_empty() {
        let why = "The bead is left open for this run";
        rule.of_owner(findings, Outcome::NotApplicable, || Shown::words(stated), why);
    } else {
        rule.one_of(findings, stated, allowed);
    }
    let Some(stated) = stated.filter(|pattern| !allowed.contains(pattern)) else { return };
    for (advised, source) in case.usual.on(AdvisedVariable::BeadPattern) {
        if let AdvisedRange::BeadPattern(usual) = *advised {
            let source = Source::Practice(source);
            let rule = Rule { check: &CHECK, source, force: Force::Advised, words: &PRACTICE };
            rule.one_of(findings, Some(stated), &[usual]);
        }
    }
}

#[cfg(test)]
mod tests {
    use crate::{
        check::{Force, Outcome, Outcome::*, fixture::Scene},
        trade::{BeadPattern, RunClass},
    };

    fn outcomes(change: impl FnOnce(&mut Scene)) -> Vec<Outcome> {
        Scene::allowed().with(change).outcomes("bead")
    }

    #[test]
    fn the_procedure_says_how_the_arc_is_led() {
        assert_eq!(outcomes(|_| ()), [Inside]);
        let stringer = || vec![BeadPattern::Stringer];
        assert_eq!(outcomes(|s| s.procedure.runs[0].beads = stringer()), [Outside]);
        assert_eq!(outcomes(|s| s.setup.settings.bead = None), [NotGiven]);
        assert_eq!(outcomes(|s| s.procedure.runs[0].beads.clear()), [NotApplicable]);
    }

    fn root(bead: BeadPattern, allowed: &[BeadPattern]) -> Scene {
        Scene::allowed().with(|s| {
            s.setup.job.run_class = Some(RunClass::Root);
            s.setup.settings.bead = Some(bead);
            s.procedure.runs[0].classes = vec![RunClass::Root];
            s.procedure.runs[0].beads = allowed.to_vec();
        })
    }

    /// A stringer on the root: common practice, no source.
    #[test]
    fn a_woven_root_is_advised_against_unless_the_procedure_allows_it() {
        use BeadPattern::{Stringer, Weave};
        assert_eq!(root(Weave, &[]).outcomes("bead"), [NotApplicable, Outside]);
        assert_eq!(root(Stringer, &[]).outcomes("bead"), [NotApplicable, Inside]);
        assert_eq!(root(Weave, &[Weave]).outcomes("bead"), [Inside]);
        assert_eq!(root(Weave, &[]).of("bead")[1].force, Force::Advised);
    }
}
