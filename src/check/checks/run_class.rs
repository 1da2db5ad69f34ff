//! `run-class`: whether the procedure has limits for this run of the joint.

use crate::{
    check::{
        Case, Findings, Force,
        choice_check::{Rule, Words, texts},
        registry::declare_check,
    },
    qualify::record::Layering,
    trade::RunClass,
};

declare_check! {
    /// ## Checks
    /// The setup says which run of the joint it is for, and the procedure holds limits for that run. Of a procedure
    /// for one run per side they are those of a single run, of one for several runs those of all others.
    /// Where the setup does not say, it is held to the limits it meets best, and nothing is allowed.
    ///
    /// ## Why
    /// Root, fill and cap are welded with different settings; the limits of one say nothing about
    /// another.
    ///
    /// ## Source
    /// The procedure. Limits per run: ISO 15609-1:2019, clause 4.4 (sub-clause from memory). One run or several:
    /// ISO 15614-1:2017, 8.4.3 (impact or hardness tests), and its tables of thickness.
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
    let is_laid = |class: &RunClass| match case.procedure.layering {
        None => true,
        Some(layering) => (layering == Layering::SingleRun) == (*class == RunClass::Single),
    };
    let limited = case.procedure.runs.iter().flat_map(|run| &run.classes);
    let has_limits =
        stated.is_some_and(|stated| is_laid(&stated) && limited.clone().any(|one| *one == stated));
    if has_limits && findings.pass(Force::Required) {
        return;
    }
    let mut classes: Vec<RunClass> = limited.copied().filter(is_laid).collect();
    classes.sort_unstable();
    classes.dedup();
    rule.one_of(findings, stated, &classes);
}

#[cfg(test)]
mod tests {
    use crate::{
        check::{Outcome, Outcome::*, fixture::Scene},
        qualify::record::Layering::{MultiRun, SingleRun},
        trade::RunClass::{self, Fill, Single},
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

    /// One run per side, or several (ISO 15614-1:2017, 8.4.3 and the tables of thickness tell them apart).
    #[test]
    fn limits_of_a_run_count_where_the_joint_is_laid_so() {
        let laid = |layering, class| {
            outcomes(|s| {
                s.procedure.runs[0].classes = vec![Fill, Single];
                s.procedure.layering = layering;
                s.setup.job.run_class = Some(class);
            })
        };
        assert_eq!(laid(None, Fill), [Inside]);
        assert_eq!(laid(None, Single), [Inside]);
        assert_eq!(laid(Some(SingleRun), Single), [Inside]);
        assert_eq!(laid(Some(SingleRun), Fill), [Outside]);
        assert_eq!(laid(Some(MultiRun), Fill), [Inside]);
        assert_eq!(laid(Some(MultiRun), Single), [Outside]);
        let never = outcomes(|s| {
            s.procedure.runs[0].classes = vec![Fill];
            s.procedure.layering = Some(SingleRun);
            s.setup.job.run_class = Some(Fill);
        });
        assert_eq!(never, [NoLimit]);
    }
}
