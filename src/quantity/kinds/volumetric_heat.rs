//! Heat capacity of a volume, held in J/(mm³·K).

use crate::quantity::{Kind, KindInfo, Quantity, Unit};

/// Heat capacity of a volume, held in J/(mm³·K).
pub type VolumetricHeat = Quantity<VolumetricHeatKind>;

/// The kind of [`VolumetricHeat`].
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum VolumetricHeatKind {}

impl Kind for VolumetricHeatKind {
    const INFO: &'static KindInfo = &KindInfo {
        name: "volumetric heat capacity",
        units: &[
            Unit::new("J/(mm3·K)", &["J/(mm3.K)", "J/(mm³·K)"], (1.0, 1.0), None),
            Unit::new("MJ/(m3·K)", &["MJ/(m3.K)", "MJ/(m³·K)"], (1.0, 1_000.0), None),
        ],
        metric: "J/(mm3·K)",
        us: "J/(mm3·K)",
        span: (0.000_1, 0.1),
        tolerance_floor: 0.0,
    };
}

impl VolumetricHeat {
    /// The value in J/(mm3·K).
    #[must_use]
    pub const fn j_per_mm3_k(self) -> f64 {
        self.canonical()
    }
}
