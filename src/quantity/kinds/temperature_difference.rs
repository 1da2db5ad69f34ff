//! Difference of two temperatures, held in kelvin.

use crate::quantity::{Kind, KindInfo, Quantity, Unit, UnitSystem};

/// Difference of two temperatures, held in kelvin.
pub type TemperatureDifference = Quantity<TemperatureDifferenceKind>;

/// The kind of [`TemperatureDifference`].
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum TemperatureDifferenceKind {}

impl Kind for TemperatureDifferenceKind {
    const INFO: &'static KindInfo = &KindInfo {
        name: "temperature difference",
        units: &[
            Unit::new("K", &["°C", "degC", "Cel"], (1.0, 1.0), Some(UnitSystem::Metric)),
            Unit::new("°F", &["degF", "[degF]"], (5.0, 9.0), Some(UnitSystem::Us)),
        ],
        metric: "K",
        us: "°F",
        span: (-2_000.0, 2_000.0),
        tolerance_floor: 0.0,
    };
}

impl TemperatureDifference {
    /// The value in K.
    #[must_use]
    pub const fn kelvin(self) -> f64 {
        self.canonical()
    }
}
