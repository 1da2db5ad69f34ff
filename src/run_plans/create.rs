//! `POST /v1/run-plans`

use axum::{Json, extract::State};

use super::{
    agree::agree,
    answer_out::{BestPlanOut, ProcedurePlanOut, RunPlansAnswer, best},
};
use crate::{
    access::{AnyRole, Permitted},
    calculations::{JointIn, RunLimitsIn, Sheet, joint_section, joint_sides},
    checks::{Question, QuestionQuery, SetupIn},
    http::{
        AppState, JsonBody, Query, aside, problem::Problem, responses::AskProblems,
        retry::WantedRulebook,
    },
    quantity::{RunLength, UnitSystem},
    trade::{PrequalifiedLimits, RunPlanError, SideSection, SizeLimit, WeldSides},
    window::{self, JOINT_RUN_PLAN, JointAsked, RunRule, SideAsked, joint_plans},
    windows::{AskIn, put_ask},
    wire::{self, Errors, Part, Place, Units, wire_object},
};

wire_object! {
    /// A joint to be planned, and the setup it is welded with. The plan chooses run classes and the arc's
    /// settings; what the setup states of them is not used. What the setup states of the joint has to agree with it:
    /// kind, position, leg, length, and one part at least of the thickness of a butt joint.
    pub struct RunPlansIn {
        /// Process, filler, metals, position, station, temperatures; procedure or work order where one is meant.
        pub setup: Box<SetupIn>,
        /// The joint.
        pub joint: JointIn,
        /// Length of the weld.
        pub length: RunLength,
        /// Size limits of one run, by your procedure or code.
        pub limits: Option<RunLimitsIn>,
        /// Whether the size limits of prequalified procedures hold (AWS D1.1/D1.1M:2020, Table 5.1), by process
        /// and position, in the sizes printed for the units of the answer.
        pub prequalified: Option<bool>,
        /// Operating factor, for the elapsed time; more than 0 % and at most 100 %.
        pub operating_factor: Option<Part>,
        /// What is asked of each run beyond the setup.
        pub ask: Option<AskIn>,
    }
}

/// What the plans rest on.
const ASSUMPTIONS: &[&str] = &[
    "runs of one class are of one size",
    "the least cross-section that wire mass and efficiency leave counts",
    "the fastest settings with a margin of drift; time between runs is in the operating factor only",
    "runs that may drift a little go before faster ones at the very edge of their limits",
];
/// And where a joint is filled from both sides.
const BOTH_SIDES: &[&str] = &[
    "each side is filled by runs of its own, near side first",
    "both sides are welded in the position of the setup: the part is turned between them",
    "time of turning and gouging is in the operating factor only",
    "that runs of both sides meet in the root is shown by the procedure test, not computed",
];

/// Plan the runs of a joint
///
/// How many runs of which size fill a joint, for every procedure that covers the job: inside its limits, those
/// of station, filler and work order, heat input and the limits of one run, with settings, arc time and total.
/// A position that the setup states is read as one of the joint, whether the setup names its kind or not.
/// A fillet takes one run or several of the class `fill`; a butt weld one, or a root, a hot run where the
/// procedure has limits for it, fill runs and cap runs. A `bead` pattern that the setup states holds where the limits
/// of a class allow it; other runs are laid as their limits ask, as stringers where they allow both.
/// A butt joint that is prepared on both sides, gouged from the back or capped on the far side is filled from both,
/// and each group of runs says its `side`: first root, hot, fill and cap runs of the near side, then fill and cap runs
/// of the far side, a gouge filled with them. Limits of layers hold for each side; every layer of the far one is a
/// fill layer. Both sides are welded in the position of the setup; where the part is not turned over, ask for the far
/// side as a joint of its own, in its position. Where the procedure has limits for `single` runs, one for each side is
/// planned too.
/// The best by time stands first among those that the check allows. Where one run does not do, the answer says
/// why and how many do. Each setting is held to the check.
#[utoipa::path(
    post, path = "/v1/run-plans", tag = "windows",
    request_body(content = RunPlansIn, example = json!({
        "setup": {
            "process": "136",
            "job": {
                "code": { "name": "AWS D1.1", "edition": "2020" }, "position": "2F",
                "base_metals": [
                    { "group": "1.2", "thickness": "1/2 in" }, { "group": "1.2", "thickness": "3/4 in" }
                ]
            },
            "filler": {
                "consumable": "FF-70", "diameter": "1/16 in", "gas": "C1", "polarity": "DCEP"
            },
            "settings": {
                "waveform": "not-controlled", "bead": "stringer", "preheat": "70 °F",
                "interpass": "300 °F", "gas_flow": "40 ft3/h"
            },
            "day": "2026-12-01"
        },
        "joint": { "fillet": { "leg": "1/2 in" } },
        "length": "10 ft", "operating_factor": "30 %", "prequalified": true
    })),
    params(
        QuestionQuery,
        ("Rulebook-Version" = Option<i64>, Header,
            description = "Version a write gave; the answer waits up to a second for it"),
    ),
    responses((status = 200, description = "The plans", body = RunPlansAnswer), AskProblems),
)]
pub(super) async fn plan_runs(
    permitted: Permitted<AnyRole>,
    State(state): State<AppState>,
    wanted: WantedRulebook,
    Query(query): Query<QuestionQuery>,
    JsonBody(body): JsonBody,
) -> Result<Json<RunPlansAnswer>, Problem> {
    let caller = &permitted.caller;
    let rulebook = Question::rulebook(&state, caller, wanted).await?;
    let sent: RunPlansIn = wire::read(&body)?;
    let question = Question::of(caller, rulebook, sent.setup_of_the_joint())
        .map_err(|problem| problem.under("/setup"))?;
    let units = query.units(&question.rulebook)?;
    let mut asked = window::Question::plain().map_err(Problem::internal)?;
    asked.units = units.unwrap_or(asked.units);
    let mut sheet = Sheet::new(units);
    let mut errors = Errors::default();
    if let Some(ask) = &sent.ask {
        put_ask(ask, &mut asked, &question, Place::Member(&Place::Root, "ask"), &mut errors);
    }
    agree(&sent, &question.setup.job, &mut errors);
    let joint = sent.joint(units, &mut sheet, &mut errors);
    errors.finish()?;
    let joint = joint.ok_or_else(|| Problem::internal("a joint without value or error"))?;
    let (rulebook, too_old) = question.rulebook_now(&state.rulebooks);
    let far = joint.far.is_some();
    let (plans, nothing_planned) = aside(move || {
        let (book, setup, day) = (&question.rulebook.book, &question.setup, question.day);
        let plans = joint_plans(book, setup, day, &asked, &joint);
        let nothing = plans.is_empty().then(|| joint.nothing_planned(book, setup, day).into());
        (plans, nothing)
    })
    .await?;
    let best = best(&plans);
    match best {
        Some((_, plan)) => {
            let time = Ok::<_, RunPlanError>(plan.arc_time);
            let more = if far { BOTH_SIDES } else { &[] };
            sheet.one("arc-time", time, &JOINT_RUN_PLAN, &[ASSUMPTIONS, more].concat());
        }
        None => sheet.absent("arc-time", "the check allows no plan"),
    }
    Ok(Json(RunPlansAnswer {
        best: best.map(|best| BestPlanOut::new(best, units)),
        plans: plans.iter().map(|plan| ProcedurePlanOut::new(plan, units)).collect(),
        nothing_planned,
        figures: sheet.finish(),
        rulebook,
        stale: too_old,
    }))
}

impl RunPlansIn {
    /// The setup as one of the joint to be planned: what a position such as `H` means depends on its kind.
    fn setup_of_the_joint(&self) -> Box<SetupIn> {
        let mut setup = self.setup.clone();
        if let Some(job) = &mut setup.job {
            job.joint = Some(self.joint.kind());
        }
        setup
    }

    /// The joint as the plan takes it.
    fn joint(&self, units: Units, sheet: &mut Sheet, errors: &mut Errors) -> Option<JointAsked> {
        if self.limits.is_some() && self.prequalified == Some(true) {
            let why = "give limits of your own, or say that those of prequalified procedures hold";
            errors.note::<()>(Place::Member(&Place::Root, "prequalified"), why);
        }
        let (near, far) = self.sides(sheet, errors)?;
        if self.length.mm() <= 0.0 {
            return errors.note(Place::Member(&Place::Root, "length"), "a weld has a length");
        }
        Some(JointAsked {
            kind: self.joint.kind(),
            near,
            far,
            fillet: self.joint.fillet().copied(),
            length: self.length,
            rule: self.rule(units.unwrap_or(UnitSystem::Metric)),
            units: units.unwrap_or(UnitSystem::Metric),
            operating_factor: self.operating_factor.map(Part::share),
        })
    }

    /// What is laid from each side.
    fn sides(
        &self,
        sheet: &mut Sheet,
        errors: &mut Errors,
    ) -> Option<(SideAsked, Option<SideAsked>)> {
        let at = Place::Member(&Place::Root, "joint");
        let area = match joint_section(&self.joint, sheet) {
            Some(area) if area.mm2() > 0.0 => area,
            _ => return errors.note(at, "these dimensions make no joint with a cross-section"),
        };
        let asked = |SideSection { area, depth, cap }: SideSection| SideAsked {
            area,
            depth: Some(depth),
            cap: Some(cap),
        };
        match joint_sides(&self.joint, sheet) {
            Ok(None) => Some((SideAsked { area, depth: None, cap: None }, None)),
            Ok(Some(WeldSides { near, .. })) if near.area.mm2() <= 0.0 => {
                let why =
                    "nothing is laid from the near side: what is welded first is the near side";
                errors.note(at, why)
            }
            Ok(Some(WeldSides { near, far })) => Some((asked(near), far.map(asked))),
            Err(error) => errors.note(at, error.to_string()),
        }
    }

    fn rule(&self, units: UnitSystem) -> RunRule {
        match &self.limits {
            Some(limits) => RunRule::Own(PrequalifiedLimits {
                single_run_fillet: limits.single_run_fillet.map(SizeLimit::AtMost),
                root: limits.root_layer.map(SizeLimit::AtMost),
                fill: limits.fill_layer.map(SizeLimit::AtMost),
            }),
            None if self.prequalified == Some(true) => RunRule::Prequalified(units),
            None => RunRule::None,
        }
    }
}
