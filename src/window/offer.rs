//! What may be set, for every procedure that covers the job.

use time::Date;

use super::{Question, Solved, Window, boxes, solve};
use crate::{
    check::{Book, Finding, Force, NUMERIC, NearMiss, Outcome, Setup, Telling, each_case, judge},
    trade::RunClass,
};

/// The window of one procedure revision and one set of run limits.
#[derive(Debug, Clone, PartialEq)]
pub struct Offer {
    /// Number of the procedure.
    pub procedure: String,
    /// Its revision.
    pub revision: u32,
    /// Run classes the limits are for.
    pub run_classes: Vec<RunClass>,
    /// What stands in the way whatever is set: required findings on wire, gas, position and the like.
    pub obstacles: Vec<Finding>,
    /// The box of each variable.
    pub windows: Vec<Window>,
    /// What every limit at once leaves.
    pub solved: Solved,
}

/// Every offer for a setup: those without obstacles first, then by number, newest revision first.
#[must_use]
pub fn offers(book: &Book, setup: &Setup, day: Date, question: &Question) -> Vec<Offer> {
    let mut offers = each_case(book, setup, day, |case, findings| Offer {
        procedure: case.procedure.number.clone(),
        revision: case.procedure.revision,
        run_classes: case.run.classes.clone(),
        obstacles: findings.iter().filter(|finding| is_obstacle(finding)).cloned().collect(),
        windows: boxes(case),
        solved: solve(case, question),
    });
    offers.sort_by(|a, b| {
        let rank = |offer: &Offer| (!offer.obstacles.is_empty(), offer.procedure.clone());
        rank(a).cmp(&rank(b)).then(b.revision.cmp(&a.revision))
    });
    offers
}

/// Why no procedure revision offers a window.
#[derive(Debug, Clone, PartialEq)]
pub struct Nothing {
    /// What the check finds of the procedure, or of the facts that one is looked for by.
    pub reasons: Vec<Finding>,
    /// Revisions that cover the job but for one fact; at most ten.
    pub near_misses: Vec<NearMiss>,
}

/// Why nothing is offered, by the check of the same setup.
#[must_use]
pub fn nothing_offered(book: &Book, setup: &Setup, day: Date) -> Nothing {
    let answer = judge(book, setup, day, Telling::WhatNeedsSomething);
    let mut reasons = answer.findings;
    reasons.retain(is_obstacle);
    Nothing { reasons, near_misses: answer.near_misses }
}

/// Whether a finding stands in the way however the arc is set.
pub(super) fn is_obstacle(finding: &Finding) -> bool {
    finding.force == Force::Required
        && !NUMERIC.contains(&finding.variable)
        && !matches!(
            finding.outcome,
            Outcome::Inside | Outcome::EdgeInside | Outcome::NotApplicable
        )
}
