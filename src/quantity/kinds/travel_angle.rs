//! Angle of the gun from the perpendicular in the plane of the joint, held in degrees: drag is positive, push is negative.

use crate::quantity::{Kind, KindInfo, Quantity, Unit};

/// Angle of the gun from the perpendicular in the plane of the joint, held in degrees: drag is positive, push is negative.
pub type TravelAngle = Quantity<TravelAngleKind>;

/// The kind of [`TravelAngle`].
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum TravelAngleKind {}

impl Kind for TravelAngleKind {
    const INFO: &'static KindInfo = &KindInfo {
        name: "travel angle",
        units: &[Unit::new("deg", &["°"], (1.0, 1.0), None)],
        metric: "deg",
        us: "deg",
        span: (-60.0, 60.0),
        tolerance_floor: 1.0,
    };
}

impl TravelAngle {
    /// The value in deg.
    #[must_use]
    pub const fn degrees(self) -> f64 {
        self.canonical()
    }
}
