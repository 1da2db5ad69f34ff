//! Angle between the two parts that a fillet joins, held in degrees.

use crate::quantity::{Kind, KindInfo, Quantity, Unit};

/// Angle between the two parts that a fillet joins, held in degrees.
pub type JointAngle = Quantity<JointAngleKind>;

/// The kind of [`JointAngle`].
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum JointAngleKind {}

impl Kind for JointAngleKind {
    const INFO: &'static KindInfo = &KindInfo {
        name: "angle between the parts",
        units: &[Unit::new("deg", &["°"], (1.0, 1.0), None)],
        metric: "deg",
        us: "deg",
        span: (20.0, 170.0),
        tolerance_floor: 0.0,
    };
}

impl JointAngle {
    /// The value in degrees.
    #[must_use]
    pub const fn degrees(self) -> f64 {
        self.canonical()
    }
}
