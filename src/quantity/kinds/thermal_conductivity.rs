//! Thermal conductivity, held in W/(mm·K).

use crate::quantity::{Kind, KindInfo, Quantity, Unit};

/// Thermal conductivity, held in W/(mm·K).
pub type ThermalConductivity = Quantity<ThermalConductivityKind>;

/// The kind of [`ThermalConductivity`].
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ThermalConductivityKind {}

impl Kind for ThermalConductivityKind {
    const INFO: &'static KindInfo = &KindInfo {
        name: "thermal conductivity",
        units: &[
            Unit::new("W/(mm·K)", &["W/(mm.K)"], (1.0, 1.0), None),
            Unit::new("W/(m·K)", &["W/(m.K)"], (1.0, 1_000.0), None),
        ],
        metric: "W/(mm·K)",
        us: "W/(mm·K)",
        span: (0.001, 1.0),
        tolerance_floor: 0.0,
    };
}

impl ThermalConductivity {
    /// The value in W/(mm·K).
    #[must_use]
    pub const fn w_per_mm_k(self) -> f64 {
        self.canonical()
    }
}
