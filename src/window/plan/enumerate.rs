//! Numbers and sizes of runs, enumerated.

use super::{
    JointAsked, JointKind,
    model::{Models, RunModel},
};
use crate::{
    quantity::Area,
    trade::{PrequalifiedLimits, RunClass, groove_runs},
};

/// More runs of one class are no plan for a hand.
const MOST_RUNS: u32 = 200;
/// Numbers of runs tried beyond the least.
const MORE_RUNS: u32 = 6;
/// Sizes tried of a root or cap run.
const SIZES: u32 = 8;
/// Cap runs tried at most.
const MOST_CAPS: u32 = 4;
/// Times closer than this are the same: fewer runs go first.
const SAME_TIME: f64 = 5e-3;
/// Plans kept of each kind.
const KEPT: usize = 6;

/// Runs of one class in a layout.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Group {
    pub(super) class: RunClass,
    pub(super) count: u32,
    /// Cross-section of each at least, in mm².
    pub(super) area: f64,
}

/// Runs that fill the joint.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Layout {
    pub(super) groups: Vec<Group>,
    /// Arc time for each mm of weld, in minutes.
    pub(super) minutes: f64,
}

impl Layout {
    fn count(&self) -> u32 {
        self.groups.iter().map(|group| group.count).sum()
    }
}

/// The best layouts.
#[derive(Debug, Default)]
pub(super) struct Layouts {
    /// Shortest first.
    pub(super) by_time: Vec<Layout>,
    /// Fewest runs first.
    pub(super) by_runs: Vec<Layout>,
    /// Why some kind of layout is missing.
    pub(super) reasons: Vec<String>,
}

/// All layouts, the best first.
pub(super) fn layouts(joint: &JointAsked, models: &Models, one_run: bool) -> Layouts {
    let mut all = Vec::new();
    let mut reasons = Vec::new();
    let total = joint.area.mm2();
    if one_run && let Ok(single) = models.run(RunClass::Single) {
        let group = Group { class: RunClass::Single, count: 1, area: total };
        all.extend(timed(&[(single, group)]));
    }
    let several = match joint.kind {
        JointKind::Fillet => fillet(total, models),
        JointKind::Butt => groove(joint, models),
    };
    match several {
        Ok(found) => all.extend(found),
        Err(reason) => reasons.push(reason),
    }
    let mut by_time = all.clone();
    // By steps of the logarithm of time, so that the order is one: fewer runs first among equals.
    let step = |layout: &Layout| (layout.minutes.ln() / SAME_TIME).floor();
    by_time.sort_by(|a, b| {
        step(a)
            .total_cmp(&step(b))
            .then(a.count().cmp(&b.count()))
            .then(a.minutes.total_cmp(&b.minutes))
    });
    let mut by_runs = all;
    by_runs.sort_by(|a, b| a.count().cmp(&b.count()).then(a.minutes.total_cmp(&b.minutes)));
    by_time.truncate(KEPT);
    by_runs.truncate(KEPT);
    Layouts { by_time, by_runs, reasons }
}

/// A layout with its time; `None` where a run cannot be so large or so small.
fn timed(groups: &[(&RunModel, Group)]) -> Option<Layout> {
    let minutes = |(model, group): &(&RunModel, Group)| {
        let (speed, _) = model.speed(group.area)?;
        Some(f64::from(group.count) / speed)
    };
    let minutes: Option<Vec<f64>> = groups.iter().map(minutes).collect();
    let groups = groups.iter().map(|(_, group)| *group).collect();
    Some(Layout { groups, minutes: minutes?.into_iter().sum() })
}

fn fillet(total: f64, models: &Models) -> Result<Vec<Layout>, String> {
    let fill = models.run(RunClass::Fill)?;
    let reach = reach(fill, RunClass::Fill)?;
    let least = runs_for(total, reach.1)?.max(2);
    let layout = |count: u32| {
        let area = (total / f64::from(count)).max(reach.0);
        timed(&[(fill, Group { class: RunClass::Fill, count, area })])
    };
    Ok((least..=least.saturating_add(MORE_RUNS)).filter_map(layout).collect())
}

fn groove(joint: &JointAsked, models: &Models) -> Result<Vec<Layout>, String> {
    let [root, fill, cap] = [RunClass::Root, RunClass::Fill, RunClass::Cap];
    let (root_run, cap_run) = (models.run(root)?, models.run(cap)?);
    let (roots, caps) = (reach(root_run, root)?, reach(cap_run, cap)?);
    let total = joint.area.mm2();
    let fewest = fewest_runs(joint, models.limits.as_ref())?;
    let fill_run = models.run(fill);
    let mut all = Vec::new();
    let mut reason = None;
    for root_area in sizes(roots, total) {
        for caps_laid in 1..=MOST_CAPS {
            for cap_area in sizes(caps, total) {
                let first = (root_run, Group { class: root, count: 1, area: root_area });
                let last = (cap_run, Group { class: cap, count: caps_laid, area: cap_area });
                let rest = total - root_area - f64::from(caps_laid) * cap_area;
                let without = fewest.saturating_sub(1 + caps_laid);
                if rest <= 1e-9 * total {
                    if without == 0 {
                        all.extend(timed(&[first, last]));
                    }
                    continue;
                }
                let filled = fill_run.clone().and_then(|model| {
                    let reach = reach(model, fill)?;
                    Ok((model, reach, runs_for(rest, reach.1)?.max(without).max(1)))
                });
                let (model, reach, from) = match filled {
                    Ok(found) => found,
                    Err(why) => {
                        reason = Some(why);
                        continue;
                    }
                };
                for count in from..=from.saturating_add(MORE_RUNS) {
                    let area = (rest / f64::from(count)).max(reach.0);
                    all.extend(timed(&[first, (model, Group { class: fill, count, area }), last]));
                }
            }
        }
    }
    match reason {
        Some(reason) if all.is_empty() => Err(reason),
        _ => Ok(all),
    }
}

/// Runs asked for by the thickest layers.
fn fewest_runs(joint: &JointAsked, limits: Option<&PrequalifiedLimits>) -> Result<u32, String> {
    let (Some(limits), Some(depth)) = (limits, joint.depth) else { return Ok(1) };
    let one = Area::computed(joint.area.mm2()).map_err(|error| error.to_string())?;
    let plan = groove_runs(joint.area, one, depth, limits.root, limits.fill);
    plan.map(|plan| plan.runs).map_err(|error| error.to_string())
}

fn reach(model: &RunModel, class: RunClass) -> Result<(f64, f64), String> {
    model.reach().ok_or_else(|| {
        let why = model.conflict.as_deref().unwrap_or_default();
        format!("no setting is left for {class} runs: {why}")
    })
}

/// Sizes from the smallest run to the largest, none larger than the joint needs.
fn sizes((low, high): (f64, f64), total: f64) -> Vec<f64> {
    let high = high.min(total.max(low));
    let steps = f64::from(SIZES - 1);
    (0..SIZES).map(|step| low * (high / low).powf(f64::from(step) / steps)).collect()
}

/// The least number of runs for an area.
fn runs_for(total: f64, largest: f64) -> Result<u32, String> {
    let noise = 1e-9;
    (1..=MOST_RUNS).find(|runs| f64::from(*runs) * largest >= total * (1.0 - noise)).ok_or_else(
        || format!("it would take more than {MOST_RUNS} runs; the largest has {largest:.3} mm2"),
    )
}
