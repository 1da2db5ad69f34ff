//! Width of a weld face from edge to edge, held in mm.

use crate::quantity::{Kind, KindInfo, Quantity, Unit, UnitSystem};

/// Width of a weld face from edge to edge, held in mm.
pub type FaceWidth = Quantity<FaceWidthKind>;

/// The kind of [`FaceWidth`].
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FaceWidthKind {}

impl Kind for FaceWidthKind {
    const INFO: &'static KindInfo = &KindInfo {
        name: "face width",
        units: &[
            Unit::new("mm", &[], (1.0, 1.0), Some(UnitSystem::Metric)),
            Unit::new("cm", &[], (10.0, 1.0), Some(UnitSystem::Metric)),
            Unit::new("m", &[], (1_000.0, 1.0), Some(UnitSystem::Metric)),
            Unit::new("in", &["[in_i]", "inch"], (25.4, 1.0), Some(UnitSystem::Us)),
            Unit::new("ft", &["[ft_i]"], (304.8, 1.0), Some(UnitSystem::Us)),
        ],
        metric: "mm",
        us: "in",
        span: (0.0, 500.0),
        tolerance_floor: 0.0,
    };
}

impl FaceWidth {
    /// The value in mm.
    #[must_use]
    pub const fn mm(self) -> f64 {
        self.canonical()
    }
}
