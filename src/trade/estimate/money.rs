//! Money: an exact amount and its currency.

use std::fmt;

use rust_decimal::{Decimal, RoundingStrategy};

use super::EstimateError;

/// A currency by its ISO 4217 letters. Whether a currency of these letters exists is not checked.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Currency([u8; 3]);

/// An amount of money; sums of two currencies are refused.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Money {
    amount: Decimal,
    currency: Currency,
}

/// Digits after the point that a computed sum keeps; callers round further for display.
const DIGITS: u32 = 6;

impl Currency {
    /// Reads three letters.
    ///
    /// # Errors
    /// [`EstimateError::UnknownCurrency`] for anything else.
    pub fn parse(text: &str) -> Result<Self, EstimateError> {
        match text.trim().to_ascii_uppercase().as_bytes() {
            [a, b, c] if [a, b, c].iter().all(|letter| letter.is_ascii_uppercase()) => {
                Ok(Self([*a, *b, *c]))
            }
            _ => Err(EstimateError::UnknownCurrency { given: text.to_owned() }),
        }
    }
}

impl fmt::Display for Currency {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.iter().try_for_each(|letter| write!(f, "{}", char::from(*letter)))
    }
}

impl Money {
    /// An amount of a currency.
    #[must_use]
    pub const fn new(amount: Decimal, currency: Currency) -> Self {
        Self { amount, currency }
    }

    /// The amount.
    #[must_use]
    pub const fn amount(self) -> Decimal {
        self.amount
    }

    /// The currency.
    #[must_use]
    pub const fn currency(self) -> Currency {
        self.currency
    }

    /// The sum.
    ///
    /// # Errors
    /// [`EstimateError::TwoCurrencies`], [`EstimateError::TooMuch`].
    pub fn plus(self, other: Self) -> Result<Self, EstimateError> {
        if self.currency != other.currency {
            let (one, other) = (self.currency, other.currency);
            return Err(EstimateError::TwoCurrencies { one, other });
        }
        let amount = self.amount.checked_add(other.amount).ok_or(EstimateError::TooMuch)?;
        Ok(Self { amount, ..self })
    }

    /// The amount times a number, to six digits after the point.
    pub(super) fn times(self, factor: f64) -> Result<Self, EstimateError> {
        let factor = Decimal::from_f64_retain(factor).ok_or(EstimateError::TooMuch)?;
        let amount = self.amount.checked_mul(factor).ok_or(EstimateError::TooMuch)?;
        let strategy = RoundingStrategy::MidpointAwayFromZero;
        Ok(Self { amount: amount.round_dp_with_strategy(DIGITS, strategy).normalize(), ..self })
    }
}

impl fmt::Display for Money {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} {}", self.amount, self.currency)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn money(amount: &str, currency: &str) -> Money {
        Money::new(amount.parse().unwrap(), Currency::parse(currency).unwrap())
    }

    #[test]
    fn a_tenth_three_times_is_three_tenths() {
        let tenth = money("0.1", "EUR");
        let sum = tenth.plus(tenth).unwrap().plus(tenth).unwrap();
        assert_eq!(sum, money("0.3", "EUR"));
        assert_eq!(sum.to_string(), "0.3 EUR");
    }

    #[test]
    fn two_currencies_have_no_sum() {
        assert!(money("1", "EUR").plus(money("1", "USD")).is_err());
    }

    #[test]
    fn sums_beyond_holding_are_refused() {
        assert_eq!(money("1", "EUR").times(f64::INFINITY), Err(EstimateError::TooMuch));
        let most = Money::new(Decimal::MAX, Currency::parse("EUR").unwrap());
        assert_eq!(most.plus(most), Err(EstimateError::TooMuch));
    }

    #[test]
    fn a_currency_is_three_letters() {
        assert_eq!(Currency::parse(" eur ").unwrap().to_string(), "EUR");
        for text in ["", "EU", "EURO", "E1R", "€"] {
            assert!(Currency::parse(text).is_err(), "{text}");
        }
    }
}
