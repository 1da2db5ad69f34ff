//! Diffusible hydrogen of deposited metal (ISO 3690), held in mL per 100 g.

use crate::quantity::{Kind, KindInfo, Quantity, Unit};

/// Diffusible hydrogen of deposited metal (ISO 3690), held in mL per 100 g.
pub type HydrogenContent = Quantity<HydrogenContentKind>;

/// The kind of [`HydrogenContent`].
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum HydrogenContentKind {}

impl Kind for HydrogenContentKind {
    const INFO: &'static KindInfo = &KindInfo {
        name: "diffusible hydrogen",
        units: &[Unit::new("mL/100g", &["mL/(100.g)", "ml/100g"], (1.0, 1.0), None)],
        metric: "mL/100g",
        us: "mL/100g",
        span: (0.0, 100.0),
        tolerance_floor: 0.0,
    };
}

impl HydrogenContent {
    /// The value in mL/100g.
    #[must_use]
    pub const fn ml_per_100g(self) -> f64 {
        self.canonical()
    }
}
