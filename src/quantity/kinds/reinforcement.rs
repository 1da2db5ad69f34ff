//! Height of a bead above, or hollow below, the flat face, held in mm.

use crate::quantity::{Kind, KindInfo, Quantity, Unit, UnitSystem};

/// Height of a bead above, or hollow below, the flat face, held in mm.
pub type Reinforcement = Quantity<ReinforcementKind>;

/// The kind of [`Reinforcement`].
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ReinforcementKind {}

impl Kind for ReinforcementKind {
    const INFO: &'static KindInfo = &KindInfo {
        name: "height of reinforcement",
        units: &[
            Unit::new("mm", &[], (1.0, 1.0), Some(UnitSystem::Metric)),
            Unit::new("cm", &[], (10.0, 1.0), Some(UnitSystem::Metric)),
            Unit::new("m", &[], (1_000.0, 1.0), Some(UnitSystem::Metric)),
            Unit::new("in", &["[in_i]", "inch"], (25.4, 1.0), Some(UnitSystem::Us)),
            Unit::new("ft", &["[ft_i]"], (304.8, 1.0), Some(UnitSystem::Us)),
        ],
        metric: "mm",
        us: "in",
        span: (0.0, 25.0),
        tolerance_floor: 0.0,
    };
}

impl Reinforcement {
    /// The value in mm.
    #[must_use]
    pub const fn mm(self) -> f64 {
        self.canonical()
    }
}
