//! Wire that the arc melts per ampere: alpha of the burn-off equation, held in mm/(s·A).

use crate::quantity::{Kind, KindInfo, Quantity, Unit, UnitSystem};

/// Wire that the arc melts per ampere: alpha of the burn-off equation, held in mm/(s·A).
pub type ArcMelting = Quantity<ArcMeltingKind>;

/// The kind of [`ArcMelting`].
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ArcMeltingKind {}

impl Kind for ArcMeltingKind {
    const INFO: &'static KindInfo = &KindInfo {
        name: "arc melting coefficient",
        units: &[
            Unit::new("mm/(s.A)", &["mm/(s·A)"], (1.0, 1.0), Some(UnitSystem::Metric)),
            Unit::new("in/(min.A)", &["in/(min·A)"], (25.4, 60.0), Some(UnitSystem::Us)),
        ],
        metric: "mm/(s.A)",
        us: "in/(min.A)",
        span: (1.0e-3, 10.0),
        tolerance_floor: 0.0,
    };
}

impl ArcMelting {
    /// The value in mm/(s·A).
    #[must_use]
    pub const fn mm_per_s_a(self) -> f64 {
        self.canonical()
    }
}
