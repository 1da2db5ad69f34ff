//! Mass of metal melted or deposited per hour of arc, held in kg/h.

use crate::quantity::{Kind, KindInfo, Quantity, Unit, UnitSystem};

/// Mass of metal melted or deposited per hour of arc, held in kg/h.
pub type DepositionRate = Quantity<DepositionRateKind>;

/// The kind of [`DepositionRate`].
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum DepositionRateKind {}

impl Kind for DepositionRateKind {
    const INFO: &'static KindInfo = &KindInfo {
        name: "deposition rate",
        units: &[
            Unit::new("kg/h", &[], (1.0, 1.0), Some(UnitSystem::Metric)),
            Unit::new("g/min", &[], (0.06, 1.0), Some(UnitSystem::Metric)),
            Unit::new("lb/h", &["[lb_av]/h"], (0.453_592_37, 1.0), Some(UnitSystem::Us)),
        ],
        metric: "kg/h",
        us: "lb/h",
        span: (0.001, 200.0),
        tolerance_floor: 0.0,
    };
}

impl DepositionRate {
    /// The value in kg/h.
    #[must_use]
    pub const fn kg_per_h(self) -> f64 {
        self.canonical()
    }
}
