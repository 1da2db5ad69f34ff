//! Height of the unprepared edge at the root, held in mm.

use crate::quantity::{Kind, KindInfo, Quantity, Unit, UnitSystem};

/// Height of the unprepared edge at the root, held in mm.
pub type RootFace = Quantity<RootFaceKind>;

/// The kind of [`RootFace`].
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum RootFaceKind {}

impl Kind for RootFaceKind {
    const INFO: &'static KindInfo = &KindInfo {
        name: "root face",
        units: &[
            Unit::new("mm", &[], (1.0, 1.0), Some(UnitSystem::Metric)),
            Unit::new("cm", &[], (10.0, 1.0), Some(UnitSystem::Metric)),
            Unit::new("m", &[], (1_000.0, 1.0), Some(UnitSystem::Metric)),
            Unit::new("in", &["[in_i]", "inch"], (25.4, 1.0), Some(UnitSystem::Us)),
            Unit::new("ft", &["[ft_i]"], (304.8, 1.0), Some(UnitSystem::Us)),
        ],
        metric: "mm",
        us: "in",
        span: (0.0, 100.0),
        tolerance_floor: 0.0,
    };
}

impl RootFace {
    /// The value in mm.
    #[must_use]
    pub const fn mm(self) -> f64 {
        self.canonical()
    }
}
