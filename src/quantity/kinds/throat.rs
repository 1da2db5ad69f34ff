//! Throat of a fillet weld, held in mm.

use crate::quantity::{Kind, KindInfo, Quantity, Unit, UnitSystem};

/// Throat of a fillet weld, held in mm.
pub type Throat = Quantity<ThroatKind>;

/// The kind of [`Throat`].
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ThroatKind {}

impl Kind for ThroatKind {
    const INFO: &'static KindInfo = &KindInfo {
        name: "throat",
        units: &[
            Unit::new("mm", &[], (1.0, 1.0), Some(UnitSystem::Metric)),
            Unit::new("cm", &[], (10.0, 1.0), Some(UnitSystem::Metric)),
            Unit::new("m", &[], (1_000.0, 1.0), Some(UnitSystem::Metric)),
            Unit::new("in", &["[in_i]", "inch"], (25.4, 1.0), Some(UnitSystem::Us)),
            Unit::new("ft", &["[ft_i]"], (304.8, 1.0), Some(UnitSystem::Us)),
        ],
        metric: "mm",
        us: "in",
        span: (0.3, 150.0),
        tolerance_floor: 0.0,
    };
}

impl Throat {
    /// The value in mm.
    #[must_use]
    pub const fn mm(self) -> f64 {
        self.canonical()
    }
}
