//! Why a power source's figure cannot be stated.

use crate::{
    quantity::{Current, Duration, QuantityError, Share, Voltage},
    trade::OutOfRange,
};

/// Each variant says what was wrong and what would be right.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum PowerSourceError {
    /// An input is not above zero, or a duty cycle is above 100 %.
    #[error(transparent)]
    OutOfRange(#[from] Box<OutOfRange>),
    /// No point of a rating plate, or no use of current.
    #[error("no point of a rating plate and no use of current is given")]
    NoPoint,
    /// More current at more duty: no plate has that.
    #[error("the rating plate allows more duty at {higher} than at {lower}; check its points")]
    Inconsistent {
        /// The lower current.
        lower: Current,
        /// The higher current.
        higher: Current,
    },
    /// More current than any point of the plate.
    #[error("{given} is above {highest}, the highest current on the rating plate")]
    AboveRating {
        /// The current asked for.
        given: Current,
        /// The highest current rated.
        highest: Current,
    },
    /// More duty than any point of the plate.
    #[error("no point of the rating plate reaches {given}; the highest duty on it is {highest}")]
    AboveDuty {
        /// The duty asked for.
        given: Share,
        /// The highest duty rated.
        highest: Share,
    },
    /// Uses longer than the period.
    #[error("the uses take {given} in all, more than the period of 10 min")]
    LongerThanPeriod {
        /// Their sum.
        given: Duration,
    },
    /// Two points of a characteristic do not fall.
    #[error(
        "a drooping characteristic needs two points, the one of higher voltage at lower current"
    )]
    NotDrooping,
    /// More voltage than the source has.
    #[error("{given} is above the open-circuit voltage of {open_circuit}")]
    AboveOpenCircuit {
        /// The voltage asked for.
        given: Voltage,
        /// Open-circuit voltage.
        open_circuit: Voltage,
    },
    /// The result is no number.
    #[error(transparent)]
    Quantity(#[from] QuantityError),
}
