//! Mass of one metre of wire or of weld metal, held in g/m.

use crate::quantity::{Kind, KindInfo, Quantity, Unit, UnitSystem};

/// Mass of one metre of wire or of weld metal, held in g/m.
pub type LinearMass = Quantity<LinearMassKind>;

/// The kind of [`LinearMass`].
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LinearMassKind {}

impl Kind for LinearMassKind {
    const INFO: &'static KindInfo = &KindInfo {
        name: "mass per length",
        units: &[
            Unit::new("g/m", &[], (1.0, 1.0), Some(UnitSystem::Metric)),
            Unit::new("kg/m", &[], (1_000.0, 1.0), Some(UnitSystem::Metric)),
            Unit::new("lb/ft", &["[lb_av]/[ft_i]"], (453.592_37, 0.304_8), Some(UnitSystem::Us)),
        ],
        metric: "g/m",
        us: "lb/ft",
        span: (0.1, 1_000_000.0),
        tolerance_floor: 0.0,
    };
}

impl LinearMass {
    /// The value in g/m.
    #[must_use]
    pub const fn g_per_m(self) -> f64 {
        self.canonical()
    }
}
