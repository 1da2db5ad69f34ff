//! Canonical values as the database keeps them, for projections that are searched.

use std::ops::Bound;

use rust_decimal::{Decimal, RoundingStrategy};
use sqlx::postgres::types::PgRange;

use crate::quantity::{Kind, Quantity, Range};

/// Digits kept: enough to tell any two typed values apart, too few to keep the noise of converting a
/// unit, so that 3 in/min and 76.2 mm/min are one number here too.
const DIGITS: u32 = 9;

/// A canonical value as a decimal.
#[must_use]
pub fn decimal<K: Kind>(quantity: Quantity<K>) -> Decimal {
    let exact = Decimal::from_f64_retain(quantity.canonical()).unwrap_or_default();
    exact
        .round_sf_with_strategy(DIGITS, RoundingStrategy::MidpointAwayFromZero)
        .unwrap_or_default()
        .normalize()
}

/// A range with both ends included, as `numrange`.
#[must_use]
pub fn numrange<K: Kind>(range: &Range<K>) -> PgRange<Decimal> {
    let end =
        |end: Option<Quantity<K>>| end.map_or(Bound::Unbounded, |q| Bound::Included(decimal(q)));
    PgRange { start: end(range.min()), end: end(range.max()) }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::TravelSpeed;

    #[test]
    fn one_speed_in_two_units_is_one_number() {
        let inches: TravelSpeed = "3 in/min".parse().unwrap();
        let millimetres: TravelSpeed = "76.2 mm/min".parse().unwrap();
        assert_eq!(decimal(inches), decimal(millimetres));
        assert_eq!(decimal(inches).to_string(), "76.2");
    }
}
