//! Why an estimate or comparison cannot be made.

use time::Date;

use super::Currency;
use crate::quantity::QuantityError;

/// Each variant says what was wrong and what would be right.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum EstimateError {
    /// No ISO 4217 code.
    #[error("\"{given}\" is no currency; give the three letters of ISO 4217, for example EUR")]
    UnknownCurrency {
        /// What was given.
        given: String,
    },
    /// Amounts of two currencies.
    #[error("{one} and {other} cannot be added; give all prices in one currency")]
    TwoCurrencies {
        /// One currency.
        one: Currency,
        /// The other.
        other: Currency,
    },
    /// A price below zero or for no amount.
    #[error("a price is zero or more, for an amount above zero")]
    NoPrice,
    /// A validity that ends before it begins.
    #[error("a price cannot end ({until}) before it begins ({from})")]
    ReversedValidity {
        /// First day.
        from: Date,
        /// Last day.
        until: Date,
    },
    /// Too many options.
    #[error("at most {most} options are compared, {given} are given")]
    TooManyOptions {
        /// Options given.
        given: usize,
        /// Most options.
        most: usize,
    },
    /// A sum of money too large to hold.
    #[error("this sum of money is too large to hold")]
    TooMuch,
    /// A length, cross-section or rate that makes no joint.
    #[error("the {what} of an estimate must be above zero")]
    NotPositive {
        /// What was given.
        what: &'static str,
    },
    /// A share that makes no sense here.
    #[error("the {what} of an estimate lies above 0 and at most at 1")]
    NotAShare {
        /// What was given.
        what: &'static str,
    },
    /// The result is no number.
    #[error(transparent)]
    Quantity(#[from] QuantityError),
}
