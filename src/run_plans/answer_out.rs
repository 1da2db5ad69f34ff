//! Run plans as sent.

use serde::Serialize;
use utoipa::ToSchema;

use crate::{
    calculations::CalculationAnswer,
    check::Verdict,
    checks::RulebookOut,
    quantity::{Kind, Span},
    trade::Coded,
    window::{JointPlan, PlannedRuns, ProcedurePlan},
    windows::{NothingOut, ObstacleOut, SettingOut, obstacle, settings},
    wire::{AmountOut, RangeOut, Units},
};

/// Runs of one class.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct PlannedRunsOut {
    /// Run class.
    #[schema(example = "fill")]
    pub class: &'static str,
    /// Side they are laid from, of a joint that is filled from both: `near`, the side welded first, or `far`.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub side: Option<&'static str>,
    /// How many.
    #[schema(example = 2)]
    pub count: u32,
    /// Cross-section of each, over what is not known exactly of the metal that the wire leaves.
    pub area: RangeOut,
    /// Leg, where one run makes the fillet, from the most convex face to a flat one.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub leg: Option<RangeOut>,
    /// Arc time of each.
    pub arc_time: AmountOut,
    /// How the arc is led: as the setup states where the limits of these runs allow it, else as they do. Left out
    /// where neither says it.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(example = "stringer")]
    pub bead: Option<&'static str>,
    /// Settings: the highest travel speed for this size, with a margin; within what is advised where that can be had.
    pub settings: Vec<SettingOut>,
    /// How often each setting may drift by its usual drift, all at once.
    pub drift: AmountOut,
    /// Verdict of the check on the setup with these settings and this run class.
    #[schema(example = "allowed")]
    pub verdict: &'static str,
    /// What else the check requires, in words.
    pub unmet: Vec<String>,
}

/// Runs that fill the joint.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct JointPlanOut {
    /// The runs, in the order they are laid.
    pub runs: Vec<PlannedRunsOut>,
    /// Number of runs.
    #[schema(example = 2)]
    pub count: u32,
    /// Cross-section laid, for the least favourable wire.
    pub laid: AmountOut,
    /// Arc time of all runs.
    pub arc_time: AmountOut,
    /// Arc time over the operating factor.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub elapsed: Option<AmountOut>,
    /// The worst verdict of the runs.
    #[schema(example = "allowed")]
    pub verdict: &'static str,
}

/// What one procedure makes of the joint.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct ProcedurePlanOut {
    /// Number of the procedure.
    #[schema(example = "WPS-014")]
    pub procedure: String,
    /// Its revision.
    pub revision: u32,
    /// Why the joint cannot be had in one run, and how many do; left out where it can.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(
        example = "8 mm leg in one run cannot be had: one run may have at most 6 mm. Instead: two runs."
    )]
    pub not_in_one_run: Option<String>,
    /// The plan with the least arc time, of those with the best verdict: one that keeps to all that is advised goes
    /// before a faster one that does not.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub fastest: Option<JointPlanOut>,
    /// The plan with the fewest runs, where that is another one.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub fewest_runs: Option<JointPlanOut>,
    /// What stands in the way whatever is set; nothing is planned then.
    pub obstacles: Vec<ObstacleOut>,
    /// Why there is no plan, or none of some kind.
    pub reasons: Vec<String>,
    /// What the setup states and the settings of the runs take the place of: leave it out where they are sent back
    /// with the setup; and what one run alone does not give of it. Left out where there is none.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub notes: Vec<String>,
    /// Where the sizes of runs are known from, what was assumed for them and what is printed of the wire but not
    /// used; empty where they are not known.
    #[schema(example = json!(["mass per length of the wire: measured"]))]
    pub metal: Vec<String>,
}

/// The procedure with the least arc time among those whose plan the check allows.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct BestPlanOut {
    /// Number of the procedure.
    pub procedure: String,
    /// Its revision.
    pub revision: u32,
    /// Arc time of its plan.
    pub arc_time: AmountOut,
}

/// Run plans of a joint.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct RunPlansAnswer {
    /// The best by time among the plans that the check allows; left out where it allows none.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub best: Option<BestPlanOut>,
    /// One for each procedure revision that covers the job: those with a plan first, by verdict and arc time.
    pub plans: Vec<ProcedurePlanOut>,
    /// Why no procedure revision is planned with, where there is none.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub nothing_planned: Option<NothingOut>,
    /// Cross-section of the joint, section and depth of each side where it is filled from both, and arc time of the
    /// best plan, with formulas, sources and assumptions.
    pub figures: CalculationAnswer,
    /// Records the answer rests on.
    pub rulebook: RulebookOut,
    /// The records are too old: nothing here is a permission.
    pub stale: bool,
}

/// The best by time among the plans that the check allows.
pub(super) fn best(plans: &[ProcedurePlan]) -> Option<(&ProcedurePlan, &JointPlan)> {
    let with_plan = plans.iter().filter_map(|plan| Some((plan, plan.fastest.as_ref()?)));
    let allowed = |verdict| matches!(verdict, Verdict::Allowed | Verdict::AllowedWithAdvice);
    with_plan
        .filter(|(_, plan)| allowed(plan.verdict))
        .min_by(|(_, a), (_, b)| a.arc_time.seconds().total_cmp(&b.arc_time.seconds()))
}

impl BestPlanOut {
    pub(super) fn new((procedure, plan): (&ProcedurePlan, &JointPlan), units: Units) -> Self {
        Self {
            procedure: procedure.procedure.clone(),
            revision: procedure.revision,
            arc_time: AmountOut::new(plan.arc_time.amount(), units),
        }
    }
}

impl ProcedurePlanOut {
    pub(super) fn new(plan: &ProcedurePlan, units: Units) -> Self {
        let out = |plan: &JointPlan| joint_plan(plan, units);
        Self {
            procedure: plan.procedure.clone(),
            revision: plan.revision,
            not_in_one_run: plan.not_in_one_run.clone(),
            fastest: plan.fastest.as_ref().and_then(out),
            fewest_runs: plan.fewest_runs.as_ref().and_then(out),
            obstacles: plan.obstacles.iter().map(obstacle).collect(),
            reasons: plan.reasons.clone(),
            notes: plan.notes.clone(),
            metal: plan.metal.iter().map(ToString::to_string).collect(),
        }
    }
}

fn joint_plan(plan: &JointPlan, units: Units) -> Option<JointPlanOut> {
    Some(JointPlanOut {
        runs: plan.runs.iter().map(|run| runs(run, units)).collect::<Option<_>>()?,
        count: plan.count,
        // To the nearest, as the cross-section of the joint that it is compared with.
        laid: AmountOut::new(plan.laid.amount(), units),
        arc_time: AmountOut::new(plan.arc_time.amount(), units),
        elapsed: plan.elapsed.map(|time| AmountOut::new(time.amount(), units)),
        verdict: plan.verdict.code(),
    })
}

fn runs(run: &PlannedRuns, units: Units) -> Option<PlannedRunsOut> {
    Some(PlannedRunsOut {
        class: run.class.code(),
        side: run.side.map(Coded::code),
        count: run.count,
        area: outward(&run.area, units)?,
        leg: run.leg.as_ref().and_then(|leg| outward(leg, units)),
        arc_time: AmountOut::new(run.arc_time.amount(), units),
        bead: run.settings.settings.bead.map(Coded::code),
        settings: settings(&run.settings.settings, units),
        drift: AmountOut::new(run.settings.drift.amount(), units),
        verdict: run.settings.verdict.code(),
        unmet: run.settings.unmet.iter().map(|finding| finding.reason.clone()).collect(),
    })
}

fn outward<K: Kind>(span: &Span<K>, units: Units) -> Option<RangeOut> {
    RangeOut::outward(&span.amounts(), units)
}
