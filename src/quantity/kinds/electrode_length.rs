//! Length of a covered electrode that was melted off, held in mm.

use crate::quantity::{Kind, KindInfo, Quantity, Unit, UnitSystem};

/// Length of a covered electrode that was melted off, held in mm.
pub type ElectrodeLength = Quantity<ElectrodeLengthKind>;

/// The kind of [`ElectrodeLength`].
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ElectrodeLengthKind {}

impl Kind for ElectrodeLengthKind {
    const INFO: &'static KindInfo = &KindInfo {
        name: "length of electrode",
        units: &[
            Unit::new("mm", &[], (1.0, 1.0), Some(UnitSystem::Metric)),
            Unit::new("cm", &[], (10.0, 1.0), Some(UnitSystem::Metric)),
            Unit::new("m", &[], (1_000.0, 1.0), Some(UnitSystem::Metric)),
            Unit::new("in", &["[in_i]", "inch"], (25.4, 1.0), Some(UnitSystem::Us)),
            Unit::new("ft", &["[ft_i]"], (304.8, 1.0), Some(UnitSystem::Us)),
        ],
        metric: "mm",
        us: "in",
        span: (1.0, 2_000.0),
        tolerance_floor: 0.0,
    };
}

impl ElectrodeLength {
    /// The value in mm.
    #[must_use]
    pub const fn mm(self) -> f64 {
        self.canonical()
    }
}
