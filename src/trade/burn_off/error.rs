//! Why burn-off cannot be stated.

use crate::quantity::{Amount, AmountRange, QuantityError};

/// Each variant says what was wrong and what would be right.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum BurnOffError {
    /// Not enough operating points.
    #[error("burn-off needs {needed} operating points here, {given} are given")]
    TooFewPoints {
        /// Points given.
        given: usize,
        /// Points needed.
        needed: usize,
    },
    /// A feed, current, stick-out or diameter that is not above zero.
    #[error("feed, current, stick-out and diameter of burn-off must be above zero")]
    NotPositive,
    /// The points do not tell arc heating from resistance heating.
    #[error(
        "the operating points do not tell arc heating from resistance heating (rank 1 of 2); give \
         points at other currents or stick-outs"
    )]
    OneDirection,
    /// The fit has a negative coefficient: the data do not carry the model.
    #[error(
        "the fit gives a negative coefficient (alpha {alpha:.4} mm/(s.A), beta {beta:.3e} \
         s-1.A-2): the operating points spread too little or scatter too much"
    )]
    Unphysical {
        /// Arc melting coefficient as fitted.
        alpha: f64,
        /// Resistance melting coefficient as fitted.
        beta: f64,
    },
    /// Asked beyond the operating points.
    #[error("{given} lies outside the operating points ({data}); nothing is extrapolated")]
    OutsideData {
        /// What was asked for.
        given: Amount,
        /// What the points cover.
        data: AmountRange,
    },
    /// The result is no number.
    #[error(transparent)]
    Quantity(#[from] QuantityError),
}
