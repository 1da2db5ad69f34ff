//! What printed operating points say goes with a wire feed; for the check and for windows alike.

use super::{
    Case,
    record::{Condition, Curve},
};
use crate::trade::Practice;

/// How far the current may lie from the printed curve (common practice, no source).
const CURRENT_BAND: f64 = 0.15;

/// How far the volts may lie from the printed curve (common practice, no source).
const VOLTAGE_BAND: f64 = 0.10;

/// A printed quantity over the wire feed, and the share by which a setup may lie beyond it. All in canonical units.
#[derive(Debug, Clone, Copy)]
pub(crate) struct PrintedFit<'a> {
    pub(crate) curve: &'a Curve,
    pub(crate) share: f64,
}

impl<'a> PrintedFit<'a> {
    pub(crate) const fn of_current(condition: &'a Condition) -> Self {
        Self { curve: condition.points.currents(), share: CURRENT_BAND }
    }

    pub(crate) const fn of_volts(condition: &'a Condition) -> Self {
        Self { curve: condition.points.voltages(), share: VOLTAGE_BAND }
    }

    /// Lowest and highest value that goes with feeds between two; `None` where the points do not reach them.
    pub(super) fn band(&self, low: f64, high: f64) -> Option<(f64, f64)> {
        let (least, most) = self.curve.between(low, high)?;
        Some((least * (1.0 - self.share), most * (1.0 + self.share)))
    }
}

impl<'a> Case<'a> {
    /// The printed condition by which current and volts go with the feed.
    ///
    /// # Errors
    /// Why there is none, in words.
    pub(crate) fn printed_for_feeds(&self) -> Result<&'a Condition, &'static str> {
        if !self.procedure.process.is_constant_voltage_wire() {
            return Err(
                "Only on a constant-voltage wire process does the current follow from the feed.",
            );
        }
        self.data.map(|(_, condition)| condition).ok_or("No printed data matches the setup.")
    }

    /// Whether points printed for this very wire say what current goes with the feed.
    pub(super) fn prints_currents(&self) -> bool {
        let has_some = |condition: &Condition| !condition.points.currents().points().is_empty();
        self.printed_for_feeds().is_ok_and(has_some)
    }

    /// Practice that applies. What the trade does in general says nothing on current and volts where points printed for
    /// this very wire say what goes with the feed.
    #[must_use]
    pub fn practice(&self) -> Practice {
        if self.prints_currents() { self.usual.but_output() } else { self.usual }
    }
}
