//! Index of susceptibility to hydrogen cracking, a bare number.

use crate::quantity::{Kind, KindInfo, Quantity, Unit};

/// Index of susceptibility to hydrogen cracking, a bare number.
pub type SusceptibilityIndex = Quantity<SusceptibilityIndexKind>;

/// The kind of [`SusceptibilityIndex`].
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SusceptibilityIndexKind {}

impl Kind for SusceptibilityIndexKind {
    const INFO: &'static KindInfo = &KindInfo {
        name: "susceptibility index",
        units: &[Unit::new("1", &[], (1.0, 1.0), None)],
        metric: "1",
        us: "1",
        span: (0.0, 20.0),
        tolerance_floor: 0.0,
    };
}

impl SusceptibilityIndex {
    /// The value in parts of one.
    #[must_use]
    pub const fn number(self) -> f64 {
        self.canonical()
    }
}
