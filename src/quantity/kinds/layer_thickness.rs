//! Thickness of one layer of weld metal, held in mm.

use crate::quantity::{Kind, KindInfo, Quantity, Unit, UnitSystem};

/// Thickness of one layer of weld metal, held in mm.
pub type LayerThickness = Quantity<LayerThicknessKind>;

/// The kind of [`LayerThickness`].
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LayerThicknessKind {}

impl Kind for LayerThicknessKind {
    const INFO: &'static KindInfo = &KindInfo {
        name: "layer thickness",
        units: &[
            Unit::new("mm", &[], (1.0, 1.0), Some(UnitSystem::Metric)),
            Unit::new("cm", &[], (10.0, 1.0), Some(UnitSystem::Metric)),
            Unit::new("m", &[], (1_000.0, 1.0), Some(UnitSystem::Metric)),
            Unit::new("in", &["[in_i]", "inch"], (25.4, 1.0), Some(UnitSystem::Us)),
            Unit::new("ft", &["[ft_i]"], (304.8, 1.0), Some(UnitSystem::Us)),
        ],
        metric: "mm",
        us: "in",
        span: (0.1, 50.0),
        tolerance_floor: 0.0,
    };
}

impl LayerThickness {
    /// The value in mm.
    #[must_use]
    pub const fn mm(self) -> f64 {
        self.canonical()
    }
}
