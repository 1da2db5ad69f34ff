//! Generic coefficients: a screen where a consumable has no data of its own.

use super::{BurnOff, BurnOffBasis, BurnOffError, CurrentBand, StickOutEffect};
use crate::{
    quantity::{ArcMelting, Diameter, ElectricalStickOut, ResistanceMelting, WireFeed},
    trade::{corners::span_of, formula},
};

formula! {
    /// Generic coefficients of solid steel wire.
    pub const GENERIC_BURN_OFF {
        name: "generic-burn-off",
        equation: "alpha = 0.30 (1.2 / d)^2 mm/(s A), beta = 5.0e-5 (1.2 / d)^4 s-1.A-2; d in mm",
        source: "widely printed for 1.2 mm mild steel wire, electrode positive, argon-rich gas; from \
                 memory",
        validity: "a screen of about 50 percent: against Machinery's Handbook, 31st ed., p. 1583, \
                   Table 5 it burns off 1.00 to 1.47 times the printed feed; never a reason to forbid; \
                   not for tubular wire",
        confidence: Memory,
    }
}

/// alpha of a 1.2 mm wire in mm/(s·A).
const ALPHA: f64 = 0.30;
/// beta of a 1.2 mm wire in s⁻¹·A⁻².
const BETA: f64 = 5.0e-5;
/// The diameter both belong to, in mm.
const DIAMETER: f64 = 1.2;

/// The feed may be this many times higher or lower than the generic equation says.
const FACTOR: f64 = 1.5;

/// Generic coefficients for a diameter, [`GENERIC_BURN_OFF`].
///
/// # Errors
/// [`BurnOffError::NotPositive`] for a diameter that is not above zero, [`BurnOffError::Quantity`]
/// on overflow.
pub fn generic_burn_off(diameter: Diameter) -> Result<BurnOff, BurnOffError> {
    if diameter.mm() <= 0.0 {
        return Err(BurnOffError::NotPositive);
    }
    let ratio = DIAMETER / diameter.mm();
    Ok(BurnOff {
        arc: ArcMelting::computed(ALPHA * ratio.powi(2))?,
        resistance: ResistanceMelting::computed(BETA * ratio.powi(4))?,
    })
}

/// Band of the current by the generic coefficients, from memory: for display, never to forbid.
///
/// # Errors
/// [`BurnOffError::NotPositive`] for a diameter that is not above zero, a feed or stick-out below.
pub fn generic_current_band(
    diameter: Diameter,
    feed: WireFeed,
    stick_out: ElectricalStickOut,
) -> Result<CurrentBand, BurnOffError> {
    let generic = generic_burn_off(diameter)?;
    let at = |factor: f64| {
        let feed = WireFeed::computed(feed.m_per_min() * factor)?;
        generic.current(feed, stick_out)
    };
    Ok(CurrentBand {
        central: at(1.0)?,
        band: span_of(Ok(at(1.0 / FACTOR)?), Ok(at(FACTOR)?))?,
        basis: BurnOffBasis::Generic,
        stick_out_effect: StickOutEffect::Default,
    })
}
