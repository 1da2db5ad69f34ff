//! Radius at the bottom of a U or J preparation, held in mm.

use crate::quantity::{Kind, KindInfo, Quantity, Unit, UnitSystem};

/// Radius at the bottom of a U or J preparation, held in mm.
pub type RootRadius = Quantity<RootRadiusKind>;

/// The kind of [`RootRadius`].
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum RootRadiusKind {}

impl Kind for RootRadiusKind {
    const INFO: &'static KindInfo = &KindInfo {
        name: "root radius",
        units: &[
            Unit::new("mm", &[], (1.0, 1.0), Some(UnitSystem::Metric)),
            Unit::new("cm", &[], (10.0, 1.0), Some(UnitSystem::Metric)),
            Unit::new("m", &[], (1_000.0, 1.0), Some(UnitSystem::Metric)),
            Unit::new("in", &["[in_i]", "inch"], (25.4, 1.0), Some(UnitSystem::Us)),
            Unit::new("ft", &["[ft_i]"], (304.8, 1.0), Some(UnitSystem::Us)),
        ],
        metric: "mm",
        us: "in",
        span: (0.0, 50.0),
        tolerance_floor: 0.0,
    };
}

impl RootRadius {
    /// The value in mm.
    #[must_use]
    pub const fn mm(self) -> f64 {
        self.canonical()
    }
}
