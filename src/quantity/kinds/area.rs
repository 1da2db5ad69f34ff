//! Cross-section of a run or of a joint, held in mm².

use crate::quantity::{Kind, KindInfo, Quantity, Unit, UnitSystem};

/// Cross-section of a run or of a joint, held in mm².
pub type Area = Quantity<AreaKind>;

/// The kind of [`Area`].
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum AreaKind {}

impl Kind for AreaKind {
    const INFO: &'static KindInfo = &KindInfo {
        name: "cross-section",
        units: &[
            Unit::new("mm2", &["mm²"], (1.0, 1.0), Some(UnitSystem::Metric)),
            Unit::new("cm2", &["cm²"], (100.0, 1.0), Some(UnitSystem::Metric)),
            Unit::new("in2", &["[in_i]2", "in²"], (645.16, 1.0), Some(UnitSystem::Us)),
        ],
        metric: "mm2",
        us: "in2",
        span: (0.01, 1_000_000.0),
        tolerance_floor: 0.0,
    };
}

impl Area {
    /// The value in mm2.
    #[must_use]
    pub const fn mm2(self) -> f64 {
        self.canonical()
    }
}
