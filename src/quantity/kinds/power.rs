//! Mean instantaneous power of the arc, held in watts.

use crate::quantity::{Kind, KindInfo, Quantity, Unit};

/// Mean instantaneous power of the arc, held in watts.
pub type Power = Quantity<PowerKind>;

/// The kind of [`Power`].
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PowerKind {}

impl Kind for PowerKind {
    const INFO: &'static KindInfo = &KindInfo {
        name: "power",
        units: &[Unit::new("W", &[], (1.0, 1.0), None), Unit::new("kW", &[], (1_000.0, 1.0), None)],
        metric: "kW",
        us: "kW",
        span: (10.0, 300_000.0),
        tolerance_floor: 0.0,
    };
}

impl Power {
    /// The value in W.
    #[must_use]
    pub const fn watts(self) -> f64 {
        self.canonical()
    }
}
