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
            Unit::new("°F", &["degF", "[degF]"], (5.0, 9.0), Some(UnitSystem::Us))
                .with_zero_at(32.0),
            Unit::new("K", &[], (1.0, 1.0), Some(UnitSystem::Metric)).with_zero_at(273.15),
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
