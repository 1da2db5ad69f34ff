//! Number of runs: enough for the area, and no run or layer beyond its limit.
//!
//! Area over area gives the least number ([`NUMBER_OF_RUNS`]); limits on leg, root and layer may ask for more, and the
//! plan names what set it. The printed limits of prequalified procedures go by process and position; the
//! organisation's own procedure goes before them.
//!
//! Worked: a 10 mm fillet in the horizontal position is one run of wire but two of covered electrode, whatever the
//! metal of one run would do.

mod prequalified;

pub use prequalified::{
    PREQUALIFIED_SOURCE, PrequalifiedColumn, PrequalifiedLimits, SizeLimit, prequalified_column,
    prequalified_limits,
};

use super::{coded, formula};
use crate::quantity::{Area, LayerThickness, Leg, QuantityError, compare};

formula! {
    /// Number of runs for a cross-section.
    pub const NUMBER_OF_RUNS {
        name: "number-of-runs",
        equation: "N = ceil(A / A_run), and at least the number of layers: \
                   1 + ceil((depth - root layer) / fill layer)",
        source: "mass balance; limits of one run or layer by the governing code",
        validity: "runs of one size; recorded numbers of runs go first",
        confidence: Derived,
    }
}

/// More runs than any joint has.
const MOST_RUNS: f64 = 10_000.0;

coded! {
    /// What sets the number of runs.
    pub enum RunsSetBy: "what sets the number of runs" {
        /// Weld metal of one run.
        Area = "area-of-one-run",
        /// Largest fillet of one run.
        SingleRunFillet = "largest-single-run-fillet",
        /// Thickest layer.
        Layers = "thickest-layer",
    }
}

/// A number of runs and what set it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct RunPlan {
    /// Runs needed.
    pub runs: u32,
    /// Runs needed for the area alone.
    pub by_area: u32,
    /// What asks for the most runs.
    pub set_by: RunsSetBy,
}

/// Why there is no run plan.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum RunPlanError {
    /// A cross-section or layer that is not above zero.
    #[error("the {what} must be above zero")]
    NotPositive {
        /// What was given.
        what: &'static str,
    },
    /// More runs than any joint has.
    #[error("that would be more than 10 000 runs; check the area of one run")]
    TooMany,
    /// The result is no number.
    #[error(transparent)]
    Quantity(#[from] QuantityError),
}

/// Runs of a fillet: enough for its area, and two or more above the largest single-run leg.
///
/// `limit` is `None` where no rule limits the leg of one run.
///
/// # Errors
/// [`RunPlanError`] for areas that are not above zero.
pub fn fillet_runs(
    total: Area,
    one_run: Area,
    leg: Leg,
    limit: Option<SizeLimit<Leg>>,
) -> Result<RunPlan, RunPlanError> {
    let by_area = runs_for_area(total, one_run)?;
    let split = match limit {
        Some(SizeLimit::AtMost(most)) => !leg.at_most(most),
        Some(SizeLimit::Unlimited) | None => false,
    };
    let by_rule = if split { 2 } else { 1 };
    Ok(plan(by_area, by_rule, RunsSetBy::SingleRunFillet))
}

/// Runs of a groove: enough for its area, and at least one for every layer.
///
/// `root` and `fill` are the thickest root layer and fill layer; a missing one does not limit.
///
/// # Errors
/// [`RunPlanError`] for areas or layers that are not above zero.
pub fn groove_runs(
    total: Area,
    one_run: Area,
    depth: LayerThickness,
    root: Option<SizeLimit<LayerThickness>>,
    fill: Option<SizeLimit<LayerThickness>>,
) -> Result<RunPlan, RunPlanError> {
    let by_area = runs_for_area(total, one_run)?;
    Ok(plan(by_area, layers(depth, root, fill)?, RunsSetBy::Layers))
}

fn layers(
    depth: LayerThickness,
    root: Option<SizeLimit<LayerThickness>>,
    fill: Option<SizeLimit<LayerThickness>>,
) -> Result<u32, RunPlanError> {
    let Some(SizeLimit::AtMost(root)) = root else { return Ok(1) };
    if depth.at_most(root) {
        return Ok(1);
    }
    match fill {
        Some(SizeLimit::AtMost(fill)) => {
            Ok(whole(depth.mm() - root.mm(), fill.mm(), "layer thickness")?.saturating_add(1))
        }
        Some(SizeLimit::Unlimited) | None => Ok(2),
    }
}

fn plan(by_area: u32, by_rule: u32, rule: RunsSetBy) -> RunPlan {
    let set_by = if by_rule > by_area { rule } else { RunsSetBy::Area };
    RunPlan { runs: by_area.max(by_rule), by_area, set_by }
}

/// Runs needed for an area, [`NUMBER_OF_RUNS`].
///
/// # Errors
/// [`RunPlanError::NotPositive`], [`RunPlanError::TooMany`].
pub fn runs_for_area(total: Area, one_run: Area) -> Result<u32, RunPlanError> {
    whole(total.mm2(), one_run.mm2(), "area of one run")
}

/// Smallest whole number of parts that holds the whole, noise of the last digits left out.
fn whole(all: f64, part: f64, what: &'static str) -> Result<u32, RunPlanError> {
    if part <= 0.0 {
        return Err(RunPlanError::NotPositive { what });
    }
    if all <= 0.0 {
        return Err(RunPlanError::NotPositive { what: "metal to be laid" });
    }
    let ratio = all / part;
    if ratio.is_nan() || ratio > MOST_RUNS {
        return Err(RunPlanError::TooMany);
    }
    let below = ratio.floor();
    let needed = if compare(ratio, below, 0.0).is_eq() { below } else { ratio.ceil() };
    // A number from 1 to 10 000 is found without a cast that could cut it.
    (1..=10_000_u32).find(|runs| f64::from(*runs) >= needed).ok_or(RunPlanError::TooMany)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Own arithmetic: 115.8 / 29.75 = 3.893, so 4 runs; 119 / 29.75 = 4 runs, not 5.
    #[test]
    fn parts_of_a_run_are_whole_runs() {
        let one = "29.75 mm2".parse().unwrap();
        assert_eq!(runs_for_area("115.8 mm2".parse().unwrap(), one), Ok(4));
        assert_eq!(runs_for_area("119 mm2".parse().unwrap(), one), Ok(4));
        assert_eq!(runs_for_area("119.1 mm2".parse().unwrap(), one), Ok(5));
    }

    /// AWS D1.1/D1.1M:2020, Table 5.1 (secondary): 8 mm horizontal in one run with a covered
    /// electrode; a 10 mm fillet needs two even where one run has the metal for it.
    #[test]
    fn a_fillet_above_the_single_run_limit_is_split() {
        let limit = Some(SizeLimit::AtMost("8 mm".parse().unwrap()));
        let area = "50 mm2".parse().unwrap();
        let runs = |leg: &str| fillet_runs(area, area, leg.parse().unwrap(), limit).unwrap();
        assert_eq!((runs("8 mm").runs, runs("8 mm").set_by), (1, RunsSetBy::Area));
        assert_eq!((runs("10 mm").runs, runs("10 mm").set_by), (2, RunsSetBy::SingleRunFillet));
        let free = fillet_runs(area, area, "10 mm".parse().unwrap(), Some(SizeLimit::Unlimited));
        assert_eq!(free.unwrap().runs, 1);
    }

    /// Own arithmetic: 25 mm deep, root layer 10 mm, fill layers 6 mm: 1 + ceil(15 / 6) = 4 layers.
    #[test]
    fn every_layer_is_a_run() {
        let [root, fill] = ["10 mm", "6 mm"].map(|t| Some(SizeLimit::AtMost(t.parse().unwrap())));
        let (total, one) = ("40 mm2".parse().unwrap(), "30 mm2".parse().unwrap());
        let deep = groove_runs(total, one, "25 mm".parse().unwrap(), root, fill).unwrap();
        assert_eq!(deep, RunPlan { runs: 4, by_area: 2, set_by: RunsSetBy::Layers });
        let thin = groove_runs(total, one, "10 mm".parse().unwrap(), root, fill).unwrap();
        assert_eq!(thin, RunPlan { runs: 2, by_area: 2, set_by: RunsSetBy::Area });
        let unlimited = Some(SizeLimit::Unlimited);
        let one_fill = groove_runs(total, one, "25 mm".parse().unwrap(), root, unlimited).unwrap();
        assert_eq!(one_fill.runs, 2);
    }

    #[test]
    fn runs_of_no_size_are_refused() {
        let (some, none) = ("40 mm2".parse().unwrap(), Area::computed(0.0).unwrap());
        assert!(runs_for_area(some, none).is_err());
        assert!(runs_for_area(none, some).is_err());
        let tiny = Area::computed(1e-3).unwrap();
        assert_eq!(runs_for_area(some, tiny), Err(RunPlanError::TooMany));
    }
}
