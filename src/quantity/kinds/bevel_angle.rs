//! Angle of one prepared edge, from the square edge, held in degrees.

use crate::quantity::{Kind, KindInfo, Quantity, Unit};

/// Angle of one prepared edge, from the square edge, held in degrees.
pub type BevelAngle = Quantity<BevelAngleKind>;

/// The kind of [`BevelAngle`].
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum BevelAngleKind {}

impl Kind for BevelAngleKind {
    const INFO: &'static KindInfo = &KindInfo {
        name: "bevel angle",
        units: &[Unit::new("deg", &["°"], (1.0, 1.0), None)],
        metric: "deg",
        us: "deg",
        span: (0.0, 80.0),
        tolerance_floor: 0.0,
    };
}

impl BevelAngle {
    /// The value in degrees.
    #[must_use]
    pub const fn degrees(self) -> f64 {
        self.canonical()
    }
}
