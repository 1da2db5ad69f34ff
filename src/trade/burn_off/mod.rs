//! Burn-off: which current follows from a wire feed speed and a stick-out.
//!
//! On constant-voltage wire processes feed and volts are set and the current follows. The model is
//! fitted to a consumable's own operating points, never extrapolated beyond them, and answers with
//! a band. The generic coefficients are from memory: a screen, never a reason to forbid.
//!
//! `w = alpha I + beta L I²`: the arc melts the tip, the current heats the stick-out. Longer stick-out at the same feed
//! means less current and less penetration. Two points give coefficients but no spread; three make a band; what the
//! points cannot tell apart uses a stated default with a wide one.

mod agreement;
mod equation;
mod error;
mod fit;
mod generic;
mod least_squares;
mod predict;

pub use equation::{BURN_OFF, BurnOff, CURRENT_FOR_FEED, SPECIFIC_MELT_RATE, specific_melt_rate};
pub use error::BurnOffError;
pub use fit::{BURN_OFF_FIT, BurnOffFit, BurnOffForm, BurnOffPoint, BurnOffSpan, StickOutEffect};
pub use generic::{GENERIC_BURN_OFF, generic_burn_off, generic_current_band};
pub use predict::{BurnOffBasis, CurrentBand, DEFAULT_STICK_OUT_EFFECT};
