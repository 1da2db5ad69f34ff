//! Length of a run or of a joint, held in mm.

use crate::quantity::{Kind, KindInfo, Quantity, Unit, UnitSystem};

/// Length of a run or of a joint, held in mm.
pub type RunLength = Quantity<RunLengthKind>;

/// The kind of [`RunLength`].
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum RunLengthKind {}

impl Kind for RunLengthKind {
    const INFO: &'static KindInfo = &KindInfo {
        name: "length",
        units: &[
            Unit::new("mm", &[], (1.0, 1.0), Some(UnitSystem::Metric)),
            Unit::new("cm", &[], (10.0, 1.0), Some(UnitSystem::Metric)),
            Unit::new("m", &[], (1_000.0, 1.0), Some(UnitSystem::Metric)),
            Unit::new("in", &["[in_i]", "inch"], (25.4, 1.0), Some(UnitSystem::Us)),
            Unit::new("ft", &["[ft_i]"], (304.8, 1.0), Some(UnitSystem::Us)),
        ],
        metric: "mm",
        us: "in",
        span: (1.0, 10_000_000.0),
        tolerance_floor: 0.0,
    };
}

impl RunLength {
    /// The value in mm.
    #[must_use]
    pub const fn mm(self) -> f64 {
        self.canonical()
    }
}
