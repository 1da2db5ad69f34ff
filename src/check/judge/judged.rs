//! One procedure revision the setup was held to, and its rank among others.

use std::cmp::Reverse;

use crate::{
    check::{
        Candidate, DecisionRule, Findings, Force, HeldTo, Outcome, Verdict,
        record::{Procedure, RunLimits},
    },
    trade::RunClass,
};

/// One revision held to one of its run limits.
pub(super) struct Judged<'a> {
    pub(super) procedure: &'a Procedure,
    pub(super) run: &'a RunLimits,
    pub(super) findings: Findings,
    pub(super) verdict: Verdict,
    pub(super) breaches: usize,
    pub(super) unknowns: usize,
}

impl<'a> Judged<'a> {
    pub(super) fn new(
        (procedure, run): (&'a Procedure, &'a RunLimits),
        findings: Findings,
        rule: DecisionRule,
    ) -> Self {
        let verdict = findings.verdict(rule);
        let required = |outcomes: [Outcome; 2]| -> usize {
            outcomes.map(|outcome| findings.tally().count(Force::Required, outcome)).iter().sum()
        };
        let breaches = required([Outcome::Outside, Outcome::EdgeOutside]);
        let unknowns = required([Outcome::NotGiven, Outcome::NoLimit]);
        Self { procedure, run, findings, verdict, breaches, unknowns }
    }

    /// Smaller is better.
    pub(super) fn rank(&self) -> impl Ord + '_ {
        let Procedure { number, revision, .. } = self.procedure;
        (self.verdict, self.breaches, self.unknowns, number, Reverse(*revision))
    }

    /// Who it was held to, in these run classes.
    pub(super) fn held_to(&self, run_classes: Vec<RunClass>) -> HeldTo {
        HeldTo {
            procedure: self.procedure.number.clone(),
            revision: self.procedure.revision,
            run_classes,
        }
    }

    /// The same with what it came to.
    pub(super) fn candidate(&self, run_classes: Vec<RunClass>) -> Candidate {
        Candidate {
            held_to: self.held_to(run_classes),
            verdict: self.verdict,
            breaches: self.breaches,
            unknowns: self.unknowns,
        }
    }
}
