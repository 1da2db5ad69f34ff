//! A layout of runs with settings that can be dialled, judged by the check.

use time::Date;

use super::{
    JointAsked, JointKind, JointPlan, MOST_LAID, PlannedRuns, SideAsked, each_case,
    enumerate::{Group, Layout},
    model::{Models, RunModel, setup_of},
};
use crate::{
    check::{Book, Force, ProcedureReference, Setup},
    quantity::{Area, AreaKind, Duration, Span, TravelSpeed},
    trade::{RunClass, elapsed_time, leg_band, run_time, usual_shape_factors},
    window::{
        Open, Place, Space,
        solve::{Proposed, proposed},
        space::{FEED, SPEED},
    },
};

/// The plan of a layout; `None` where no step of the dials fits.
pub(super) fn settled(
    book: &Book,
    setup: &Setup,
    day: Date,
    (joint, asked): (&JointAsked, &SideAsked),
    models: &Models,
    layout: &Layout,
) -> Option<JointPlan> {
    let run = |group: &Group| {
        let model = models.run(group.class).ok()?;
        let setup = setup_of(setup, joint, (group.class, model.bead));
        let place = place(&setup, joint, model, group)?;
        let settings = judged((book, setup, day), joint, models, (group.class, &place))?;
        planned(joint, model, group, &place, settings)
    };
    let plan = JointPlan::of(layout.groups.iter().map(run).collect::<Option<_>>()?, joint)?;
    (plan.laid.mm2() <= asked.area.mm2() * MOST_LAID).then_some(plan)
}

impl JointPlan {
    /// These runs and what they come to.
    pub(super) fn of(runs: Vec<PlannedRuns>, joint: &JointAsked) -> Option<Self> {
        let sum = |of: &dyn Fn(&PlannedRuns) -> f64| -> f64 {
            runs.iter().map(|run| f64::from(run.count) * of(run)).sum()
        };
        let arc_time = Duration::computed(sum(&|run| run.arc_time.seconds())).ok()?;
        let laid = Area::computed(sum(&|run| run.area.low().mm2())).ok()?;
        let elapsed = joint.operating_factor.and_then(|factor| elapsed_time(arc_time, factor).ok());
        let verdict = runs.iter().map(|run| run.settings.verdict).max()?;
        let count = runs.iter().map(|run| run.count).sum();
        Some(Self { runs, count, laid, arc_time, elapsed, verdict })
    }
}

/// How many times as large as planned a run may be: steps of the dials seldom hit a size, and what is laid beyond it
/// is ground off or stands proud.
const OVERFILL: [f64; 2] = [1.1, MOST_LAID];

/// The fastest settings with a margin for a run of this size; the most tolerant where no step is that fast.
fn place(setup: &Setup, joint: &JointAsked, model: &RunModel, group: &Group) -> Option<Place> {
    let mut space = Space::clone(&model.speed(group.area)?.piece.space);
    if let (RunClass::Single, Some(leg)) = (group.class, joint.leg()) {
        space.leg_at_least(leg, &model.size, &usual_shape_factors().ok()?, Force::Required);
    }
    let of_size = |times| {
        let mut space = space.clone();
        space.run_planned(&RunModel::wanted(group.area, times)?, &model.size);
        Some(space)
    };
    let spaces: Vec<_> = OVERFILL.into_iter().filter_map(of_size).collect();
    let mut open: Vec<_> = spaces.iter().filter_map(|space| space.open(model.force).ok()).collect();
    loop {
        let place = |open: &Open<'_>| {
            let places = open.places(&setup.settings)?;
            places.fastest.or(places.starting_point)
        };
        if let Some(place) = open.iter().find_map(place) {
            return Some(place);
        }
        // Steps that are only assumed refuse nothing.
        open = open
            .iter()
            .map(Open::finer)
            .collect::<Option<_>>()
            .filter(|open: &Vec<_>| !open.is_empty())?;
    }
}

/// The settings in the setup of a run of this class, held to the same procedure.
fn judged(
    (book, mut setup, day): (&Book, Setup, Date),
    joint: &JointAsked,
    models: &Models,
    (class, place): (RunClass, &Place),
) -> Option<Proposed> {
    // Only this one has to be looked at.
    setup.procedure = Some(ProcedureReference {
        number: models.procedure.clone(),
        revision: Some(models.revision),
    });
    let all = each_case(book, &setup, day, |case, _| {
        let listed = case.run.classes.contains(&class);
        listed.then(|| proposed(case, &place.settings, place.drift, joint.units))
    });
    all.into_iter().flatten().next()
}

fn planned(
    joint: &JointAsked,
    model: &RunModel,
    group: &Group,
    place: &Place,
    settings: Proposed,
) -> Option<PlannedRuns> {
    let speed = TravelSpeed::computed(place.point[SPEED].exp()).ok()?;
    let ratio = (place.point[FEED] - place.point[SPEED]).exp();
    let end = |log: f64| Area::computed(log.exp() * ratio).ok();
    let area: Span<AreaKind> = Span::new(end(model.size.least())?, end(model.size.most())?).ok()?;
    let makes_the_fillet = group.class == RunClass::Single && joint.kind == JointKind::Fillet;
    let leg = if makes_the_fillet {
        let shape = usual_shape_factors().ok()?;
        let (least, most) = (leg_band(area.low(), &shape), leg_band(area.high(), &shape));
        Some(Span::new(least.ok()?.low(), most.ok()?.high()).ok()?)
    } else {
        None
    };
    let arc_time = run_time(joint.length, speed).ok()?;
    let Group { class, count, .. } = *group;
    Some(PlannedRuns { class, count, side: None, area, leg, arc_time, settings })
}
