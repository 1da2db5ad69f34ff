//! Numbers with units: parse, compare, convert and print.
//!
//! A [`Quantity`] is one value of one physical kind. It is held in one canonical unit per kind and
//! remembers what was typed, so that `3/4 in` comes back as `0.75 in`. The kind is part of the type:
//! a voltage cannot be added to a current, a visible stick-out cannot be compared with an
//! electrical one, nor arc energy with heat input.
//!
//! # Boundaries
//! `3 in/min` and `76.2 mm/min` are one speed. All comparisons go through [`compare`], which calls
//! two values equal when they differ by less than one part in 10⁹ ([`RELATIVE_TOLERANCE`]): far
//! above the noise of converting a unit (some parts in 10¹⁶), far below anything that can be
//! measured or typed on purpose.

mod amount;
mod decimal;
mod digits;
mod error;
mod interval;
mod kinds;
mod parse;
mod print;
mod unit;

pub use amount::{Amount, AmountRange};
pub use decimal::{read as decimal_as_typed, short_double};
pub use digits::{Digits, MOST_BYTES};
pub use error::QuantityError;
pub use interval::{Range, RangeError, Span};
pub use kinds::*;
pub use print::Rounding;
pub(crate) use print::rounded_down;
pub use unit::{Kind, KindInfo, Unit, UnitSystem};

use std::{cmp::Ordering, fmt, marker::PhantomData};

use rust_decimal::Decimal;

/// Two values closer than this share of the larger one are equal.
pub const RELATIVE_TOLERANCE: f64 = 1e-9;

/// The one comparison of the crate: checks, limits and ranges all use it.
///
/// `floor` is the magnitude below which the tolerance stops shrinking (for temperatures the ice
/// point, so that 32 °F and 0 °C are equal).
#[inline]
#[must_use]
pub fn compare(a: f64, b: f64, floor: f64) -> Ordering {
    if (a - b).abs() <= tolerance(a, b, floor) {
        Ordering::Equal
    } else if a < b {
        Ordering::Less
    } else {
        Ordering::Greater
    }
}

/// Whether one value is another or above it; most are clearly so.
#[inline]
#[must_use]
pub fn at_least(a: f64, b: f64, floor: f64) -> bool {
    a >= b || b - a <= tolerance(a, b, floor)
}

/// How far two values of one kind may lie apart and be equal.
#[inline]
fn tolerance(a: f64, b: f64, floor: f64) -> f64 {
    RELATIVE_TOLERANCE * a.abs().max(b.abs()).max(floor)
}

/// A number and its unit as a person typed them.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Entered {
    /// The number, exactly.
    pub number: Decimal,
    /// The unit it was typed in.
    pub unit: &'static Unit,
}

/// One value of one physical kind, always finite.
#[derive(Debug, Clone, Copy)]
pub struct Quantity<K: Kind> {
    canonical: f64,
    entered: Option<Entered>,
    kind: PhantomData<K>,
}

impl<K: Kind> Quantity<K> {
    /// A value as typed, refused outside the plausible span of its kind.
    ///
    /// # Errors
    /// [`QuantityError::UnknownUnit`] for a unit this kind does not have,
    /// [`QuantityError::Implausible`] outside the span.
    pub fn entered(number: Decimal, unit: &str) -> Result<Self, QuantityError> {
        let Amount { canonical, entered, .. } = Amount::entered(K::INFO, number, unit)?;
        Ok(Self { canonical, entered, kind: PhantomData })
    }

    /// A value that a formula produced, in the canonical unit. No plausible span is applied: an
    /// odd result is for the reader to see, not to be hidden.
    ///
    /// # Errors
    /// [`QuantityError::NotFinite`] for a division by zero or an overflow.
    pub fn computed(canonical: f64) -> Result<Self, QuantityError> {
        if canonical.is_finite() {
            Ok(Self { canonical, entered: None, kind: PhantomData })
        } else {
            Err(QuantityError::NotFinite { quantity: K::INFO.name })
        }
    }

    /// A computed value as somebody would type it: in this unit, with so many significant digits.
    ///
    /// # Errors
    /// As [`Quantity::entered`]; [`QuantityError::NotFinite`] for no number.
    pub fn in_figures(
        canonical: f64,
        unit: &Unit,
        digits: u32,
        rounding: Rounding,
    ) -> Result<Self, QuantityError> {
        if !canonical.is_finite() {
            return Err(QuantityError::NotFinite { quantity: K::INFO.name });
        }
        Self::entered(print::rounded(unit.number(canonical), digits, rounding), unit.symbol)
    }

    /// The value in the canonical unit of its kind.
    #[must_use]
    pub const fn canonical(self) -> f64 {
        self.canonical
    }

    /// What was typed; `None` for a computed value.
    #[must_use]
    pub const fn as_entered(self) -> Option<Entered> {
        self.entered
    }

    /// How far the value stands from the zero of the scale it was typed on, in canonical units: 212 °F stands 212
    /// Fahrenheit degrees from it. A share of a reading is a share of this.
    pub(crate) fn distance_on_scale(self) -> f64 {
        self.entered.map_or(self.canonical, |typed| typed.unit.without_offset(self.canonical)).abs()
    }

    /// Compares two values of one kind with the crate's one tolerance.
    #[must_use]
    pub fn compare(self, other: Self) -> Ordering {
        compare(self.canonical, other.canonical, K::INFO.tolerance_floor)
    }

    /// Whether this value is the other or below it.
    #[must_use]
    pub fn at_most(self, other: Self) -> bool {
        at_least(other.canonical, self.canonical, K::INFO.tolerance_floor)
    }

    /// Whether this value is the other or above it.
    #[must_use]
    pub fn at_least(self, other: Self) -> bool {
        at_least(self.canonical, other.canonical, K::INFO.tolerance_floor)
    }

    /// The smaller of two values.
    #[must_use]
    pub fn min(self, other: Self) -> Self {
        if other.compare(self) == Ordering::Less { other } else { self }
    }

    /// The larger of two values.
    #[must_use]
    pub fn max(self, other: Self) -> Self {
        if other.compare(self) == Ordering::Greater { other } else { self }
    }

    /// The value without its kind in the type, for findings and answers.
    #[must_use]
    pub const fn amount(self) -> Amount {
        Amount { canonical: self.canonical, entered: self.entered, kind: K::INFO }
    }
}

/// Equal under the crate's one tolerance.
impl<K: Kind> PartialEq for Quantity<K> {
    #[inline]
    fn eq(&self, other: &Self) -> bool {
        // What was typed alike needs no tolerance.
        self.canonical == other.canonical
            || compare(self.canonical, other.canonical, K::INFO.tolerance_floor).is_eq()
    }
}

impl<K: Kind> fmt::Display for Quantity<K> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.amount().fmt(f)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_boundary_typed_in_either_unit_is_the_same_boundary() {
        let inches: TravelSpeed = "3 in/min".parse().unwrap();
        let millimetres: TravelSpeed = "76.2 mm/min".parse().unwrap();
        assert_eq!(inches, millimetres);
        assert!(inches.at_most(millimetres) && inches.at_least(millimetres));
    }

    /// One part in 10⁹ of 300 is 3e-7 (own arithmetic).
    #[test]
    fn a_hair_below_another_value_is_at_least_that() {
        for (below, expected) in [(0.0, true), (2.9e-7, true), (3.1e-7, false), (1.0, false)] {
            assert_eq!(at_least(300.0 - below, 300.0, 0.0), expected, "{below}");
            assert_eq!(compare(300.0 - below, 300.0, 0.0).is_ge(), expected, "{below}");
            assert!(at_least(300.0 + below, 300.0, 0.0));
        }
        assert!(at_least(300.0 - 1e-6, 300.0, 1e4) && !at_least(300.0, f64::NAN, 0.0));
    }

    #[test]
    fn freezing_is_one_temperature() {
        let celsius: Temperature = "0 °C".parse().unwrap();
        assert_eq!(celsius, "32 °F".parse().unwrap());
        assert_eq!(celsius, "273.15 K".parse().unwrap());
    }

    #[test]
    fn two_nominal_sizes_of_a_wire_class_stay_two() {
        let inch: Diameter = "0.045 in".parse().unwrap();
        assert_ne!(inch, "1.2 mm".parse().unwrap());
    }

    #[test]
    fn a_division_by_zero_is_no_quantity() {
        assert!(Current::computed(1.0 / 0.0).is_err());
        assert!(Current::computed(f64::NAN).is_err());
    }
}
