//! What current usually goes with a wire feed where nothing is printed for the wire; for the check and for windows
//! alike.

use super::{Arcs, Case, Source};
use crate::{
    quantity::{
        Current, CurrentKind, Diameter, ElectricalStickOut, ElectricalStickOutKind, Share, Span,
        WireFeed, WireFeedKind,
    },
    trade::{Polarity, designation::FillerKind, generic_burn_off, generic_current_band},
};

/// Diameters in mm between which the generic coefficients are held against printed settings.
const DIAMETERS: (f64, f64) = (0.8, 1.6);

/// The current of a solid steel wire by [`crate::trade::GENERIC_BURN_OFF`]: advice, never a reason to forbid.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct UsualCurrent {
    diameter: Diameter,
}

impl UsualCurrent {
    /// Where it is known from, and who advises of it.
    pub(crate) const SOURCE: Source<'static> =
        Source::Practice("generic burn-off of solid steel wire, from memory, within 50 %");

    /// Every current that is usual for one of these feeds and stick-outs; `None` where it is no number.
    pub(crate) fn between(
        self,
        feeds: Span<WireFeedKind>,
        stick_outs: Span<ElectricalStickOutKind>,
    ) -> Option<Span<CurrentKind>> {
        // More feed draws more current, a longer stick-out less.
        let low = self.at(feeds.low(), stick_outs.high())?.low();
        let high = self.at(feeds.high(), stick_outs.low())?.high();
        Span::new(low, high).ok()
    }

    /// What is usual at one feed and stick-out.
    pub(crate) fn at(
        self,
        feed: WireFeed,
        stick_out: ElectricalStickOut,
    ) -> Option<Span<CurrentKind>> {
        generic_current_band(self.diameter, feed, stick_out).ok().map(|known| known.band)
    }

    /// Share of the melting that the wire's own resistance does: by how much less than the feed the current grows.
    pub(crate) fn resistive_share(
        self,
        current: Current,
        stick_out: ElectricalStickOut,
    ) -> Option<Share> {
        generic_burn_off(self.diameter).ok()?.resistive_share(current, stick_out).ok()
    }
}

impl Case<'_> {
    /// What current usually goes with the feed; `None` where points are printed for the wire, and for every wire and
    /// way to burn it that the coefficients are not made for.
    pub(crate) fn usual_current(&self) -> Option<UsualCurrent> {
        let filler = &self.setup.filler;
        let is_made_for = self.procedure.process.is_constant_voltage_wire()
            && self.readings.arcs == Arcs::One
            && filler.polarity == Some(Polarity::Dcep)
            && self
                .consumable
                .is_some_and(|wire| wire.kind == FillerKind::SolidWire && wire.is_plain_steel());
        let diameter = filler.diameter.filter(|_| is_made_for && !self.prints_currents())?;
        (DIAMETERS.0..=DIAMETERS.1).contains(&diameter.mm()).then_some(UsualCurrent { diameter })
    }
}
