//! Wire that its own resistance melts: beta of the burn-off equation, held in 1/(s·A²).

use crate::quantity::{Kind, KindInfo, Quantity, Unit};

/// Wire that its own resistance melts: beta of the burn-off equation, held in 1/(s·A²).
pub type ResistanceMelting = Quantity<ResistanceMeltingKind>;

/// The kind of [`ResistanceMelting`].
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ResistanceMeltingKind {}

impl Kind for ResistanceMeltingKind {
    const INFO: &'static KindInfo = &KindInfo {
        name: "resistance melting coefficient",
        units: &[
            Unit::new("1/(s.A2)", &["1/(s·A²)"], (1.0, 1.0), None),
            Unit::new("1/(min.A2)", &["1/(min·A²)"], (1.0, 60.0), None),
        ],
        metric: "1/(s.A2)",
        us: "1/(min.A2)",
        span: (1.0e-8, 1.0e-1),
        tolerance_floor: 0.0,
    };
}

impl ResistanceMelting {
    /// The value in 1/(s·A²).
    #[must_use]
    pub const fn per_s_a2(self) -> f64 {
        self.canonical()
    }
}
