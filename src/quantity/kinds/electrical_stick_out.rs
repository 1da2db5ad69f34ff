//! Distance from the contact tip to the work, recess of the tip counted, held in mm.

use crate::quantity::{Kind, KindInfo, Quantity, Unit, UnitSystem};

/// Distance from the contact tip to the work, recess of the tip counted, held in mm.
pub type ElectricalStickOut = Quantity<ElectricalStickOutKind>;

/// The kind of [`ElectricalStickOut`].
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ElectricalStickOutKind {}

impl Kind for ElectricalStickOutKind {
    const INFO: &'static KindInfo = &KindInfo {
        name: "electrical stick-out",
        units: &[
            Unit::new("mm", &[], (1.0, 1.0), Some(UnitSystem::Metric)),
            Unit::new("cm", &[], (10.0, 1.0), Some(UnitSystem::Metric)),
            Unit::new("m", &[], (1_000.0, 1.0), Some(UnitSystem::Metric)),
            Unit::new("in", &["[in_i]", "inch"], (25.4, 1.0), Some(UnitSystem::Us)),
            Unit::new("ft", &["[ft_i]"], (304.8, 1.0), Some(UnitSystem::Us)),
        ],
        metric: "mm",
        us: "in",
        span: (1.0, 200.0),
        tolerance_floor: 0.0,
    };
}

impl ElectricalStickOut {
    /// The value in mm.
    #[must_use]
    pub const fn mm(self) -> f64 {
        self.canonical()
    }
}
