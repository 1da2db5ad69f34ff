//! Nominal diameter of a wire, rod or core, held in mm. 0.045 in and 1.2 mm are two sizes.

use crate::quantity::{Kind, KindInfo, Quantity, Unit, UnitSystem};

/// Nominal diameter of a wire, rod or core, held in mm. 0.045 in and 1.2 mm are two sizes.
pub type Diameter = Quantity<DiameterKind>;

/// The kind of [`Diameter`].
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum DiameterKind {}

impl Kind for DiameterKind {
    const INFO: &'static KindInfo = &KindInfo {
        name: "diameter",
        units: &[
            Unit::new("mm", &[], (1.0, 1.0), Some(UnitSystem::Metric)),
            Unit::new("cm", &[], (10.0, 1.0), Some(UnitSystem::Metric)),
            Unit::new("m", &[], (1_000.0, 1.0), Some(UnitSystem::Metric)),
            Unit::new("in", &["[in_i]", "inch"], (25.4, 1.0), Some(UnitSystem::Us)),
            Unit::new("ft", &["[ft_i]"], (304.8, 1.0), Some(UnitSystem::Us)),
        ],
        metric: "mm",
        us: "in",
        span: (0.3, 12.0),
        tolerance_floor: 0.0,
    };
}

impl Diameter {
    /// The value in mm.
    #[must_use]
    pub const fn mm(self) -> f64 {
        self.canonical()
    }
}
