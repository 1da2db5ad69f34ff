//! Energy that melts a volume of metal, held in J/mm³.

use crate::quantity::{Kind, KindInfo, Quantity, Unit, UnitSystem};

/// Energy that melts a volume of metal, held in J/mm³.
pub type MeltingEnergy = Quantity<MeltingEnergyKind>;

/// The kind of [`MeltingEnergy`].
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum MeltingEnergyKind {}

impl Kind for MeltingEnergyKind {
    const INFO: &'static KindInfo = &KindInfo {
        name: "melting energy",
        units: &[
            Unit::new("J/mm3", &["J/mm³"], (1.0, 1.0), Some(UnitSystem::Metric)),
            Unit::new("J/in3", &["J/in³"], (1.0, 16_387.064), Some(UnitSystem::Us)),
        ],
        metric: "J/mm3",
        us: "J/in3",
        span: (0.1, 100.0),
        tolerance_floor: 0.0,
    };
}

impl MeltingEnergy {
    /// The value in J/mm³.
    #[must_use]
    pub const fn j_per_mm3(self) -> f64 {
        self.canonical()
    }
}
