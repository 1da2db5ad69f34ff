//! Depth of an edge preparation or of a gouged groove, held in mm.

use crate::quantity::{Kind, KindInfo, Quantity, Unit, UnitSystem};

/// Depth of an edge preparation or of a gouged groove, held in mm.
pub type PreparationDepth = Quantity<PreparationDepthKind>;

/// The kind of [`PreparationDepth`].
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PreparationDepthKind {}

impl Kind for PreparationDepthKind {
    const INFO: &'static KindInfo = &KindInfo {
        name: "depth of preparation",
        units: &[
            Unit::new("mm", &[], (1.0, 1.0), Some(UnitSystem::Metric)),
            Unit::new("cm", &[], (10.0, 1.0), Some(UnitSystem::Metric)),
            Unit::new("m", &[], (1_000.0, 1.0), Some(UnitSystem::Metric)),
            Unit::new("in", &["[in_i]", "inch"], (25.4, 1.0), Some(UnitSystem::Us)),
            Unit::new("ft", &["[ft_i]"], (304.8, 1.0), Some(UnitSystem::Us)),
        ],
        metric: "mm",
        us: "in",
        span: (0.1, 1_000.0),
        tolerance_floor: 0.0,
    };
}

impl PreparationDepth {
    /// The value in mm.
    #[must_use]
    pub const fn mm(self) -> f64 {
        self.canonical()
    }
}
