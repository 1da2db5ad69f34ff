//! Why arc energy or heat input cannot be stated.

use crate::quantity::{QuantityError, Share};

/// Each variant says what was wrong and what would be right.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum HeatError {
    /// Average volts and amps of a waveform-controlled output are no arc power.
    #[error(
        "volts times amps is no arc power where the output is waveform-controlled; use method B \
         (measured energy over run length) or method C (measured power over travel speed)"
    )]
    WaveformControlled,
    /// The thermal efficiency factor is not above zero and at most one.
    #[error("a thermal efficiency factor lies above 0 and at most at 1, not at {}", given.ratio())]
    Efficiency {
        /// The factor given.
        given: Share,
    },
    /// The result is no number.
    #[error(transparent)]
    Quantity(#[from] QuantityError),
}
