//! The plans of one side, and of both sides one after the other.
//!
//! Limits of layers hold for each side by itself, and numbers of runs and times add up. So the best plan of a joint
//! that is filled from both sides is the best of the near side with the best of the far one on top.

use std::cmp::Ordering;

use super::{
    JointAsked, JointPlan, PlannedRuns,
    enumerate::{Layout, Layouts},
    model::LEAST_DRIFT,
};
use crate::trade::WeldSide;

/// The best plans of one side, or of both.
pub(super) struct Filled {
    /// With the best verdict, and of those with the least arc time.
    pub(super) fastest: Option<JointPlan>,
    /// With fewer runs than that.
    pub(super) fewest: Option<JointPlan>,
    /// Why some plan is missing.
    pub(super) reasons: Vec<String>,
}

impl Filled {
    /// The best of these layouts, as far as they have settings that can be dialled.
    pub(super) fn of(found: &Layouts, settle: impl Fn(&Layout) -> Option<JointPlan>) -> Self {
        // A layout of the exact optimum may have no step of the dials, or a smaller margin than the next one.
        let fastest = found.by_time.iter().filter_map(&settle).reduce(sooner);
        let fewest = found.by_runs.iter().find_map(settle);
        let mut reasons = found.reasons.clone();
        if fastest.is_none() && !found.by_time.is_empty() {
            let why = "no settable step fits into what the limits leave of a run, or only with half as much metal again \
                       as the joint has";
            reasons.push(why.to_owned());
        }
        Self { fastest, fewest, reasons }.with_fewer_runs()
    }

    /// The better of these plans and others.
    pub(super) fn or(self, other: Self) -> Self {
        let candidates = [&other.fastest, &other.fewest, &self.fastest, &self.fewest];
        let fewest = candidates.into_iter().flatten();
        let fewest = fewest.min_by_key(|plan| (plan.count, plan.verdict)).cloned();
        let is_other_only = self.fastest.is_none() && other.fastest.is_some();
        let reasons = if is_other_only { other.reasons } else { self.reasons };
        let fastest = [other.fastest, self.fastest].into_iter().flatten().reduce(sooner);
        Self { fastest, fewest, reasons }.with_fewer_runs()
    }

    /// Without the plan of fewest runs where the fastest has no more.
    fn with_fewer_runs(mut self) -> Self {
        let fastest = self.fastest.as_ref().map(|plan| plan.count);
        self.fewest = self.fewest.filter(|other| fastest.is_some_and(|count| other.count < count));
        self
    }

    /// This side, and the far one after it.
    pub(super) fn then(self, far: Self, joint: &JointAsked) -> Self {
        let (near, far) = (self.laid_from(WeldSide::Near), far.laid_from(WeldSide::Far));
        let both = |near: Option<&JointPlan>, far: Option<&JointPlan>| {
            JointPlan::of([&near?.runs[..], &far?.runs].concat(), joint)
        };
        let fewer = near.fewest.is_some() || far.fewest.is_some();
        let fewest =
            if fewer { both(near.with_fewest_runs(), far.with_fewest_runs()) } else { None };
        Self {
            fastest: both(near.fastest.as_ref(), far.fastest.as_ref()),
            fewest,
            reasons: [near.reasons, far.reasons].concat(),
        }
    }

    const fn with_fewest_runs(&self) -> Option<&JointPlan> {
        if self.fewest.is_some() { self.fewest.as_ref() } else { self.fastest.as_ref() }
    }

    fn laid_from(mut self, side: WeldSide) -> Self {
        let plans = [&mut self.fastest, &mut self.fewest];
        for runs in plans.into_iter().flatten().flat_map(|plan| &mut plan.runs) {
            runs.side = Some(side);
        }
        self.reasons = self.reasons.iter().map(|why| format!("{side} side: {why}")).collect();
        self
    }
}

/// Share of the drift there is that a place keeps: half of it, less what plain figures cost.
const KEPT: f64 = 0.48;

/// The better plan: its runs keep some drift where the other's do not; its verdict is the better one; or it takes so
/// much less time that it is worth its runs, 0.5 % less, or no more runs.
fn sooner(best: JointPlan, next: JointPlan) -> JointPlan {
    let keeps = |run: &PlannedRuns| run.settings.drift.ratio() >= KEPT * LEAST_DRIFT;
    let rank = |plan: &JointPlan| (!plan.runs.iter().all(keeps), plan.verdict);
    let worth = if next.count > best.count { 0.995 } else { 1.0 };
    let takes_less = next.arc_time.seconds() < best.arc_time.seconds() * worth;
    match rank(&next).cmp(&rank(&best)) {
        Ordering::Less => next,
        Ordering::Equal if takes_less => next,
        Ordering::Equal | Ordering::Greater => best,
    }
}
