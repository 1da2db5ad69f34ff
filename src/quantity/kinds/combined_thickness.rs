//! Sum of the thicknesses of all paths that lead heat from a weld, held in mm.

use crate::quantity::{Kind, KindInfo, Quantity, Unit, UnitSystem};

/// Sum of the thicknesses of all paths that lead heat from a weld, held in mm.
pub type CombinedThickness = Quantity<CombinedThicknessKind>;

/// The kind of [`CombinedThickness`].
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum CombinedThicknessKind {}

impl Kind for CombinedThicknessKind {
    const INFO: &'static KindInfo = &KindInfo {
        name: "combined thickness",
        units: &[
            Unit::new("mm", &[], (1.0, 1.0), Some(UnitSystem::Metric)),
            Unit::new("cm", &[], (10.0, 1.0), Some(UnitSystem::Metric)),
            Unit::new("m", &[], (1_000.0, 1.0), Some(UnitSystem::Metric)),
            Unit::new("in", &["[in_i]", "inch"], (25.4, 1.0), Some(UnitSystem::Us)),
            Unit::new("ft", &["[ft_i]"], (304.8, 1.0), Some(UnitSystem::Us)),
        ],
        metric: "mm",
        us: "in",
        span: (0.1, 3_000.0),
        tolerance_floor: 0.0,
    };
}

impl CombinedThickness {
    /// The value in mm.
    #[must_use]
    pub const fn mm(self) -> f64 {
        self.canonical()
    }
}
