//! Fall of temperature per time, held in °C/s.

use crate::quantity::{Kind, KindInfo, Quantity, Unit, UnitSystem};

/// Fall of temperature per time, held in °C/s.
pub type CoolingRate = Quantity<CoolingRateKind>;

/// The kind of [`CoolingRate`].
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum CoolingRateKind {}

impl Kind for CoolingRateKind {
    const INFO: &'static KindInfo = &KindInfo {
        name: "cooling rate",
        units: &[
            Unit::new("°C/s", &["K/s", "degC/s", "Cel/s"], (1.0, 1.0), Some(UnitSystem::Metric)),
            Unit::new("°F/s", &["degF/s", "[degF]/s"], (5.0, 9.0), Some(UnitSystem::Us)),
        ],
        metric: "°C/s",
        us: "°F/s",
        span: (0.001, 10_000.0),
        tolerance_floor: 0.0,
    };
}

impl CoolingRate {
    /// The value in °C/s.
    #[must_use]
    pub const fn celsius_per_s(self) -> f64 {
        self.canonical()
    }
}
