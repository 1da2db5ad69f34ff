//! Temperature of the metal, held in degrees Celsius.

use crate::quantity::{Kind, KindInfo, Quantity, Unit, UnitSystem};

/// Temperature of the metal, held in degrees Celsius.
pub type Temperature = Quantity<TemperatureKind>;

/// The kind of [`Temperature`].
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum TemperatureKind {}

impl Kind for TemperatureKind {
    const INFO: &'static KindInfo = &KindInfo {
        name: "temperature",
        units: &[
            Unit::new("°C", &["degC", "Cel"], (1.0, 1.0), Some(UnitSystem::Metric)),
            Unit {
                symbol: "°F",
                also: &["degF", "[degF]"],
                factor: (5.0, 9.0),
                offset: 32.0,
                system: Some(UnitSystem::Us),
            },
            Unit {
                symbol: "K",
                also: &[],
                factor: (1.0, 1.0),
                offset: 273.15,
                system: Some(UnitSystem::Metric),
            },
        ],
        metric: "°C",
        us: "°F",
        span: (-200.0, 1_700.0),
        tolerance_floor: 273.15,
    };
}

impl Temperature {
    /// The value in °C.
    #[must_use]
    pub const fn celsius(self) -> f64 {
        self.canonical()
    }
}
