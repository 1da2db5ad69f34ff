//! A share of a whole: efficiency, duty cycle, operating factor, reading error; held as a ratio.

use crate::quantity::{Kind, KindInfo, Quantity, Unit, at_least};

/// A share of a whole: efficiency, duty cycle, operating factor, reading error; held as a ratio.
pub type Share = Quantity<ShareKind>;

/// The kind of [`Share`].
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ShareKind {}

impl Kind for ShareKind {
    const INFO: &'static KindInfo = &KindInfo {
        name: "share",
        units: &[Unit::new("1", &[], (1.0, 1.0), None), Unit::new("%", &[], (1.0, 100.0), None)],
        metric: "%",
        us: "%",
        span: (0.0, 2.0),
        tolerance_floor: 0.0,
    };
}

impl Share {
    /// The value in parts of one.
    #[must_use]
    pub const fn ratio(self) -> f64 {
        self.canonical()
    }

    /// Whether it is a part of the whole: more than nothing, and at most all of it. An efficiency, an operating factor
    /// and a duty cycle are; a flux-to-wire ratio need not be.
    #[must_use]
    pub fn is_part(self) -> bool {
        self.ratio() > 0.0 && at_least(1.0, self.ratio(), ShareKind::INFO.tolerance_floor)
    }
}
