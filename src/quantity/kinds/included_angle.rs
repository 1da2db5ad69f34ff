//! Angle between the two prepared edges of a groove, held in degrees.

use crate::quantity::{Kind, KindInfo, Quantity, Unit};

/// Angle between the two prepared edges of a groove, held in degrees.
pub type IncludedAngle = Quantity<IncludedAngleKind>;

/// The kind of [`IncludedAngle`].
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum IncludedAngleKind {}

impl Kind for IncludedAngleKind {
    const INFO: &'static KindInfo = &KindInfo {
        name: "included angle",
        units: &[Unit::new("deg", &["°"], (1.0, 1.0), None)],
        metric: "deg",
        us: "deg",
        span: (0.0, 150.0),
        tolerance_floor: 0.0,
    };
}

impl IncludedAngle {
    /// The value in degrees.
    #[must_use]
    pub const fn degrees(self) -> f64 {
        self.canonical()
    }
}
