//! `run-class`: whether the procedure has limits for this run of the joint.

use crate::{
    check::{
        Case, Findings, Force,
        choice_check::{Rule, Words, texts},
        registry::declare_check,
    },
    trade::RunClass,
};

declare_check! {
    /// ## Checks
    /// The setup says which run of the joint it is for, and the procedure holds limits for that run.
    /// Where the setup does not say, it is held to the limits it meets best, and nothing is allowed.
    ///
    /// ## Why
    /// Root, fill and cap are welded with different settings; the limits of one say nothing about
    /// another.
    ///
    /// ## Source
    /// The procedure. Limits per run: ISO 15609-1:2019, clause 4.4 (sub-clause from memory).
    ///
    /// ## Not checked
    /// Which run is really being welded.
    "run-class", RunClass => check, texts!(WORDS)
}

const WORDS: Words = Words {
    consequence: Some(
        "No limits exist for this run: a fill setting burns through a root, a root setting lacks fusion later.",
    ),
    change: Some("Use a procedure with limits for this run; this one has them for"),
    state: Some("State which run of the joint is meant: root, hot, fill, cap or single."),
    record: Some("Record limits for the runs of the joint."),
};

fn check(case: &Case<'_>, findings: &mut Findings) {
    let source = case.procedure_source();
    let rule = Rule { check: &CHECK, source, force: Force::Required, words: &WORDS };
    let stated = case.setup.job.run_class;
    let runs = &case.procedure.runs;
    let has_limits =
        stated.is_some_and(|stated| runs.iter().any(|run| run.classes.contains(&stated)));
    if has_limits && findings.pass(Force::Required) {
        return;
    }
    let mut classes: Vec<RunClass> = runs.iter().flat_map(|run| &run.classes).copied().collect();
    classes.sort_unstable();
    classes.dedup();
    rule.one_of(findings, stated, &classes);
}

#[cfg(test)]
mod tests {
    use crate::{
        check::{Outcome, Outcome::*, fixture::Scene},
        trade::RunClass,
    };

    fn outcomes(change: impl FnOnce(&mut Scene)) -> Vec<Outcome> {
        Scene::allowed().with(change).outcomes("run-class")
    }

    #[test]
    fn every_outcome() {
        assert_eq!(outcomes(|_| ()), [Inside]);
        assert_eq!(outcomes(|s| s.procedure.runs[0].classes = vec![RunClass::Root]), [Outside]);
        assert_eq!(outcomes(|s| s.setup.job.run_class = None), [NotGiven]);
        assert_eq!(outcomes(|s| s.procedure.runs[0].classes.clear()), [NoLimit]);
    }
}
