//! Currents of mixed use as one current with the same heating.

use super::{PowerSourceError, duty::PERIOD};
use crate::{
    quantity::{Current, Duration},
    trade::{formula, scope::positive},
};

formula! {
    /// Current with the same heating as mixed use.
    pub const EQUIVALENT_CURRENT {
        name: "equivalent-current",
        equation: "I_eq = sqrt(sum of I^2*t / 10 min); to be at most the current rated at 100 %",
        source: "law of constant heating, from memory",
        validity: "uses within one period of ten minutes; as constant-heating",
        confidence: Memory,
    }
}

/// One current and how long it flows within the period.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CurrentUse {
    /// Current.
    pub current: Current,
    /// Arc time.
    pub time: Duration,
}

/// Current that heats like the uses of a ten-minute period, [`EQUIVALENT_CURRENT`].
///
/// # Errors
/// [`PowerSourceError::LongerThanPeriod`] for more than ten minutes in all,
/// [`PowerSourceError::OutOfRange`] for a current or time not above zero,
/// [`PowerSourceError::NoPoint`] for no use at all.
pub fn equivalent_current(uses: &[CurrentUse]) -> Result<Current, PowerSourceError> {
    if uses.is_empty() {
        return Err(PowerSourceError::NoPoint);
    }
    let (mut heating, mut time) = (0.0, 0.0);
    for CurrentUse { current, time: seconds } in uses {
        positive(*current)?;
        positive(*seconds)?;
        heating += current.amperes() * current.amperes() * seconds.seconds();
        time += seconds.seconds();
    }
    let given = Duration::computed(time)?;
    if !given.at_most(Duration::computed(PERIOD)?) {
        return Err(PowerSourceError::LongerThanPeriod { given });
    }
    Ok(Current::computed((heating / PERIOD).sqrt())?)
}
