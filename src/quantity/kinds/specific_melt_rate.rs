//! Metal melted per hour and ampere, held in g/(A·h).

use crate::quantity::{Kind, KindInfo, Quantity, Unit, UnitSystem};

/// Metal melted per hour and ampere, held in g/(A·h).
pub type SpecificMeltRate = Quantity<SpecificMeltRateKind>;

/// The kind of [`SpecificMeltRate`].
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SpecificMeltRateKind {}

impl Kind for SpecificMeltRateKind {
    const INFO: &'static KindInfo = &KindInfo {
        name: "melt rate per ampere",
        units: &[
            Unit::new("g/(A.h)", &["g/(A·h)"], (1.0, 1.0), Some(UnitSystem::Metric)),
            Unit::new("lb/(A.h)", &["lb/(A·h)"], (453.592_37, 1.0), Some(UnitSystem::Us)),
        ],
        metric: "g/(A.h)",
        us: "lb/(A.h)",
        span: (0.1, 1_000.0),
        tolerance_floor: 0.0,
    };
}

impl SpecificMeltRate {
    /// The value in g/(A·h).
    #[must_use]
    pub const fn g_per_a_h(self) -> f64 {
        self.canonical()
    }
}
