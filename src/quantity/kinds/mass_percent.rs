//! Share of an element in a metal by mass, held in percent.

use crate::quantity::{Kind, KindInfo, Quantity, Unit};

/// Share of an element in a metal by mass, held in percent.
pub type MassPercent = Quantity<MassPercentKind>;

/// The kind of [`MassPercent`].
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum MassPercentKind {}

impl Kind for MassPercentKind {
    const INFO: &'static KindInfo = &KindInfo {
        name: "mass percentage",
        units: &[
            Unit::new("%", &[], (1.0, 1.0), None),
            Unit::new("ppm", &["[ppm]"], (1.0, 10_000.0), None),
        ],
        metric: "%",
        us: "%",
        span: (0.0, 100.0),
        tolerance_floor: 0.0,
    };
}

impl MassPercent {
    /// The value in %.
    #[must_use]
    pub const fn percent(self) -> f64 {
        self.canonical()
    }
}
