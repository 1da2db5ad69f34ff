//! Where and when preheat is measured, and how wide it has to reach.

use super::PreheatError;
use crate::{
    quantity::{Duration, Thickness, UnitSystem, WeldDistance},
    trade::{coded, formula, scope::positive},
};

formula! {
    /// Where preheat and interpass temperature are measured.
    pub const MEASURING_POINT {
        name: "measuring-point",
        equation: "t at most 50 mm: at 4*t from the groove edge, at most 50 mm; thicker: the temperature \
                   exists over at least 75 mm in every direction; after heating from the measured face \
                   wait 2 min per 25 mm of thickness",
        source: "ISO 13916:2017; the waiting time is from memory",
        validity: "on the face toward the welder, where practicable opposite to the heating",
        confidence: TextRead,
    }
}

formula! {
    /// How far preheat has to reach by AWS D1.1.
    pub const HEATED_WIDTH {
        name: "heated-width",
        equation: "thickness of the thickest part, at least 75 mm (3 in), in all directions from the \
                   point of welding",
        source: "AWS D1.1:2015, clause on minimum preheat and interpass temperature",
        validity: "preheat and interpass temperature alike",
        confidence: Secondary,
    }
}

coded! {
    /// What a measuring distance means.
    pub enum PreheatExtent: "extent of preheat" {
        /// Measured at this distance from the groove edge.
        At = "at",
        /// To exist over at least this distance in every direction, or as agreed.
        Throughout = "throughout",
    }
}

/// Where and when to measure.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MeasuringPoint {
    /// Distance from the groove edge.
    pub distance: WeldDistance,
    /// What the distance means.
    pub extent: PreheatExtent,
    /// Wait after the heat is taken away, where the heated face is measured.
    pub wait: Duration,
}

/// Where and when preheat is measured on a plate, [`MEASURING_POINT`].
///
/// # Errors
/// [`PreheatError::OutOfRange`] for a thickness not above zero.
pub fn measuring_point(thickness: Thickness) -> Result<MeasuringPoint, PreheatError> {
    positive(thickness)?;
    let (distance, extent) = if thickness.at_most(Thickness::computed(50.0)?) {
        ((4.0 * thickness.mm()).min(50.0), PreheatExtent::At)
    } else {
        (75.0, PreheatExtent::Throughout)
    };
    Ok(MeasuringPoint {
        distance: WeldDistance::computed(distance)?,
        extent,
        wait: Duration::computed(2.0 * 60.0 * thickness.mm() / 25.0)?,
    })
}

/// How far preheat has to reach, [`HEATED_WIDTH`].
///
/// # Errors
/// [`PreheatError::OutOfRange`] for a thickness not above zero.
pub fn heated_width(
    thickest: Thickness,
    columns: UnitSystem,
) -> Result<WeldDistance, PreheatError> {
    positive(thickest)?;
    let least = match columns {
        UnitSystem::Metric => 75.0,
        UnitSystem::Us => 3.0 * 25.4,
    };
    Ok(WeldDistance::computed(thickest.mm().max(least))?)
}
