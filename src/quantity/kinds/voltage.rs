//! Voltage, held in volts; measured as near the arc as possible, for cable drop inflates it.

use crate::quantity::{Kind, KindInfo, Quantity, Unit};

/// Voltage, held in volts; measured as near the arc as possible, for cable drop inflates it.
pub type Voltage = Quantity<VoltageKind>;

/// The kind of [`Voltage`].
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum VoltageKind {}

impl Kind for VoltageKind {
    const INFO: &'static KindInfo = &KindInfo {
        name: "voltage",
        units: &[Unit::new("V", &[], (1.0, 1.0), None)],
        metric: "V",
        us: "V",
        span: (1.0, 150.0),
        tolerance_floor: 0.0,
    };
}

impl Voltage {
    /// The value in V.
    #[must_use]
    pub const fn volts(self) -> f64 {
        self.canonical()
    }
}
