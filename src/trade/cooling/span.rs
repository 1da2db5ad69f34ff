//! Cooling time of settings given as intervals: the shortest and longest they allow.

use super::{
    CoolingCase, CoolingError, HeatFlow, ShapeFactors,
    t8_5::{Both, both},
};
use crate::{
    quantity::{DurationKind, HeatInputKind, Span, TemperatureKind, ThicknessKind},
    trade::{SteelFamily, corners::span_of, formula},
};

formula! {
    /// Cooling time over intervals.
    pub const COOLING_TIME {
        name: "cooling-time",
        equation: "cooling-time-thick-plate at or above the transition thickness, \
                   cooling-time-thin-plate below it, both within 0.8 to 1.25 of it; shortest at the lowest \
                   temperature and heat input, the thickest plate and the lowest shape factor, longest at \
                   the opposite ends",
        source: "EN 1011-2:2001, Annex D (same in SEW 088 and ISO/TR 17671-2); where both heat flows are \
                 taken: common practice, no source",
        validity: "as cooling-time-thick-plate: unalloyed and low-alloy ferritic steel, 0 to 300 °C, a long \
                   run away from edges; expect 10 to 20 % against a thermocouple",
        confidence: Secondary,
    }
}

/// Runs between two, on plates between two thicknesses.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CoolingSpanCase {
    /// What the metal is.
    pub metal: SteelFamily,
    /// Heat input, thermal efficiency counted.
    pub heat_input: Span<HeatInputKind>,
    /// Temperature just before the run: from the lowest preheat to the highest interpass temperature.
    pub temperature: Span<TemperatureKind>,
    /// Thinnest and thickest plate.
    pub thickness: Span<ThicknessKind>,
    /// Shape factors.
    pub shape: ShapeFactors,
}

/// Cooling time of all these runs.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CoolingSpan {
    /// Shortest and longest cooling time.
    pub time: Span<DurationKind>,
    /// Heat flow of all of them; `None` where some may have the one and some the other.
    pub heat_flow: Option<HeatFlow>,
}

/// Cooling times from 800 °C to 500 °C over intervals, [`COOLING_TIME`].
///
/// Each heat flow's time rises with heat input, temperature and factor and falls with thickness; the
/// relative thickness is highest and lowest at the same two corners, so both corners tell which heat
/// flows occur. Where both do, the band holds both: at unlike factors the time jumps from one to the
/// other.
///
/// # Errors
/// As [`cooling_time`](super::cooling_time).
pub fn cooling_time_span(case: &CoolingSpanCase) -> Result<CoolingSpan, CoolingError> {
    let at = |heat_input, temperature, thickness| {
        let CoolingSpanCase { metal, shape, .. } = *case;
        both(&CoolingCase { metal, heat_input, temperature, thickness, shape })
    };
    let fastest = at(case.heat_input.low(), case.temperature.low(), case.thickness.high())?;
    let slowest = at(case.heat_input.high(), case.temperature.high(), case.thickness.low())?;
    let thick = |corner: &Both| corner.is_thick || corner.near;
    let thin = |corner: &Both| !corner.is_thick || corner.near;
    let (any_thick, any_thin) =
        (thick(&fastest) || thick(&slowest), thin(&fastest) || thin(&slowest));
    let shortest = (fastest.thin.low(), fastest.thick.low());
    let longest = (slowest.thin.high(), slowest.thick.high());
    let (heat_flow, low, high) = match (any_thin, any_thick) {
        (true, true) => (None, shortest.0.min(shortest.1), longest.0.max(longest.1)),
        (true, false) => (Some(HeatFlow::TwoDimensional), shortest.0, longest.0),
        (false, _) => (Some(HeatFlow::ThreeDimensional), shortest.1, longest.1),
    };
    Ok(CoolingSpan { time: span_of(Ok(low), Ok(high))?, heat_flow })
}
