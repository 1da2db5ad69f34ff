//! Cooling time from 800 °C to 500 °C by EN 1011-2, Annex D.

use super::{CoolingError, ShapeFactors};
use crate::{
    quantity::{Duration, DurationKind, HeatInput, Share, ShareKind, Span, Temperature, Thickness},
    trade::{
        SteelFamily, coded,
        corners::span_of,
        formula,
        scope::{positive, within},
    },
};

formula! {
    /// Cooling time with three-dimensional heat flow (thick plate).
    pub const COOLING_TIME_THICK {
        name: "cooling-time-thick-plate",
        equation: "t = (6700 - 5*T0) * Q * [1/(500-T0) - 1/(800-T0)] * F3; T0 in °C, Q in kJ/mm, t in s",
        source: "EN 1011-2:2001, Annex D (same in SEW 088 and ISO/TR 17671-2)",
        validity: "unalloyed and low-alloy ferritic steel; T0 from 0 to 300 °C, even over the plate; d \
                   at or above the transition thickness; long run away from edges; expect 10 to 20 % \
                   against a thermocouple",
        confidence: Secondary,
    }
}

formula! {
    /// Cooling time with two-dimensional heat flow (thin plate).
    pub const COOLING_TIME_THIN {
        name: "cooling-time-thin-plate",
        equation: "t = (4300 - 4.3*T0) * 10^5 * (Q/d)^2 * [1/(500-T0)^2 - 1/(800-T0)^2] * F2; T0 in \
                   °C, Q in kJ/mm, d in mm (plate thickness, not combined thickness), t in s",
        source: "EN 1011-2:2001, Annex D (same in SEW 088 and ISO/TR 17671-2)",
        validity: "as cooling-time-thick-plate, with d below the transition thickness",
        confidence: Secondary,
    }
}

formula! {
    /// Thickness at which the heat flow changes from two- to three-dimensional.
    pub const TRANSITION_THICKNESS {
        name: "transition-thickness",
        equation: "d_t = sqrt{(4300-4.3*T0)*10^5/(6700-5*T0) * Q * [1/(500-T0) + 1/(800-T0)]}; T0 in \
                   °C, Q in kJ/mm, d_t in mm",
        source: "EN 1011-2:2001, Annex D: both cooling times equal at F2 = F3 = 1 (own algebra)",
        validity: "as cooling-time-thick-plate; where F2 and F3 differ, the curves cross elsewhere, \
                   which the chart of the standard leaves aside",
        confidence: Derived,
    }
}

/// Share of the transition thickness between which both times are reported (common practice, no
/// source).
const TRANSITION_BAND: (f64, f64) = (0.8, 1.25);

coded! {
    /// Paths of the heat.
    pub enum HeatFlow: "heat flow" {
        /// Into the plane of the plate only: thin plate.
        TwoDimensional = "two-dimensional",
        /// Also into the depth: thick plate.
        ThreeDimensional = "three-dimensional",
    }
}

/// One run on one plate.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CoolingCase {
    /// What the metal is.
    pub metal: SteelFamily,
    /// Heat input, thermal efficiency counted.
    pub heat_input: HeatInput,
    /// Preheat or interpass temperature just before the run.
    pub temperature: Temperature,
    /// Thickness of the plate.
    pub thickness: Thickness,
    /// Shape factors.
    pub shape: ShapeFactors,
}

/// Cooling time and how it came about.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CoolingTime {
    /// Heat flow by transition thickness.
    pub heat_flow: HeatFlow,
    /// Cooling time with that heat flow, over the range of the shape factor.
    pub time: Span<DurationKind>,
    /// Transition thickness with shape factors of one.
    pub transition_thickness: Thickness,
    /// Cooling time with the other heat flow, where the thickness is within 0.8 to 1.25 of the
    /// transition thickness and either may be true.
    pub other_heat_flow: Option<Span<DurationKind>>,
}

/// Terms of both equations that depend on temperature only.
#[derive(Debug, Clone, Copy)]
pub(super) struct Terms {
    /// Thick plate: s per kJ/mm at `F3 = 1`.
    pub thick: f64,
    /// Thin plate: s·mm² per (kJ/mm)² at `F2 = 1`.
    pub thin: f64,
    /// Square of the transition thickness over heat input, mm²/(kJ/mm).
    pub transition: f64,
}

impl Terms {
    /// The terms at a preheat or interpass temperature.
    pub(super) fn at(temperature: Temperature) -> Result<Self, CoolingError> {
        within(temperature, 0.0, 300.0)?;
        let t0 = temperature.celsius();
        let (to_500, to_800) = (1.0 / (500.0 - t0), 1.0 / (800.0 - t0));
        let thick = 6_700.0 - 5.0 * t0;
        let thin = (4_300.0 - 4.3 * t0) * 1e5;
        Ok(Self {
            thick: thick * (to_500 - to_800),
            thin: thin * (to_500 * to_500 - to_800 * to_800),
            transition: thin / thick * (to_500 + to_800),
        })
    }

    fn transition_thickness(&self, heat_input: HeatInput) -> Result<Thickness, CoolingError> {
        Ok(Thickness::computed((self.transition * heat_input.kj_per_mm()).sqrt())?)
    }
}

/// Transition thickness, [`TRANSITION_THICKNESS`].
///
/// # Errors
/// [`CoolingError::OutOfRange`] for a heat input not above zero or a temperature outside 0 to
/// 300 °C.
pub fn transition_thickness(
    heat_input: HeatInput,
    temperature: Temperature,
) -> Result<Thickness, CoolingError> {
    positive(heat_input)?;
    Terms::at(temperature)?.transition_thickness(heat_input)
}

/// Whether a thickness is within 0.8 to 1.25 of the transition thickness, where either heat flow may be true (common
/// practice, no source).
#[must_use]
pub fn is_near_transition(thickness: Thickness, transition: Thickness) -> bool {
    let relative = thickness.mm() / transition.mm();
    (TRANSITION_BAND.0..=TRANSITION_BAND.1).contains(&relative)
}

/// Cooling time from 800 °C to 500 °C, [`COOLING_TIME_THICK`] or [`COOLING_TIME_THIN`] by
/// [`TRANSITION_THICKNESS`].
///
/// | symbol | input or result | unit |
/// |---|---|---|
/// | `Q` | `heat_input` | kJ/mm |
/// | `T0` | `temperature` | °C |
/// | `d` | `thickness` | mm |
/// | `F2`, `F3` | `shape` | 1 |
/// | `t` | `time` | s |
/// | `d_t` | `transition_thickness` | mm |
///
/// # Errors
/// [`CoolingError::Metal`] for any metal but unalloyed and low-alloy ferritic steel,
/// [`CoolingError::OutOfRange`] for heat input, thickness or shape factor not above zero or a
/// temperature outside 0 to 300 °C.
pub fn cooling_time(case: &CoolingCase) -> Result<CoolingTime, CoolingError> {
    let Both { thin, thick, transition, is_thick, near } = both(case)?;
    let (heat_flow, time, other) = if is_thick {
        (HeatFlow::ThreeDimensional, thick, thin)
    } else {
        (HeatFlow::TwoDimensional, thin, thick)
    };
    let other_heat_flow = near.then_some(other);
    Ok(CoolingTime { heat_flow, time, transition_thickness: transition, other_heat_flow })
}

/// Cooling times with both heat flows, and which of them is taken.
#[derive(Debug, Clone, Copy)]
pub(super) struct Both {
    pub(super) thin: Span<DurationKind>,
    pub(super) thick: Span<DurationKind>,
    pub(super) transition: Thickness,
    pub(super) is_thick: bool,
    /// Whether the thickness is so near the transition that either may be true.
    pub(super) near: bool,
}

/// Both cooling times of a case.
pub(super) fn both(case: &CoolingCase) -> Result<Both, CoolingError> {
    case.metal.low_alloy_only()?;
    positive(case.thickness)?;
    positive(case.heat_input)?;
    let terms = Terms::at(case.temperature)?;
    let transition = terms.transition_thickness(case.heat_input)?;
    let q = case.heat_input.kj_per_mm();
    let thick = over_factor(terms.thick * q, &case.shape.three_dimensional)?;
    let per_thickness = q / case.thickness.mm();
    let thin =
        over_factor(terms.thin * per_thickness * per_thickness, &case.shape.two_dimensional)?;
    let is_thick = case.thickness.at_least(transition);
    let near = is_near_transition(case.thickness, transition);
    Ok(Both { thin, thick, transition, is_thick, near })
}

/// The times between both ends of a shape factor.
fn over_factor(at_one: f64, factor: &Span<ShareKind>) -> Result<Span<DurationKind>, CoolingError> {
    positive(factor.low())?;
    let time = |factor: Share| Duration::computed(at_one * factor.ratio());
    Ok(span_of(time(factor.low()), time(factor.high()))?)
}
