//! How far the contact tip sits inside the nozzle, held in mm; negative where it protrudes.

use crate::quantity::{Kind, KindInfo, Quantity, Unit, UnitSystem};

/// How far the contact tip sits inside the nozzle, held in mm; negative where it protrudes.
pub type TipRecess = Quantity<TipRecessKind>;

/// The kind of [`TipRecess`].
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum TipRecessKind {}

impl Kind for TipRecessKind {
    const INFO: &'static KindInfo = &KindInfo {
        name: "tip recess",
        units: &[
            Unit::new("mm", &[], (1.0, 1.0), Some(UnitSystem::Metric)),
            Unit::new("cm", &[], (10.0, 1.0), Some(UnitSystem::Metric)),
            Unit::new("m", &[], (1_000.0, 1.0), Some(UnitSystem::Metric)),
            Unit::new("in", &["[in_i]", "inch"], (25.4, 1.0), Some(UnitSystem::Us)),
            Unit::new("ft", &["[ft_i]"], (304.8, 1.0), Some(UnitSystem::Us)),
        ],
        metric: "mm",
        us: "in",
        span: (-20.0, 60.0),
        tolerance_floor: 1.0,
    };
}

impl TipRecess {
    /// The value in mm.
    #[must_use]
    pub const fn mm(self) -> f64 {
        self.canonical()
    }
}
