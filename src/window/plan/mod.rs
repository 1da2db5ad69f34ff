//! Run plans: how many runs of which size fill a joint, inside every limit of each procedure that covers it.
//!
//! The cross-sections of runs add up, which no half-space of one run can hold, so numbers and sizes of runs are
//! enumerated; the travel speed of each size is then the exact optimum of its window. They are enumerated within what
//! is required and within what is advised, and a plan that the check has nothing to say against goes first. Runs of
//! one class are of one size. A fillet takes one run of the class `single` or several of `fill`; a butt weld one of
//! `single`, or a root, one `hot` run where the procedure has limits for it, fill runs and cap runs. A butt weld that
//! is filled from both sides is planned side by side: the near side so, the far side, where the root lies already,
//! with fill runs and cap runs; or with one run of `single` on each side (common practice, no source).

mod enumerate;
mod model;
mod one_run;
mod settle;
mod sides;

use time::Date;

use self::{
    enumerate::{Layout, Number, layouts},
    model::{Models, classes, setup_of},
    settle::settled,
    sides::Filled,
};
use super::{
    Nothing, Question, nothing_offered,
    offer::is_obstacle,
    solve::{Proposed, replacing},
};
use crate::{
    check::{Book, Finding, Notes, Setup, Verdict, each_case},
    quantity::{
        Area, AreaKind, Duration, LayerThickness, Leg, LegKind, RunLength, Share, Span, UnitSystem,
    },
    trade::{Confidence, Fillet, Formula, JointKind, PrequalifiedLimits, RunClass, WeldSide},
};

/// How a run plan comes about.
pub const JOINT_RUN_PLAN: Formula = Formula {
    name: "joint-run-plan",
    equation: "number and size of runs enumerated, sum of n * A_run at least A; t = L * sum(n / v), v the \
               highest travel speed of the window for that A_run with a margin of drift",
    source: "mass balance of each run; limits of the records",
    validity: "runs of one class are of one size; the least cross-section that printed rates, or wire mass and \
               efficiency, leave counts; cap runs lay what stands above the plate at least, but no width is looked \
               at: a wide layer may take more runs side by side; time between runs is in the operating factor \
               only",
    confidence: Confidence::Derived,
};

/// How many times the cross-section of a side its runs may lay (own choice).
const MOST_LAID: f64 = 1.5;

/// Which rule limits the size of one run.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum RunRule {
    /// None but the records.
    None,
    /// These limits; one that is missing does not limit.
    Own(PrequalifiedLimits),
    /// Those of prequalified procedures, in the sizes printed for this system of units.
    Prequalified(UnitSystem),
}

/// What is to be laid from one side.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SideAsked {
    /// Cross-section of it.
    pub area: Area,
    /// Depth that is filled; a fillet has none.
    pub depth: Option<LayerThickness>,
    /// What of the cross-section stands above the plate and is laid with cap runs; `None` for a fillet.
    pub cap: Option<Area>,
}

/// A joint to be filled.
#[derive(Debug, Clone, PartialEq)]
pub struct JointAsked {
    /// Fillet or butt.
    pub kind: JointKind,
    /// The side welded first; all that is laid, where the joint is filled from one side.
    pub near: SideAsked,
    /// The other side of a butt joint that is filled from both.
    pub far: Option<SideAsked>,
    /// The fillet, where it is one.
    pub fillet: Option<Fillet>,
    /// Length of the weld.
    pub length: RunLength,
    /// Which rule limits the size of one run.
    pub rule: RunRule,
    /// Units of sizes in words.
    pub units: UnitSystem,
    /// Share of the time that the arc burns.
    pub operating_factor: Option<Share>,
}

/// Runs of one class.
#[derive(Debug, Clone, PartialEq)]
pub struct PlannedRuns {
    /// Their class.
    pub class: RunClass,
    /// Side they are laid from, where the joint is filled from both.
    pub side: Option<WeldSide>,
    /// How many.
    pub count: u32,
    /// Cross-section of each.
    pub area: Span<AreaKind>,
    /// Leg, where one run makes the fillet.
    pub leg: Option<Span<LegKind>>,
    /// Arc time of each.
    pub arc_time: Duration,
    /// Their settings, judged by the check.
    pub settings: Proposed,
}

/// Runs that fill the joint.
#[derive(Debug, Clone, PartialEq)]
pub struct JointPlan {
    /// The runs, in the order they are laid.
    pub runs: Vec<PlannedRuns>,
    /// Number of runs.
    pub count: u32,
    /// Cross-section laid, for the least favourable wire.
    pub laid: Area,
    /// Arc time of all runs.
    pub arc_time: Duration,
    /// Arc time over the operating factor.
    pub elapsed: Option<Duration>,
    /// The worst verdict of the runs.
    pub verdict: Verdict,
}

/// What one procedure makes of the joint.
#[derive(Debug, Clone, PartialEq)]
pub struct ProcedurePlan {
    /// Number of the procedure.
    pub procedure: String,
    /// Its revision.
    pub revision: u32,
    /// What stands in the way whatever is set; nothing is planned then.
    pub obstacles: Vec<Finding>,
    /// Why the joint cannot be had in one run, and what does; `None` where it can.
    pub not_in_one_run: Option<String>,
    /// The plan with the least arc time, of those with the best verdict.
    pub fastest: Option<JointPlan>,
    /// The plan with the fewest runs, where that is another one.
    pub fewest_runs: Option<JointPlan>,
    /// Why there is no plan, or none of some kind.
    pub reasons: Vec<String>,
    /// What the setup states and the settings of the runs take the place of, and what one run does not give of it, in
    /// words.
    pub notes: Vec<String>,
    /// Where the sizes of runs are known from, what was assumed for them and what is printed of the wire but not
    /// used; empty where they are not known, or something stands in the way.
    pub metal: Notes,
}

/// What every procedure that covers the job makes of the joint: those with a plan first, by verdict and arc
/// time; then the others, by number.
#[must_use]
pub fn joint_plans(
    book: &Book,
    setup: &Setup,
    day: Date,
    question: &Question,
    joint: &JointAsked,
) -> Vec<ProcedurePlan> {
    let mut plans: Vec<ProcedurePlan> = Vec::new();
    for models in Models::all(book, setup, day, question, joint) {
        plans.push(planned(book, setup, day, joint, &models));
    }
    plans.sort_by(|a, b| rank(a).cmp(&rank(b)));
    plans
}

impl JointAsked {
    /// Leg of a fillet, the larger one.
    fn leg(&self) -> Option<Leg> {
        self.fillet.map(|fillet| fillet.leg.max(fillet.other_leg))
    }

    /// Why no procedure revision is planned with, by the check of a run of the joint.
    #[must_use]
    pub fn nothing_planned(&self, book: &Book, setup: &Setup, day: Date) -> Nothing {
        let class = classes(self).first().copied();
        let bead = setup.settings.bead;
        let of_class = |class| setup_of(setup, self, (class, bead));
        let setup = class.map_or_else(|| setup.clone(), of_class);
        nothing_offered(book, &setup, day)
    }
}

/// Plans that stand first come first: without obstacles, allowed, in a short time.
fn rank(plan: &ProcedurePlan) -> impl Ord + '_ {
    let best = plan.fastest.as_ref();
    // Milliseconds, so that plans can be ordered; a time is neither negative nor without end.
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "a time in milliseconds, cut at the ends of the type"
    )]
    let time = |plan: &JointPlan| (plan.arc_time.seconds() * 1_000.0).round() as u64;
    (
        best.is_none(),
        best.map(|plan| (plan.verdict, time(plan))),
        !plan.obstacles.is_empty(),
        plan.procedure.as_str(),
        std::cmp::Reverse(plan.revision),
    )
}

fn planned(
    book: &Book,
    setup: &Setup,
    day: Date,
    joint: &JointAsked,
    models: &Models,
) -> ProcedurePlan {
    let mut plan = ProcedurePlan {
        procedure: models.procedure.clone(),
        revision: models.revision,
        obstacles: models.obstacles.clone(),
        not_in_one_run: None,
        fastest: None,
        fewest_runs: None,
        reasons: Vec::new(),
        notes: Vec::new(),
        metal: models.metal(),
    };
    if !plan.obstacles.is_empty() {
        return plan;
    }
    let one_run = one_run::words(joint, models);
    let advised = models.advised();
    let fill = |side, asked: &SideAsked, number| {
        let of = |models| {
            let settle =
                |layout: &Layout| settled(book, setup, day, (joint, asked), models, layout);
            Filled::of(&layouts(joint, side, asked, models, number), settle)
        };
        of(models).or(of(&advised))
    };
    let filled = match &joint.far {
        None => {
            let number = if one_run.is_none() { Number::Any } else { Number::Several };
            fill(WeldSide::Near, &joint.near, number)
        }
        Some(far) => {
            let both = |number| {
                let near = fill(WeldSide::Near, &joint.near, number);
                near.then(fill(WeldSide::Far, far, number), joint)
            };
            let several = both(Number::Several);
            let one_each = one_run::is_one_layer_each(joint, models.limits.as_ref());
            if one_each { several.or(both(Number::One)) } else { several }
        }
    };
    (plan.fastest, plan.fewest_runs, plan.reasons) =
        (filled.fastest, filled.fewest, filled.reasons);
    plan.notes = notes(setup, &plan);
    let fewest = plan.fewest_runs.as_ref().or(plan.fastest.as_ref()).map(|plan| plan.count);
    plan.not_in_one_run = one_run.map(|why| match fewest {
        Some(count) => format!("{} {}", why, one_run::instead(count)),
        None => why,
    });
    plan
}

/// What the caller should know who has the runs of a plan checked one by one.
fn notes(setup: &Setup, plan: &ProcedurePlan) -> Vec<String> {
    let plans = [&plan.fastest, &plan.fewest_runs].into_iter().flatten();
    let runs = || plans.clone().flat_map(|plan| &plan.runs);
    let replaced = replacing(&setup.settings, runs().map(|run| &run.settings.settings));
    let is_of_all = setup.job.leg.is_some() && runs().any(|run| run.leg.is_none());
    let of_all = is_of_all.then(|| OF_ALL_RUNS.to_owned());
    replaced.into_iter().chain(of_all).collect()
}

const OF_ALL_RUNS: &str = "The leg or throat that the setup states is that of all runs together: the check of one of \
                           them advises that it leaves less.";

#[cfg(test)]
pub(super) mod tests;
