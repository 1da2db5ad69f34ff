//! Speed of the arc along the joint, held in mm/min; never the speed of a weave along its path.

use crate::quantity::{Kind, KindInfo, Quantity, Unit, UnitSystem};

/// Speed of the arc along the joint, held in mm/min; never the speed of a weave along its path.
pub type TravelSpeed = Quantity<TravelSpeedKind>;

/// The kind of [`TravelSpeed`].
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum TravelSpeedKind {}

impl Kind for TravelSpeedKind {
    const INFO: &'static KindInfo = &KindInfo {
        name: "travel speed",
        units: &[
            Unit::new("mm/min", &[], (1.0, 1.0), Some(UnitSystem::Metric)),
            Unit::new("mm/s", &[], (60.0, 1.0), Some(UnitSystem::Metric)),
            Unit::new("cm/min", &[], (10.0, 1.0), Some(UnitSystem::Metric)),
            Unit::new("m/min", &[], (1_000.0, 1.0), Some(UnitSystem::Metric)),
            Unit::new("in/min", &["[in_i]/min"], (25.4, 1.0), Some(UnitSystem::Us)),
        ],
        metric: "mm/min",
        us: "in/min",
        span: (1.0, 10_000.0),
        tolerance_floor: 0.0,
    };
}

impl TravelSpeed {
    /// The value in mm/min.
    #[must_use]
    pub const fn mm_per_min(self) -> f64 {
        self.canonical()
    }
}
