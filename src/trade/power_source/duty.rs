//! Duty cycle: arc time in a ten-minute period, and the law of constant heating.

use super::PowerSourceError;
use crate::{
    quantity::{Current, Duration, Share},
    trade::{
        formula,
        scope::{positive, within},
    },
};

formula! {
    /// Arc time that a duty cycle allows.
    pub const ARC_ON_TIME {
        name: "arc-on-time",
        equation: "t = X * 10 min",
        source: "AWS online glossary, duty cycle: 300 A at 60 % is 6 min in any 10",
        validity: "any ten minutes, not a mean over a shift",
        confidence: TextRead,
    }
}

formula! {
    /// Law of constant heating.
    pub const CONSTANT_HEATING {
        name: "constant-heating",
        equation: "X2 = X1*(I1/I2)^2, at most 100 %; I2 = I1*sqrt(X1/X2)",
        source: "textbook law, from memory; one worked value printed in a power-source manual",
        validity: "an estimate where the plate has no point: inverters, torches and cooling break it; a \
                   current above the plate's highest is not permitted by it",
        confidence: Memory,
    }
}

/// Period of a duty cycle in seconds.
pub(super) const PERIOD: f64 = 600.0;

/// A rated current and its duty cycle.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DutyPoint {
    /// Current.
    pub current: Current,
    /// Duty cycle of a ten-minute period.
    pub duty: Share,
}

impl DutyPoint {
    pub(super) fn check(&self) -> Result<(), PowerSourceError> {
        positive(self.current)?;
        check_duty(self.duty)
    }
}

pub(super) fn check_duty(duty: Share) -> Result<(), PowerSourceError> {
    positive(duty)?;
    Ok(within(duty, 0.0, 1.0)?)
}

/// Arc time in any ten minutes, [`ARC_ON_TIME`].
///
/// # Errors
/// [`PowerSourceError::OutOfRange`] for a duty cycle not above zero, or above 100 %.
pub fn arc_on_time(duty: Share) -> Result<Duration, PowerSourceError> {
    check_duty(duty)?;
    Ok(Duration::computed(duty.ratio() * PERIOD)?)
}

/// Duty cycle at another current by [`CONSTANT_HEATING`], at most 100 %.
///
/// # Errors
/// [`PowerSourceError::OutOfRange`] for values not above zero, or a duty cycle above 100 %.
pub fn duty_by_constant_heating(
    rated: &DutyPoint,
    current: Current,
) -> Result<Share, PowerSourceError> {
    rated.check()?;
    positive(current)?;
    let ratio = rated.current.amperes() / current.amperes();
    Ok(Share::computed((rated.duty.ratio() * ratio * ratio).min(1.0))?)
}

/// Current at another duty cycle by [`CONSTANT_HEATING`].
///
/// # Errors
/// As [`duty_by_constant_heating`].
pub fn current_by_constant_heating(
    rated: &DutyPoint,
    duty: Share,
) -> Result<Current, PowerSourceError> {
    rated.check()?;
    check_duty(duty)?;
    let ratio = rated.duty.ratio() / duty.ratio();
    Ok(Current::computed(rated.current.amperes() * ratio.sqrt())?)
}
