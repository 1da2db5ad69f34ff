//! Electrical energy per length of run without thermal efficiency (ISO/TR 18491), held in kJ/mm. US codes call it heat input.

use crate::quantity::{Kind, KindInfo, Quantity, Unit, UnitSystem};

/// Electrical energy per length of run without thermal efficiency (ISO/TR 18491), held in kJ/mm. US codes call it heat input.
pub type ArcEnergy = Quantity<ArcEnergyKind>;

/// The kind of [`ArcEnergy`].
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ArcEnergyKind {}

impl Kind for ArcEnergyKind {
    const INFO: &'static KindInfo = &KindInfo {
        name: "arc energy",
        units: &[
            Unit::new("kJ/mm", &[], (1.0, 1.0), Some(UnitSystem::Metric)),
            Unit::new("J/mm", &[], (1.0, 1_000.0), Some(UnitSystem::Metric)),
            Unit::new("kJ/cm", &[], (0.1, 1.0), Some(UnitSystem::Metric)),
            Unit::new("kJ/in", &["kJ/[in_i]"], (1.0, 25.4), Some(UnitSystem::Us)),
            Unit::new("J/in", &["J/[in_i]"], (1.0, 25_400.0), Some(UnitSystem::Us)),
        ],
        metric: "kJ/mm",
        us: "kJ/in",
        span: (0.001, 100.0),
        tolerance_floor: 0.0,
    };
}

impl ArcEnergy {
    /// The value in kJ/mm.
    #[must_use]
    pub const fn kj_per_mm(self) -> f64 {
        self.canonical()
    }
}
