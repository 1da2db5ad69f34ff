//! Density, held in g/cm³.

use crate::quantity::{Kind, KindInfo, Quantity, Unit, UnitSystem};

/// Density, held in g/cm³.
pub type Density = Quantity<DensityKind>;

/// The kind of [`Density`].
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum DensityKind {}

impl Kind for DensityKind {
    const INFO: &'static KindInfo = &KindInfo {
        name: "density",
        units: &[
            Unit::new("g/cm3", &["g/cm³"], (1.0, 1.0), Some(UnitSystem::Metric)),
            Unit::new("kg/m3", &["kg/m³"], (1.0, 1_000.0), Some(UnitSystem::Metric)),
            Unit::new(
                "lb/in3",
                &["[lb_av]/[in_i]3"],
                (453.592_37, 16.387_064),
                Some(UnitSystem::Us),
            ),
        ],
        metric: "g/cm3",
        us: "lb/in3",
        span: (0.1, 25.0),
        tolerance_floor: 0.0,
    };
}

impl Density {
    /// The value in g/cm3.
    #[must_use]
    pub const fn g_per_cm3(self) -> f64 {
        self.canonical()
    }
}
