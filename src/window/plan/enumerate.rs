//! Numbers and sizes of runs, enumerated.

use super::{
    JointAsked, JointKind, MOST_LAID, SideAsked,
    model::{Models, RunModel},
};
use crate::{
    quantity::{Area, UnitSystem},
    trade::{PrequalifiedLimits, RunClass, WeldSide, groove_runs},
};

/// More runs of one class are no plan for a hand.
const MOST_RUNS: u32 = 200;
/// Numbers of runs tried beyond the least.
const MORE_RUNS: u32 = 6;
/// Sizes tried of a root, hot or cap run.
const SIZES: u32 = 8;
/// Numbers of cap runs tried.
const CAPS: u32 = 4;
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
    /// Whether every run keeps some drift.
    is_steady: bool,
}

impl Layout {
    /// No run.
    const NONE: Self = Self { groups: Vec::new(), minutes: 0.0, is_steady: true };

    fn count(&self) -> u32 {
        self.groups.iter().map(|group| group.count).sum()
    }

    fn area(&self) -> f64 {
        self.groups.iter().map(|group| f64::from(group.count) * group.area).sum()
    }

    /// These runs, and others on top of them.
    fn then(&self, later: &Self) -> Self {
        Self {
            groups: [&self.groups[..], &later.groups].concat(),
            minutes: self.minutes + later.minutes,
            is_steady: self.is_steady && later.is_steady,
        }
    }
}

/// The best layouts.
#[derive(Debug, Default)]
pub(super) struct Layouts {
    /// Those that keep some drift first, of them the shortest.
    pub(super) by_time: Vec<Layout>,
    /// Fewest runs first.
    pub(super) by_runs: Vec<Layout>,
    /// Why some kind of layout is missing.
    pub(super) reasons: Vec<String>,
}

/// How many runs fill a side.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Number {
    /// Just one, of the class `single`.
    One,
    /// Several.
    Several,
    /// One or several.
    Any,
}

/// All layouts of one side with so many runs, the best first.
pub(super) fn layouts(
    joint: &JointAsked,
    side: WeldSide,
    asked: &SideAsked,
    models: &Models,
    number: Number,
) -> Layouts {
    let mut all = Vec::new();
    let mut reasons = Vec::new();
    let total = asked.area.mm2();
    if number != Number::Several
        && let Ok(single) = models.run(RunClass::Single)
    {
        let smallest = single.reach().map_or(0.0, |reach| reach.0);
        let group = Group { class: RunClass::Single, count: 1, area: total.max(smallest) };
        all.extend(timed(&[(single, group)]));
    }
    if number != Number::One {
        let several = match joint.kind {
            JointKind::Fillet => fillet(total, models, joint.units),
            JointKind::Butt => groove(side, asked, models, joint.units),
        };
        match several {
            Ok(found) => all.extend(found),
            Err(reason) => reasons.push(reason),
        }
    }
    let (all, overfilled): (Vec<_>, Vec<_>) =
        all.into_iter().partition(|layout| layout.area() <= total * MOST_LAID);
    if let (true, Some(least)) = (all.is_empty(), least_laid(&overfilled)) {
        reasons.push(too_much(least, asked.area, joint.units));
    }
    let mut by_time = all.clone();
    // By steps of the logarithm of time, so that the order is one: fewer runs first among equals.
    let step = |layout: &Layout| (layout.minutes.ln() / SAME_TIME).floor();
    by_time.sort_by(|a, b| {
        b.is_steady
            .cmp(&a.is_steady)
            .then(step(a).total_cmp(&step(b)))
            .then(a.count().cmp(&b.count()))
            .then(a.minutes.total_cmp(&b.minutes))
    });
    let mut by_runs = all;
    by_runs.sort_by(|a, b| a.count().cmp(&b.count()).then(a.minutes.total_cmp(&b.minutes)));
    by_time.truncate(KEPT);
    by_runs.truncate(KEPT);
    Layouts { by_time, by_runs, reasons }
}

/// The layout that lays the least.
fn least_laid(layouts: &[Layout]) -> Option<&Layout> {
    layouts.iter().min_by(|a, b| a.area().total_cmp(&b.area()))
}

/// That even the smallest runs lay too much.
fn too_much(least: &Layout, joint: Area, units: UnitSystem) -> String {
    let told = |area: Area| area.amount().told(units);
    let laid = Area::computed(least.area()).map_or_else(|error| error.to_string(), told);
    let runs = match least.count() {
        1 => "the smallest run lays".to_owned(),
        runs => format!("the smallest {runs} runs lay"),
    };
    let joint = told(joint);
    format!("{runs} {laid}, where the joint has {joint}: more than half as much again")
}

/// A layout with its time; `None` where a run cannot be so large or so small.
fn timed(groups: &[(&RunModel, Group)]) -> Option<Layout> {
    let mut layout = Layout::NONE;
    for (model, group) in groups {
        let fastest = model.speed(group.area)?;
        layout.groups.push(*group);
        layout.minutes += f64::from(group.count) / fastest.speed;
        layout.is_steady &= fastest.is_steady;
    }
    Some(layout)
}

fn fillet(total: f64, models: &Models, units: UnitSystem) -> Result<Vec<Layout>, String> {
    let fill = models.run(RunClass::Fill)?;
    let reach = reach(fill, RunClass::Fill)?;
    let least = runs_for(total, reach.1, units)?.max(2);
    let layout = |count: u32| {
        let area = (total / f64::from(count)).max(reach.0);
        timed(&[(fill, Group { class: RunClass::Fill, count, area })])
    };
    Ok((least..=least.saturating_add(MORE_RUNS)).filter_map(layout).collect())
}

/// A groove begins with a root, and a hot run where the procedure has limits for one, on the side welded first; each
/// side ends with cap runs; fill runs make up the rest.
fn groove(
    side: WeldSide,
    asked: &SideAsked,
    models: &Models,
    units: UnitSystem,
) -> Result<Vec<Layout>, String> {
    let total = asked.area.mm2();
    let fewest = fewest_runs(side, asked, models.limits.as_ref())?;
    let begun = match side {
        WeldSide::Near => begun(models, total)?,
        WeldSide::Far => vec![Layout::NONE],
    };
    let ended = caps(models, asked, units)?;
    let fill = RunClass::Fill;
    let filled = models.run(fill).and_then(|model| Ok((model, reach(model, fill)?)));
    let mut all = Vec::new();
    let mut reason = None;
    for begun in &begun {
        for ended in &ended {
            let rest = total - begun.area() - ended.area();
            let without = fewest.saturating_sub(begun.count() + ended.count());
            if rest <= 1e-9 * total {
                if without == 0 {
                    all.push(begun.then(ended));
                }
                continue;
            }
            let fills = filled.clone().and_then(|(model, reach)| {
                Ok((model, reach.0, runs_for(rest, reach.1, units)?.max(without).max(1)))
            });
            let (model, smallest, from) = match fills {
                Ok(found) => found,
                Err(why) => {
                    reason = Some(why);
                    continue;
                }
            };
            for count in from..=from.saturating_add(MORE_RUNS) {
                let area = (rest / f64::from(count)).max(smallest);
                let fills = timed(&[(model, Group { class: fill, count, area })]);
                all.extend(fills.map(|fills| begun.then(&fills).then(ended)));
            }
        }
    }
    match reason {
        _ if !all.is_empty() => Ok(all),
        Some(reason) => Err(reason),
        None => Err(format!(
            "the limits of layers ask for {fewest} runs; the smallest fill the cross-section with fewer"
        )),
    }
}

/// Root, and hot run where the procedure has limits for one.
fn begun(models: &Models, total: f64) -> Result<Vec<Layout>, String> {
    let roots = laid_once(models, RunClass::Root, total)?;
    if !models.has(RunClass::Hot) {
        return Ok(roots);
    }
    Ok(each_with_each(&roots, &laid_once(models, RunClass::Hot, total)?))
}

/// One run of a class, in each size that is tried.
fn laid_once(models: &Models, class: RunClass, total: f64) -> Result<Vec<Layout>, String> {
    let model = models.run(class)?;
    let one = |area| timed(&[(model, Group { class, count: 1, area })]);
    Ok(sizes(reach(model, class)?, total).into_iter().filter_map(one).collect())
}

/// Cap runs, in each number and size that is tried; they lay what stands above the plate at least.
fn caps(models: &Models, asked: &SideAsked, units: UnitSystem) -> Result<Vec<Layout>, String> {
    let class = RunClass::Cap;
    let model = models.run(class)?;
    let reach = reach(model, class)?;
    let above = asked.cap.map_or(0.0, Area::mm2);
    let least = runs_for(above, reach.1, units)?;
    let sized = |count: u32| {
        let smallest = reach.0.max(above / f64::from(count));
        let sizes = sizes((smallest, reach.1), asked.area.mm2());
        sizes.into_iter().map(move |area| Group { class, count, area })
    };
    let groups = (least..least.saturating_add(CAPS)).flat_map(sized);
    Ok(groups.filter_map(|group| timed(&[(model, group)])).collect())
}

fn each_with_each(first: &[Layout], second: &[Layout]) -> Vec<Layout> {
    first.iter().flat_map(|first| second.iter().map(|second| first.then(second))).collect()
}

/// Runs asked for by the thickest layers. The far side has no root layer: each of its layers is a fill layer
/// (common practice, no source).
fn fewest_runs(
    side: WeldSide,
    asked: &SideAsked,
    limits: Option<&PrequalifiedLimits>,
) -> Result<u32, String> {
    let (Some(limits), Some(depth)) = (limits, asked.depth) else { return Ok(1) };
    let first = match side {
        WeldSide::Near => limits.root,
        WeldSide::Far => limits.fill,
    };
    let plan = groove_runs(asked.area, asked.area, depth, first, limits.fill);
    plan.map(|plan| plan.runs).map_err(|error| error.to_string())
}

fn reach(model: &RunModel, class: RunClass) -> Result<(f64, f64), String> {
    model.reach().ok_or_else(|| {
        let why = model.conflict.as_deref().unwrap_or_default();
        format!("no setting is left for {class} runs: {why}")
    })
}

/// Sizes from the smallest run to the largest, none larger than the joint needs; the smallest alone where that is as
/// much as it needs.
fn sizes((low, high): (f64, f64), total: f64) -> Vec<f64> {
    let high = high.min(total);
    if high <= low {
        return vec![low];
    }
    let steps = f64::from(SIZES - 1);
    (0..SIZES).map(|step| low * (high / low).powf(f64::from(step) / steps)).collect()
}

/// The least number of runs for an area.
fn runs_for(total: f64, largest: f64, units: UnitSystem) -> Result<u32, String> {
    let noise = 1e-9;
    let enough = |runs: &u32| f64::from(*runs) * largest >= total * (1.0 - noise);
    (1..=MOST_RUNS).find(enough).ok_or_else(|| match Area::computed(largest) {
        Ok(largest) => {
            let largest = largest.amount().told(units);
            format!("it would take more than {MOST_RUNS} runs; the largest has {largest}")
        }
        Err(error) => error.to_string(),
    })
}
