//! Shape factors: how much of the heat a joint leads away, against a run on a plate.

use crate::{
    quantity::{QuantityError, Share, ShareKind, Span},
    trade::{coded, corners::span_of},
};

coded! {
    /// Weld shapes of EN 1011-2:2001, Table D.1.
    pub enum WeldShape: "weld shape" {
        /// Run on a plate.
        RunOnPlate = "run-on-plate",
        /// Between-run of a butt weld.
        BetweenRun = "between-run-of-butt-weld",
        /// Single-run fillet on a corner joint.
        CornerFillet = "single-run-fillet-on-corner-joint",
        /// Single-run fillet on a T-joint.
        TeeFillet = "single-run-fillet-on-tee-joint",
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

/// Shape factors of EN 1011-2:2001, Table D.1 (from memory).
///
/// # Errors
/// None in practice; the values are constants.
pub fn shape_factors(shape: WeldShape) -> Result<ShapeFactors, QuantityError> {
    let ((low, high), three) = match shape {
        WeldShape::RunOnPlate => ((1.0, 1.0), 1.0),
        WeldShape::BetweenRun => ((0.9, 0.9), 0.9),
        WeldShape::CornerFillet => ((0.67, 0.9), 0.67),
        WeldShape::TeeFillet => ((0.45, 0.67), 0.67),
    };
    Ok(ShapeFactors {
        two_dimensional: span_of(Share::computed(low), Share::computed(high))?,
        three_dimensional: Span::one(Share::computed(three)?),
    })
}
