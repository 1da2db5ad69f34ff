//! Flow of shielding gas, held in L/min. A flowmeter marked in cubic feet reads per hour, not per minute.

use crate::quantity::{Kind, KindInfo, Quantity, Unit, UnitSystem};

/// Flow of shielding gas, held in L/min. A flowmeter marked in cubic feet reads per hour, not per minute.
pub type GasFlow = Quantity<GasFlowKind>;

/// The kind of [`GasFlow`].
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum GasFlowKind {}

impl Kind for GasFlowKind {
    const INFO: &'static KindInfo = &KindInfo {
        name: "gas flow",
        units: &[
            Unit::new("L/min", &["l/min"], (1.0, 1.0), Some(UnitSystem::Metric)),
            Unit::new("ft3/h", &["[cft_i]/h"], (28.316_846_592, 60.0), Some(UnitSystem::Us)),
        ],
        metric: "L/min",
        us: "ft3/h",
        span: (0.0, 200.0),
        tolerance_floor: 0.0,
    };
}

impl GasFlow {
    /// The value in L/min.
    #[must_use]
    pub const fn l_per_min(self) -> f64 {
        self.canonical()
    }
}
