//! Length of a welding cable, one way, held in m.

use crate::quantity::{Kind, KindInfo, Quantity, Unit, UnitSystem};

/// Length of a welding cable, one way, held in m.
pub type CableLength = Quantity<CableLengthKind>;

/// The kind of [`CableLength`].
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum CableLengthKind {}

impl Kind for CableLengthKind {
    const INFO: &'static KindInfo = &KindInfo {
        name: "cable length",
        units: &[
            Unit::new("m", &[], (1.0, 1.0), Some(UnitSystem::Metric)),
            Unit::new("mm", &[], (1.0, 1_000.0), Some(UnitSystem::Metric)),
            Unit::new("ft", &["[ft_i]"], (0.304_8, 1.0), Some(UnitSystem::Us)),
        ],
        metric: "m",
        us: "ft",
        span: (0.1, 1_000.0),
        tolerance_floor: 0.0,
    };
}

impl CableLength {
    /// The value in m.
    #[must_use]
    pub const fn m(self) -> f64 {
        self.canonical()
    }
}
