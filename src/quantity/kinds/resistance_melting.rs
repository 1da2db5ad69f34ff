//! Wire that its own resistance melts: beta of the burn-off equation, held in s⁻¹·A⁻².

use crate::quantity::{Kind, KindInfo, Quantity, Unit};

/// Wire that its own resistance melts: beta of the burn-off equation, held in s⁻¹·A⁻².
pub type ResistanceMelting = Quantity<ResistanceMeltingKind>;

/// The kind of [`ResistanceMelting`].
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ResistanceMeltingKind {}

impl Kind for ResistanceMeltingKind {
    const INFO: &'static KindInfo = &KindInfo {
        name: "resistance melting coefficient",
        units: &[
            Unit::new("s-1.A-2", &["s⁻¹·A⁻²"], (1.0, 1.0), None),
            Unit::new("min-1.A-2", &["min⁻¹·A⁻²"], (1.0, 60.0), None),
        ],
        metric: "s-1.A-2",
        us: "min-1.A-2",
        span: (1.0e-8, 1.0e-1),
        tolerance_floor: 0.0,
    };
}

impl ResistanceMelting {
    /// The value in s⁻¹·A⁻².
    #[must_use]
    pub const fn per_s_a2(self) -> f64 {
        self.canonical()
    }
}
