//! Prices: money for an amount, on given days.

use std::fmt;

use time::Date;

use super::{EstimateError, Money};
use crate::quantity::{Kind, Quantity};

/// First and last day of a price, both included.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct PriceValidity {
    from: Date,
    until: Option<Date>,
}

/// A price of one kind: per mass, volume, energy or time.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Price<K: Kind> {
    money: Money,
    per: Quantity<K>,
    validity: PriceValidity,
}

impl PriceValidity {
    /// From the first day to the last; without a last day until further notice.
    ///
    /// # Errors
    /// [`EstimateError::ReversedValidity`].
    pub fn new(from: Date, until: Option<Date>) -> Result<Self, EstimateError> {
        match until {
            Some(until) if until < from => Err(EstimateError::ReversedValidity { from, until }),
            _ => Ok(Self { from, until }),
        }
    }

    /// Whether a day is one of them.
    #[must_use]
    pub fn holds_on(self, day: Date) -> bool {
        self.from <= day && self.until.is_none_or(|until| day <= until)
    }
}

impl fmt::Display for PriceValidity {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.until {
            Some(until) => write!(f, "from {} to {until}", self.from),
            None => write!(f, "from {} on", self.from),
        }
    }
}

/// `2.90 EUR for 1 kg, from 2026-01-01 on`.
impl<K: Kind> fmt::Display for Price<K> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Self { money, per, validity } = self;
        write!(f, "{money} for {per}, {validity}")
    }
}

impl<K: Kind> Price<K> {
    /// Money for an amount: `2.90 EUR` for `1 kg`.
    ///
    /// # Errors
    /// [`EstimateError::NoPrice`] for money below zero or an amount that is not above zero.
    pub fn new(
        money: Money,
        per: Quantity<K>,
        validity: PriceValidity,
    ) -> Result<Self, EstimateError> {
        if money.amount().is_sign_negative() || per.canonical() <= 0.0 {
            return Err(EstimateError::NoPrice);
        }
        Ok(Self { money, per, validity })
    }

    /// What an amount costs on a day; `None` where the price does not hold on that day.
    ///
    /// # Errors
    /// [`EstimateError::TooMuch`].
    pub fn of(&self, amount: Quantity<K>, day: Date) -> Result<Option<Money>, EstimateError> {
        if !self.validity.holds_on(day) {
            return Ok(None);
        }
        self.money.times(amount.canonical() / self.per.canonical()).map(Some)
    }
}

#[cfg(test)]
mod tests {
    use rust_decimal::Decimal;
    use time::macros::date;

    use super::*;
    use crate::{quantity::MassKind, trade::Currency};

    fn price(amount: Decimal) -> Result<Price<MassKind>, EstimateError> {
        let validity = PriceValidity::new(date!(2026 - 01 - 01), Some(date!(2026 - 06 - 30)))?;
        let money = Money::new(amount, Currency::parse("EUR")?);
        Price::new(money, "1 kg".parse().unwrap(), validity)
    }

    #[test]
    fn a_price_holds_on_its_days_only() {
        let wire = price(Decimal::new(290, 2)).unwrap();
        let two: Quantity<MassKind> = "2 kg".parse().unwrap();
        let on = |day| wire.of(two, day).unwrap().map(|money| money.to_string());
        assert_eq!(on(date!(2026 - 01 - 01)), Some("5.8 EUR".to_owned()));
        assert_eq!(on(date!(2026 - 06 - 30)), Some("5.8 EUR".to_owned()));
        assert_eq!(on(date!(2026 - 07 - 01)), None);
        assert_eq!(on(date!(2025 - 12 - 31)), None);
    }

    #[test]
    fn prices_below_zero_and_reversed_days_are_refused() {
        assert_eq!(price(Decimal::NEGATIVE_ONE), Err(EstimateError::NoPrice));
        assert!(PriceValidity::new(date!(2026 - 02 - 01), Some(date!(2026 - 01 - 31))).is_err());
    }
}
