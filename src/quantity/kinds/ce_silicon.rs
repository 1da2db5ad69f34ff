//! Carbon equivalent CE with silicon counted like manganese, held in percent.

use crate::quantity::{Kind, KindInfo, Quantity, Unit};

/// Carbon equivalent CE with silicon counted like manganese, held in percent.
pub type CeSilicon = Quantity<CeSiliconKind>;

/// The kind of [`CeSilicon`].
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum CeSiliconKind {}

impl Kind for CeSiliconKind {
    const INFO: &'static KindInfo = &KindInfo {
        name: "carbon equivalent CE with silicon",
        units: &[Unit::new("%", &[], (1.0, 1.0), None)],
        metric: "%",
        us: "%",
        span: (0.0, 5.0),
        tolerance_floor: 0.0,
    };
}

impl CeSilicon {
    /// The value in %.
    #[must_use]
    pub const fn percent(self) -> f64 {
        self.canonical()
    }
}
