//! Distance from the tip of the electrode to the pool, held in mm.

use crate::quantity::{Kind, KindInfo, Quantity, Unit, UnitSystem};

/// Distance from the tip of the electrode to the pool, held in mm.
pub type ArcLength = Quantity<ArcLengthKind>;

/// The kind of [`ArcLength`].
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ArcLengthKind {}

impl Kind for ArcLengthKind {
    const INFO: &'static KindInfo = &KindInfo {
        name: "arc length",
        units: &[
            Unit::new("mm", &[], (1.0, 1.0), Some(UnitSystem::Metric)),
            Unit::new("cm", &[], (10.0, 1.0), Some(UnitSystem::Metric)),
            Unit::new("m", &[], (1_000.0, 1.0), Some(UnitSystem::Metric)),
            Unit::new("in", &["[in_i]", "inch"], (25.4, 1.0), Some(UnitSystem::Us)),
            Unit::new("ft", &["[ft_i]"], (304.8, 1.0), Some(UnitSystem::Us)),
        ],
        metric: "mm",
        us: "in",
        span: (0.2, 50.0),
        tolerance_floor: 0.0,
    };
}

impl ArcLength {
    /// The value in mm.
    #[must_use]
    pub const fn mm(self) -> f64 {
        self.canonical()
    }
}
