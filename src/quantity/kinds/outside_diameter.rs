//! Outside diameter of a pipe or hollow section, held in mm.

use crate::quantity::{Kind, KindInfo, Quantity, Unit, UnitSystem};

/// Outside diameter of a pipe or hollow section, held in mm.
pub type OutsideDiameter = Quantity<OutsideDiameterKind>;

/// The kind of [`OutsideDiameter`].
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum OutsideDiameterKind {}

impl Kind for OutsideDiameterKind {
    const INFO: &'static KindInfo = &KindInfo {
        name: "outside diameter",
        units: &[
            Unit::new("mm", &[], (1.0, 1.0), Some(UnitSystem::Metric)),
            Unit::new("cm", &[], (10.0, 1.0), Some(UnitSystem::Metric)),
            Unit::new("m", &[], (1_000.0, 1.0), Some(UnitSystem::Metric)),
            Unit::new("in", &["[in_i]", "inch"], (25.4, 1.0), Some(UnitSystem::Us)),
            Unit::new("ft", &["[ft_i]"], (304.8, 1.0), Some(UnitSystem::Us)),
        ],
        metric: "mm",
        us: "in",
        span: (1.0, 20_000.0),
        tolerance_floor: 0.0,
    };
}

impl OutsideDiameter {
    /// The value in mm.
    #[must_use]
    pub const fn mm(self) -> f64 {
        self.canonical()
    }
}
