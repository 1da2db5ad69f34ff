//! A time span, held in seconds.

use crate::quantity::{Kind, KindInfo, Quantity, Unit};

/// A time span, held in seconds.
pub type Duration = Quantity<DurationKind>;

/// The kind of [`Duration`].
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum DurationKind {}

impl Kind for DurationKind {
    const INFO: &'static KindInfo = &KindInfo {
        name: "duration",
        units: &[
            Unit::new("s", &[], (1.0, 1.0), None),
            Unit::new("min", &[], (60.0, 1.0), None),
            Unit::new("h", &[], (3_600.0, 1.0), None),
        ],
        metric: "s",
        us: "s",
        span: (0.01, 1.0e8),
        tolerance_floor: 0.0,
    };
}

impl Duration {
    /// No time at all.
    pub const ZERO: Self = Self { canonical: 0.0, entered: None, kind: std::marker::PhantomData };

    /// The value in s.
    #[must_use]
    pub const fn seconds(self) -> f64 {
        self.canonical()
    }
}
