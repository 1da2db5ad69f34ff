//! Width swept by the arc across the joint, held in mm; zero for a stringer.

use crate::quantity::{Kind, KindInfo, Quantity, Unit, UnitSystem};

/// Width swept by the arc across the joint, held in mm; zero for a stringer.
pub type WeaveWidth = Quantity<WeaveWidthKind>;

/// The kind of [`WeaveWidth`].
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum WeaveWidthKind {}

impl Kind for WeaveWidthKind {
    const INFO: &'static KindInfo = &KindInfo {
        name: "weave width",
        units: &[
            Unit::new("mm", &[], (1.0, 1.0), Some(UnitSystem::Metric)),
            Unit::new("cm", &[], (10.0, 1.0), Some(UnitSystem::Metric)),
            Unit::new("m", &[], (1_000.0, 1.0), Some(UnitSystem::Metric)),
            Unit::new("in", &["[in_i]", "inch"], (25.4, 1.0), Some(UnitSystem::Us)),
            Unit::new("ft", &["[ft_i]"], (304.8, 1.0), Some(UnitSystem::Us)),
        ],
        metric: "mm",
        us: "in",
        span: (0.0, 150.0),
        tolerance_floor: 1.0,
    };
}

impl WeaveWidth {
    /// The value in mm.
    #[must_use]
    pub const fn mm(self) -> f64 {
        self.canonical()
    }
}
