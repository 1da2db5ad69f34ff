//! The burn-off equation and its inverse.

use super::BurnOffError;
use crate::{
    quantity::{
        ArcMelting, Current, ElectricalStickOut, LinearMass, QuantityError, ResistanceMelting,
        Share, SpecificMeltRate, WireFeed,
    },
    trade::formula,
};

formula! {
    /// Wire feed speed that an arc burns off.
    pub const BURN_OFF {
        name: "burn-off",
        equation: "w = alpha I + beta L I^2; w in mm/s, I in A, L in mm",
        source: "Lesnewich 1958, Halmoy 1979, Waszink and van den Heuvel 1982 (attributions from \
                 memory)",
        validity: "steady wire arc of one consumable, gas and polarity; L is tip to arc: taken as tip \
                   to work it counts the arc length in, which a fit absorbs; for a pulsed arc I and \
                   I^2 are two different means",
        confidence: Memory,
    }
}

formula! {
    /// Current that follows from a wire feed speed.
    pub const CURRENT_FOR_FEED {
        name: "current-for-feed",
        equation: "I = (sqrt(alpha^2 + 4 beta L w) - alpha) / (2 beta L) = 2 w / (alpha + \
                   sqrt(alpha^2 + 4 beta L w))",
        source: "burn-off, solved for I (positive root)",
        validity: "as for burn-off",
        confidence: Derived,
    }
}

formula! {
    /// Metal melted per hour and ampere.
    pub const SPECIFIC_MELT_RATE {
        name: "specific-melt-rate",
        equation: "alpha_m = 60 m' w / I; m' in g/m, w in m/min, I in A, alpha_m in g/(A h)",
        source: "definition of the coefficient of melting",
        validity: "all wire that is fed",
        confidence: Derived,
    }
}

/// mm/s per m/min.
const MM_PER_S: f64 = 1_000.0 / 60.0;

/// Both coefficients of the burn-off equation.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BurnOff {
    /// Heat of the arc, alpha.
    pub arc: ArcMelting,
    /// Heat of the wire's own resistance, beta.
    pub resistance: ResistanceMelting,
}

/// A feed in mm/s.
pub(super) fn mm_per_s(feed: WireFeed) -> f64 {
    feed.m_per_min() * MM_PER_S
}

impl BurnOff {
    /// Feed that this current burns off, [`BURN_OFF`].
    ///
    /// # Errors
    /// [`QuantityError::NotFinite`] on overflow.
    pub fn feed(
        &self,
        current: Current,
        stick_out: ElectricalStickOut,
    ) -> Result<WireFeed, QuantityError> {
        let amperes = current.amperes();
        let arc = self.arc.mm_per_s_a() * amperes;
        let resistance = self.resistance.per_s_a2() * stick_out.mm() * amperes * amperes;
        WireFeed::computed((arc + resistance) / MM_PER_S)
    }

    /// Current that burns off this feed, [`CURRENT_FOR_FEED`].
    ///
    /// # Errors
    /// [`BurnOffError::NotPositive`] for a feed or stick-out below zero, [`BurnOffError::Quantity`]
    /// where both coefficients are zero.
    pub fn current(
        &self,
        feed: WireFeed,
        stick_out: ElectricalStickOut,
    ) -> Result<Current, BurnOffError> {
        let (w, length) = (mm_per_s(feed), stick_out.mm());
        if w < 0.0 || length < 0.0 {
            return Err(BurnOffError::NotPositive);
        }
        let (alpha, beta) = (self.arc.mm_per_s_a(), self.resistance.per_s_a2());
        // This form of the root does not cancel where beta is small.
        let root = (alpha * alpha + 4.0 * beta * length * w).sqrt();
        Ok(Current::computed(2.0 * w / (alpha + root))?)
    }

    /// Share of the melting that the wire's own resistance does.
    ///
    /// # Errors
    /// [`QuantityError::NotFinite`] for no current.
    pub fn resistive_share(
        &self,
        current: Current,
        stick_out: ElectricalStickOut,
    ) -> Result<Share, QuantityError> {
        let resistance = self.resistance.per_s_a2() * stick_out.mm() * current.amperes();
        Share::computed(resistance / (self.arc.mm_per_s_a() + resistance))
    }
}

/// Metal melted per hour and ampere, [`SPECIFIC_MELT_RATE`].
///
/// # Errors
/// [`QuantityError::NotFinite`] for no current.
pub fn specific_melt_rate(
    wire: LinearMass,
    feed: WireFeed,
    current: Current,
) -> Result<SpecificMeltRate, QuantityError> {
    SpecificMeltRate::computed(60.0 * wire.g_per_m() * feed.m_per_min() / current.amperes())
}
