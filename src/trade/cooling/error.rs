//! Why a cooling time or rate cannot be stated.

use crate::{
    quantity::{QuantityError, Temperature, Thickness},
    trade::{OutOfRange, OutsideScope},
};

/// Each variant says what was wrong and what would be right.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum CoolingError {
    /// The metal is outside the formula's scope.
    #[error(transparent)]
    Metal(#[from] OutsideScope),
    /// An input is outside the formula's validity.
    #[error(transparent)]
    OutOfRange(#[from] Box<OutOfRange>),
    /// Temperatures are not in the order the formula needs.
    #[error("{high} has to lie above {low}")]
    Order {
        /// What should be lower.
        low: Temperature,
        /// What should be higher.
        high: Temperature,
    },
    /// A formula for heat flow in the plane of a plate only, and a plate that is too thick for it.
    #[error(
        "the formula is for a thin plate; {thickness} is not below the transition thickness of {transition}, from \
         which heat flows into the depth too"
    )]
    ThickPlate {
        /// Thickness of the plate.
        thickness: Thickness,
        /// Transition thickness at this heat input and temperature.
        transition: Thickness,
    },
    /// The result is no number.
    #[error(transparent)]
    Quantity(#[from] QuantityError),
}
