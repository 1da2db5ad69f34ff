//! Operating points printed for a condition.

use std::{ops::Deref, sync::OnceLock};

use super::Curve;
use crate::{
    check::Note,
    quantity::{Current, DepositionRate, Kind, Quantity, Share, Voltage, WireFeed},
    trade::PrintedRates,
};

/// One operating point of a data sheet.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OperatingPoint {
    /// Wire feed speed.
    pub wire_feed: Option<WireFeed>,
    /// Welding current.
    pub current: Current,
    /// Arc voltage.
    pub voltage: Voltage,
    /// Printed deposition rate; with its wire feed it goes before mass and efficiency of the wire.
    pub deposition_rate: Option<DepositionRate>,
    /// Printed deposition efficiency; goes before that of the wire.
    pub efficiency: Option<Share>,
}

/// The operating points of one condition, with what follows from them: made once, for checks ask for it again and
/// again.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct OperatingPoints {
    all: Vec<OperatingPoint>,
    rates: Option<PrintedRates>,
    currents: Curve,
    voltages: Curve,
    rates_said: Said,
}

impl OperatingPoints {
    /// These points, in their order.
    #[must_use]
    pub fn new(all: Vec<OperatingPoint>) -> Self {
        let rated = all.iter().filter_map(|point| point.wire_feed.zip(point.deposition_rate));
        Self {
            rates: PrintedRates::of(rated),
            currents: over_feed(&all, |point| point.current),
            voltages: over_feed(&all, |point| point.voltage),
            rates_said: Said::default(),
            all,
        }
    }

    /// Deposition rates, where some are printed at wire feeds.
    #[must_use]
    pub const fn rates(&self) -> Option<&PrintedRates> {
        self.rates.as_ref()
    }

    /// What is said where these rates are used, made by the first who needs it. It says the same each time.
    pub(in crate::check) fn rates_said(&self, make: impl Fn() -> String) -> Note {
        let known = self.rates_said.0.get_or_init(|| make().into());
        debug_assert_eq!(
            **known,
            *make(),
            "the condition or its edition was changed after a check"
        );
        known.clone()
    }

    /// Current over wire feed, in the canonical units.
    #[must_use]
    pub const fn currents(&self) -> &Curve {
        &self.currents
    }

    /// Voltage over wire feed, in the canonical units.
    #[must_use]
    pub const fn voltages(&self) -> &Curve {
        &self.voltages
    }

    /// The same points but for a change.
    #[cfg(test)]
    pub(crate) fn change(&mut self, change: impl FnOnce(&mut Vec<OperatingPoint>)) {
        change(&mut self.all);
        *self = Self::new(std::mem::take(&mut self.all));
    }
}

/// One printed quantity over the wire feed.
fn over_feed<K: Kind>(
    points: &[OperatingPoint],
    pick: fn(&OperatingPoint) -> Quantity<K>,
) -> Curve {
    let on_feed = points
        .iter()
        .filter_map(|point| Some((point.wire_feed?.canonical(), pick(point).canonical())));
    Curve::new(on_feed)
}

impl FromIterator<OperatingPoint> for OperatingPoints {
    fn from_iter<I: IntoIterator<Item = OperatingPoint>>(points: I) -> Self {
        Self::new(points.into_iter().collect())
    }
}

impl Deref for OperatingPoints {
    type Target = [OperatingPoint];

    fn deref(&self) -> &[OperatingPoint] {
        &self.all
    }
}

/// A sentence made when it is first wanted. A copy makes its own, since the record it is copied into may be changed.
#[derive(Debug, Default)]
struct Said(OnceLock<Note>);

impl Clone for Said {
    fn clone(&self) -> Self {
        Self::default()
    }
}

impl PartialEq for Said {
    fn eq(&self, _: &Self) -> bool {
        true
    }
}
