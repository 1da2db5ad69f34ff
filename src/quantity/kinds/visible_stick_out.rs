//! Distance from the nozzle to the work, held in mm; what a welder sees, not what the arc feels.

use crate::quantity::{Kind, KindInfo, Quantity, Unit, UnitSystem};

/// Distance from the nozzle to the work, held in mm; what a welder sees, not what the arc feels.
pub type VisibleStickOut = Quantity<VisibleStickOutKind>;

/// The kind of [`VisibleStickOut`].
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum VisibleStickOutKind {}

impl Kind for VisibleStickOutKind {
    const INFO: &'static KindInfo = &KindInfo {
        name: "visible stick-out",
        units: &[
            Unit::new("mm", &[], (1.0, 1.0), Some(UnitSystem::Metric)),
            Unit::new("cm", &[], (10.0, 1.0), Some(UnitSystem::Metric)),
            Unit::new("m", &[], (1_000.0, 1.0), Some(UnitSystem::Metric)),
            Unit::new("in", &["[in_i]", "inch"], (25.4, 1.0), Some(UnitSystem::Us)),
            Unit::new("ft", &["[ft_i]"], (304.8, 1.0), Some(UnitSystem::Us)),
        ],
        metric: "mm",
        us: "in",
        span: (0.0, 200.0),
        tolerance_floor: 1.0,
    };
}

impl VisibleStickOut {
    /// The value in mm.
    #[must_use]
    pub const fn mm(self) -> f64 {
        self.canonical()
    }
}
