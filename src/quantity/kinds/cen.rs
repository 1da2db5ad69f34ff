//! Carbon equivalent CEN, held in percent.

use crate::quantity::{Kind, KindInfo, Quantity, Unit};

/// Carbon equivalent CEN, held in percent.
pub type Cen = Quantity<CenKind>;

/// The kind of [`Cen`].
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum CenKind {}

impl Kind for CenKind {
    const INFO: &'static KindInfo = &KindInfo {
        name: "carbon equivalent CEN",
        units: &[Unit::new("%", &[], (1.0, 1.0), None)],
        metric: "%",
        us: "%",
        span: (0.0, 5.0),
        tolerance_floor: 0.0,
    };
}

impl Cen {
    /// The value in %.
    #[must_use]
    pub const fn percent(self) -> f64 {
        self.canonical()
    }
}
