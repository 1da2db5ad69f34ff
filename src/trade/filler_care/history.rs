//! What happened to a portion of a batch, and what can happen next.

use time::OffsetDateTime;

use crate::quantity::{Share, Temperature};

/// What was done with a portion: a packet, a quiver, whatever lies together.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum CareAction {
    /// The packet was opened and lies in the air.
    Opened {
        /// Relative humidity of that air.
        humidity: Option<Share>,
    },
    /// It was baked; what follows the bake is air until it lies in a holding oven.
    Baked {
        /// End of the time at temperature.
        until: OffsetDateTime,
        /// Temperature of the oven.
        temperature: Temperature,
    },
    /// It was put into a holding oven, for the first time or again.
    IntoOven {
        /// Temperature of the oven.
        temperature: Temperature,
    },
    /// It was taken out of the holding oven to where it is welded with.
    OutOfOven {
        /// Relative humidity of the air there.
        humidity: Option<Share>,
    },
    /// It was thrown away.
    Scrapped,
}

/// One thing that was done, and when it began.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CareStep {
    /// When.
    pub at: OffsetDateTime,
    /// What.
    pub action: CareAction,
}

impl CareStep {
    /// When it was over: the end of a bake, else at once.
    #[must_use]
    pub const fn end(&self) -> OffsetDateTime {
        match self.action {
            CareAction::Baked { until, .. } => until,
            _ => self.at,
        }
    }
}

/// Why something cannot have happened next.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum CareOrderError {
    /// Before what was noted last was over.
    #[error("what was noted last was over later; steps are noted in the order they happen")]
    TooEarly,
    /// A bake that ends before it begins.
    #[error("a bake ends after it begins")]
    NoTime,
    /// The packet is open already.
    #[error("the portion was opened already")]
    OpenAlready,
    /// It cannot come out of an oven it is not in.
    #[error("the portion is in no holding oven; out-of-oven comes after into-oven")]
    NotInOven,
    /// It is in the oven already.
    #[error("the portion is in the holding oven already")]
    InOvenAlready,
    /// It is gone.
    #[error("the portion was scrapped")]
    Scrapped,
}

/// Whether a step can follow those that are noted, which stand in the order they happened.
///
/// # Errors
/// [`CareOrderError`] says what speaks against it.
pub fn may_follow(earlier: &[CareStep], next: &CareStep) -> Result<(), CareOrderError> {
    use CareAction::{Baked, IntoOven, Opened, OutOfOven, Scrapped};
    let last = earlier.last();
    if last.is_some_and(|last| next.at < last.end()) {
        return Err(CareOrderError::TooEarly);
    }
    let last = last.map(|last| last.action);
    match (last, next.action) {
        (Some(Scrapped), _) => Err(CareOrderError::Scrapped),
        (_, Baked { until, .. }) if until <= next.at => Err(CareOrderError::NoTime),
        (Some(_), Opened { .. }) => Err(CareOrderError::OpenAlready),
        (Some(IntoOven { .. }), IntoOven { .. }) => Err(CareOrderError::InOvenAlready),
        (Some(IntoOven { .. }), OutOfOven { .. }) => Ok(()),
        (_, OutOfOven { .. }) => Err(CareOrderError::NotInOven),
        _ => Ok(()),
    }
}
