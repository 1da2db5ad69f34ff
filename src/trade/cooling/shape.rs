//! Shape factors: how much of the heat a joint leads away, against a run on a plate.

use crate::{
    quantity::{QuantityError, Share, ShareKind, Span},
    trade::{coded, corners::span_of},
};

coded! {
    /// Weld shapes of EN 1011-2:2001, Table D.1, and those that SEW 088:1993 has beside them.
    pub enum WeldShape: "weld shape" {
        /// Run on a plate.
        RunOnPlate = "run-on-plate",
        /// Between-run of a butt weld.
        BetweenRun = "between-run-of-butt-weld",
        /// Single-run fillet on a corner joint.
        CornerFillet = "single-run-fillet-on-corner-joint",
        /// Single-run fillet on a T-joint.
        TeeFillet = "single-run-fillet-on-tee-joint",
        /// Root run of a V butt weld (SEW 088).
        RootOfVee = "root-run-of-vee-butt-weld",
        /// Root run of a double V butt weld (SEW 088).
        RootOfDoubleVee = "root-run-of-double-vee-butt-weld",
        /// Fill run of a butt weld (SEW 088).
        FillRun = "fill-run-of-butt-weld",
        /// Cap run of a butt weld (SEW 088).
        CapRun = "cap-run-of-butt-weld",
        /// Single-run fillet on a lap joint (SEW 088).
        LapFillet = "single-run-fillet-on-lap-joint",
    }
}

/// Shape factors as ranges: a fillet's factor for thin plate depends on heat input over thickness.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ShapeFactors {
    /// `F2`, for two-dimensional heat flow (thin plate).
    pub two_dimensional: Span<ShareKind>,
    /// `F3`, for three-dimensional heat flow (thick plate).
    pub three_dimensional: Span<ShareKind>,
}

impl WeldShape {
    /// Where its factors are printed.
    #[must_use]
    pub const fn source(self) -> &'static str {
        match self {
            Self::RunOnPlate | Self::BetweenRun | Self::CornerFillet | Self::TeeFillet => {
                "EN 1011-2:2001, Table D.1, from memory"
            }
            _ => "SEW 088:1993, from memory",
        }
    }
}

/// Shape factors of EN 1011-2:2001, Table D.1, and of SEW 088:1993 for the shapes that only it has (both
/// from memory).
///
/// # Errors
/// None in practice; the values are constants.
pub fn shape_factors(shape: WeldShape) -> Result<ShapeFactors, QuantityError> {
    let (two, three) = match shape {
        WeldShape::RunOnPlate => ((1.0, 1.0), (1.0, 1.0)),
        WeldShape::BetweenRun => ((0.9, 0.9), (0.9, 0.9)),
        WeldShape::CornerFillet => ((0.67, 0.9), (0.67, 0.67)),
        WeldShape::TeeFillet => ((0.45, 0.67), (0.67, 0.67)),
        WeldShape::RootOfVee => ((1.0, 1.2), (1.0, 1.2)),
        WeldShape::RootOfDoubleVee => ((0.7, 0.7), (0.7, 0.7)),
        WeldShape::FillRun => ((0.8, 1.0), (0.8, 1.0)),
        WeldShape::CapRun => ((0.9, 1.0), (0.9, 1.0)),
        WeldShape::LapFillet => ((0.7, 0.7), (0.67, 0.67)),
    };
    let span = |(low, high): (f64, f64)| span_of(Share::computed(low), Share::computed(high));
    Ok(ShapeFactors { two_dimensional: span(two)?, three_dimensional: span(three)? })
}

impl ShapeFactors {
    /// The factors of either shape: where nobody says which of them a weld has.
    ///
    /// # Errors
    /// None in practice.
    pub fn or(self, other: Self) -> Result<Self, QuantityError> {
        let both = |a: &Span<ShareKind>, b: &Span<ShareKind>| {
            span_of(Ok(a.low().min(b.low())), Ok(a.high().max(b.high())))
        };
        Ok(Self {
            two_dimensional: both(&self.two_dimensional, &other.two_dimensional)?,
            three_dimensional: both(&self.three_dimensional, &other.three_dimensional)?,
        })
    }
}
