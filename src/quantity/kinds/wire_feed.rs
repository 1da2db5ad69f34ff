//! Speed of the wire through the contact tip, held in m/min.

use crate::quantity::{Kind, KindInfo, Quantity, Unit, UnitSystem};

/// Speed of the wire through the contact tip, held in m/min.
pub type WireFeed = Quantity<WireFeedKind>;

/// The kind of [`WireFeed`].
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum WireFeedKind {}

impl Kind for WireFeedKind {
    const INFO: &'static KindInfo = &KindInfo {
        name: "wire feed speed",
        units: &[
            Unit::new("m/min", &[], (1.0, 1.0), Some(UnitSystem::Metric)),
            Unit::new("cm/min", &[], (1.0, 100.0), Some(UnitSystem::Metric)),
            Unit::new("mm/min", &[], (1.0, 1_000.0), Some(UnitSystem::Metric)),
            Unit::new("mm/s", &[], (0.06, 1.0), Some(UnitSystem::Metric)),
            Unit::new("in/min", &["[in_i]/min"], (0.0254, 1.0), Some(UnitSystem::Us)),
        ],
        metric: "m/min",
        us: "in/min",
        span: (0.1, 60.0),
        tolerance_floor: 0.0,
    };
}

impl WireFeed {
    /// The value in m/min.
    #[must_use]
    pub const fn m_per_min(self) -> f64 {
        self.canonical()
    }
}
