//! One procedure revision the setup was held to, and its rank among others.

use std::cmp::Reverse;

use crate::{
    check::{Candidate, DecisionRule, Finding, Force, HeldTo, Outcome, Verdict, record::Procedure},
    trade::RunClass,
};

/// One revision with the run limits the setup meets best.
pub(super) struct Judged<'a> {
    pub(super) procedure: &'a Procedure,
    pub(super) run_classes: Vec<RunClass>,
    pub(super) findings: Vec<Finding>,
    pub(super) verdict: Verdict,
    pub(super) breaches: usize,
    pub(super) unknowns: usize,
}

impl<'a> Judged<'a> {
    pub(super) fn new(
        procedure: &'a Procedure,
        run_classes: Vec<RunClass>,
        findings: Vec<Finding>,
        rule: DecisionRule,
    ) -> Self {
        let verdict = Verdict::of(&findings, rule);
        let required = |wanted: &[Outcome]| {
            let fails = |f: &&Finding| f.force == Force::Required && wanted.contains(&f.outcome);
            findings.iter().filter(fails).count()
        };
        let breaches = required(&[Outcome::Outside, Outcome::EdgeOutside]);
        let unknowns = required(&[Outcome::NotGiven, Outcome::NoLimit]);
        Self { procedure, run_classes, findings, verdict, breaches, unknowns }
    }

    /// Smaller is better.
    pub(super) fn rank(&self) -> impl Ord + '_ {
        let Procedure { number, revision, .. } = self.procedure;
        (self.verdict, self.breaches, self.unknowns, number, Reverse(*revision))
    }

    pub(super) fn held_to(&self) -> HeldTo {
        HeldTo {
            procedure: self.procedure.number.clone(),
            revision: self.procedure.revision,
            run_classes: self.run_classes.clone(),
        }
    }

    pub(super) fn candidate(&self) -> Candidate {
        Candidate {
            held_to: self.held_to(),
            verdict: self.verdict,
            breaches: self.breaches,
            unknowns: self.unknowns,
        }
    }
}
