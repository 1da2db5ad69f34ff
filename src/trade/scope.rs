//! Ranges outside which a formula has no answer.

use crate::quantity::{Amount, AmountRange, Kind, Quantity, at_least};

/// A value that lies outside the range a formula is valid for. The formula then has no result; it is
/// never computed for the nearest end of the range instead.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
#[error("{} of {given} is outside the validity of the formula: {valid}", given.kind().name)]
pub struct OutOfRange {
    /// What was given.
    pub given: Amount,
    /// What the formula is valid for.
    pub valid: AmountRange,
}

/// Refuses a value outside `low` to `high`, both in the canonical unit and both included.
pub(super) fn within<K: Kind>(
    value: Quantity<K>,
    low: f64,
    high: f64,
) -> Result<(), Box<OutOfRange>> {
    let (canonical, floor) = (value.canonical(), K::INFO.tolerance_floor);
    if at_least(canonical, low, floor) && at_least(high, canonical, floor) {
        return Ok(());
    }
    let end = |canonical| Quantity::<K>::computed(canonical).ok().map(Quantity::amount);
    let valid = AmountRange { min: end(low), max: end(high) };
    Err(Box::new(OutOfRange { given: value.amount(), valid }))
}

/// Refuses a value of zero or below; the highest value is the highest plausible of the kind.
pub(super) fn positive<K: Kind>(value: Quantity<K>) -> Result<(), Box<OutOfRange>> {
    if value.canonical() > 0.0 {
        return Ok(());
    }
    let end = |canonical| Quantity::<K>::computed(canonical).ok().map(Quantity::amount);
    let (low, high) = K::INFO.span;
    Err(Box::new(OutOfRange {
        given: value.amount(),
        valid: AmountRange { min: end(low), max: end(high) },
    }))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::Thickness;

    #[test]
    fn both_ends_are_valid_and_a_refusal_names_them() {
        let thickness = |text: &str| text.parse::<Thickness>().unwrap();
        assert_eq!(within(thickness("10 mm"), 10.0, 90.0), Ok(()));
        assert_eq!(within(thickness("90 mm"), 10.0, 90.0), Ok(()));
        let refused = within(thickness("9.9 mm"), 10.0, 90.0).unwrap_err().to_string();
        assert!(refused.contains("9.9 mm") && refused.contains("10 mm to 90 mm"), "{refused}");
    }

    #[test]
    fn zero_is_not_positive() {
        assert!(positive(Thickness::computed(0.0).unwrap()).is_err());
        assert!(positive(Thickness::computed(-1.0).unwrap()).is_err());
        assert_eq!(positive(Thickness::computed(1e-300).unwrap()), Ok(()));
    }
}
