//! Carbon equivalent Pcm (cracking parameter), held in percent.

use crate::quantity::{Kind, KindInfo, Quantity, Unit};

/// Carbon equivalent Pcm (cracking parameter), held in percent.
pub type Pcm = Quantity<PcmKind>;

/// The kind of [`Pcm`].
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PcmKind {}

impl Kind for PcmKind {
    const INFO: &'static KindInfo = &KindInfo {
        name: "carbon equivalent Pcm",
        units: &[Unit::new("%", &[], (1.0, 1.0), None)],
        metric: "%",
        us: "%",
        span: (0.0, 5.0),
        tolerance_floor: 0.0,
    };
}

impl Pcm {
    /// The value in %.
    #[must_use]
    pub const fn percent(self) -> f64 {
        self.canonical()
    }
}
