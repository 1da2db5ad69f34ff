//! How far a cap reaches past the edge of the groove, held in mm.

use crate::quantity::{Kind, KindInfo, Quantity, Unit, UnitSystem};

/// How far a cap reaches past the edge of the groove, held in mm.
pub type EdgeOverlap = Quantity<EdgeOverlapKind>;

/// The kind of [`EdgeOverlap`].
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum EdgeOverlapKind {}

impl Kind for EdgeOverlapKind {
    const INFO: &'static KindInfo = &KindInfo {
        name: "overlap past the edge",
        units: &[
            Unit::new("mm", &[], (1.0, 1.0), Some(UnitSystem::Metric)),
            Unit::new("cm", &[], (10.0, 1.0), Some(UnitSystem::Metric)),
            Unit::new("m", &[], (1_000.0, 1.0), Some(UnitSystem::Metric)),
            Unit::new("in", &["[in_i]", "inch"], (25.4, 1.0), Some(UnitSystem::Us)),
            Unit::new("ft", &["[ft_i]"], (304.8, 1.0), Some(UnitSystem::Us)),
        ],
        metric: "mm",
        us: "in",
        span: (0.0, 20.0),
        tolerance_floor: 0.0,
    };
}

impl EdgeOverlap {
    /// The value in mm.
    #[must_use]
    pub const fn mm(self) -> f64 {
        self.canonical()
    }
}
