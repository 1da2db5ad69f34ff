//! Why a method has no preheat to state.

use crate::{
    quantity::QuantityError,
    trade::{Coded, ElementLimit, OutOfRange, OutsideScope},
};

/// Each variant says what was wrong and what would be right.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum PreheatError {
    /// The metal is outside the method's scope.
    #[error(transparent)]
    Metal(#[from] OutsideScope),
    /// An input is outside the method's validity.
    #[error(transparent)]
    OutOfRange(#[from] Box<OutOfRange>),
    /// Elements are outside the method's validity.
    #[error("the composition is outside the validity of the method: {}", listed(.0))]
    Composition(Vec<ElementLimit>),
    /// The printed table does not decide this case, and no reading entered covers it.
    #[error(
        "the printed table does not decide this case; read the chart of the standard and enter the \
         reading"
    )]
    ChartRequired,
    /// Pcm or the index is above the groups of the hydrogen-control method.
    #[error("the hydrogen-control method ends below Pcm 0.38 % and at an index of 7.0")]
    NoGroup,
    /// No category was given.
    #[error("no category of base metal is given")]
    NoCategory,
    /// A joint needs at least one plate strip.
    #[error("no plate is described near the weld")]
    NoPlate,
    /// The result is no number.
    #[error(transparent)]
    Quantity(#[from] QuantityError),
}

fn listed(limits: &[ElementLimit]) -> String {
    let each = limits.iter().map(|limit| {
        format!("{} {} (valid {})", limit.element.code(), limit.given, limit.valid.amounts())
    });
    each.collect::<Vec<_>>().join(", ")
}
