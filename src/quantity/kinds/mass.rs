//! Mass, held in kg.

use crate::quantity::{Kind, KindInfo, Quantity, Unit, UnitSystem};

/// Mass, held in kg.
pub type Mass = Quantity<MassKind>;

/// The kind of [`Mass`].
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum MassKind {}

impl Kind for MassKind {
    const INFO: &'static KindInfo = &KindInfo {
        name: "mass",
        units: &[
            Unit::new("kg", &[], (1.0, 1.0), Some(UnitSystem::Metric)),
            Unit::new("g", &[], (1.0, 1_000.0), Some(UnitSystem::Metric)),
            Unit::new("lb", &["[lb_av]"], (0.453_592_37, 1.0), Some(UnitSystem::Us)),
        ],
        metric: "kg",
        us: "lb",
        span: (0.0, 1.0e7),
        tolerance_floor: 0.0,
    };
}

impl Mass {
    /// The value in kg.
    #[must_use]
    pub const fn kg(self) -> f64 {
        self.canonical()
    }
}
