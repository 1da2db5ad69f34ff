//! Electrical energy of one run, held in joules.

use crate::quantity::{Kind, KindInfo, Quantity, Unit};

/// Electrical energy of one run, held in joules.
pub type Energy = Quantity<EnergyKind>;

/// The kind of [`Energy`].
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum EnergyKind {}

impl Kind for EnergyKind {
    const INFO: &'static KindInfo = &KindInfo {
        name: "energy",
        units: &[
            Unit::new("J", &[], (1.0, 1.0), None),
            Unit::new("kJ", &[], (1_000.0, 1.0), None),
            Unit::new("MJ", &[], (1_000_000.0, 1.0), None),
            Unit::new("kWh", &["kW.h"], (3_600_000.0, 1.0), None),
        ],
        metric: "kJ",
        us: "kJ",
        span: (1.0, 1.0e12),
        tolerance_floor: 0.0,
    };
}

impl Energy {
    /// The value in J.
    #[must_use]
    pub const fn joules(self) -> f64 {
        self.canonical()
    }
}
