//! Strength as stress, held in MPa.

use crate::quantity::{Kind, KindInfo, Quantity, Unit, UnitSystem};

/// Strength as stress, held in MPa.
pub type Stress = Quantity<StressKind>;

/// The kind of [`Stress`].
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum StressKind {}

impl Kind for StressKind {
    const INFO: &'static KindInfo = &KindInfo {
        name: "stress",
        units: &[
            Unit::new("MPa", &["N/mm2", "N/mm²"], (1.0, 1.0), Some(UnitSystem::Metric)),
            Unit::new("ksi", &[], (4_448.221_615_260_5, 645.16), Some(UnitSystem::Us)),
            Unit::new("psi", &["[psi]"], (4.448_221_615_260_5, 645.16), Some(UnitSystem::Us)),
        ],
        metric: "MPa",
        us: "ksi",
        span: (1.0, 3_000.0),
        tolerance_floor: 0.0,
    };
}

impl Stress {
    /// The value in MPa.
    #[must_use]
    pub const fn mpa(self) -> f64 {
        self.canonical()
    }
}
