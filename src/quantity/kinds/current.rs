//! Welding current, held in amperes; the arithmetic mean for direct current.

use crate::quantity::{Kind, KindInfo, Quantity, Unit};

/// Welding current, held in amperes; the arithmetic mean for direct current.
pub type Current = Quantity<CurrentKind>;

/// The kind of [`Current`].
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum CurrentKind {}

impl Kind for CurrentKind {
    const INFO: &'static KindInfo = &KindInfo {
        name: "welding current",
        units: &[Unit::new("A", &[], (1.0, 1.0), None)],
        metric: "A",
        us: "A",
        span: (1.0, 3_000.0),
        tolerance_floor: 0.0,
    };
}

impl Current {
    /// The value in A.
    #[must_use]
    pub const fn amperes(self) -> f64 {
        self.canonical()
    }
}
