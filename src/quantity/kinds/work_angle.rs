//! Angle of the gun in the plane square to the joint, from the surface of the lower plate, held in degrees.

use crate::quantity::{Kind, KindInfo, Quantity, Unit};

/// Angle of the gun in the plane square to the joint, from the surface of the lower plate, held in degrees.
pub type WorkAngle = Quantity<WorkAngleKind>;

/// The kind of [`WorkAngle`].
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum WorkAngleKind {}

impl Kind for WorkAngleKind {
    const INFO: &'static KindInfo = &KindInfo {
        name: "work angle",
        units: &[Unit::new("deg", &["°"], (1.0, 1.0), None)],
        metric: "deg",
        us: "deg",
        span: (0.0, 180.0),
        tolerance_floor: 1.0,
    };
}

impl WorkAngle {
    /// The value in deg.
    #[must_use]
    pub const fn degrees(self) -> f64 {
        self.canonical()
    }
}
