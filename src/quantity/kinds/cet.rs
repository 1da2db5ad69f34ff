//! Carbon equivalent CET, held in percent.

use crate::quantity::{Kind, KindInfo, Quantity, Unit};

/// Carbon equivalent CET, held in percent.
pub type Cet = Quantity<CetKind>;

/// The kind of [`Cet`].
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum CetKind {}

impl Kind for CetKind {
    const INFO: &'static KindInfo = &KindInfo {
        name: "carbon equivalent CET",
        units: &[Unit::new("%", &[], (1.0, 1.0), None)],
        metric: "%",
        us: "%",
        span: (0.0, 5.0),
        tolerance_floor: 0.0,
    };
}

impl Cet {
    /// The value in %.
    #[must_use]
    pub const fn percent(self) -> f64 {
        self.canonical()
    }
}
