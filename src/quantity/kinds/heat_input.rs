//! Arc energy times the thermal efficiency factor of the process (EN 1011-1, ISO/TR 17671-1), held in kJ/mm.

use crate::quantity::{Kind, KindInfo, Quantity, Unit, UnitSystem};

/// Arc energy times the thermal efficiency factor of the process (EN 1011-1, ISO/TR 17671-1), held in kJ/mm.
pub type HeatInput = Quantity<HeatInputKind>;

/// The kind of [`HeatInput`].
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum HeatInputKind {}

impl Kind for HeatInputKind {
    const INFO: &'static KindInfo = &KindInfo {
        name: "heat input",
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

impl HeatInput {
    /// The value in kJ/mm.
    #[must_use]
    pub const fn kj_per_mm(self) -> f64 {
        self.canonical()
    }
}
