//! Carbon equivalent CE of the IIW, also written CEV, held in percent.

use crate::quantity::{Kind, KindInfo, Quantity, Unit};

/// Carbon equivalent CE of the IIW, also written CEV, held in percent.
pub type CeIiw = Quantity<CeIiwKind>;

/// The kind of [`CeIiw`].
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum CeIiwKind {}

impl Kind for CeIiwKind {
    const INFO: &'static KindInfo = &KindInfo {
        name: "carbon equivalent CE",
        units: &[Unit::new("%", &[], (1.0, 1.0), None)],
        metric: "%",
        us: "%",
        span: (0.0, 5.0),
        tolerance_floor: 0.0,
    };
}

impl CeIiw {
    /// The value in %.
    #[must_use]
    pub const fn percent(self) -> f64 {
        self.canonical()
    }
}
