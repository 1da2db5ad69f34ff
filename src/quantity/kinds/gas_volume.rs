//! Volume of shielding gas, held in litres.

use crate::quantity::{Kind, KindInfo, Quantity, Unit, UnitSystem};

/// Volume of shielding gas, held in litres.
pub type GasVolume = Quantity<GasVolumeKind>;

/// The kind of [`GasVolume`].
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum GasVolumeKind {}

impl Kind for GasVolumeKind {
    const INFO: &'static KindInfo = &KindInfo {
        name: "gas volume",
        units: &[
            Unit::new("L", &["l"], (1.0, 1.0), Some(UnitSystem::Metric)),
            Unit::new("m3", &[], (1_000.0, 1.0), Some(UnitSystem::Metric)),
            Unit::new("ft3", &["[cft_i]"], (28.316_846_592, 1.0), Some(UnitSystem::Us)),
        ],
        metric: "L",
        us: "ft3",
        span: (0.0, 1.0e9),
        tolerance_floor: 0.0,
    };
}

impl GasVolume {
    /// The value in L.
    #[must_use]
    pub const fn litres(self) -> f64 {
        self.canonical()
    }
}
