//! Sensible digits: the precision of what was typed, never seventeen.

use rust_decimal::{Decimal, RoundingStrategy};

/// Significant digits of a computed value.
const COMPUTED_DIGITS: u32 = 4;

/// The fewest digits of a converted value, so that 0.045 in is 1.143 mm.
const FEWEST_CONVERTED_DIGITS: u32 = 4;

/// Which way the last digit goes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Rounding {
    /// To the nearest; a value.
    Nearest,
    /// Up; the lower end of a permission.
    Up,
    /// Down; the upper end of a permission.
    Down,
}

/// A computed number with [`COMPUTED_DIGITS`] significant digits.
pub(super) fn computed(value: f64, rounding: Rounding) -> Decimal {
    rounded(value, COMPUTED_DIGITS, rounding)
}

/// A number converted to another unit: one digit more than was typed, and at least
/// [`FEWEST_CONVERTED_DIGITS`].
pub(super) fn converted(value: f64, typed: Decimal, rounding: Rounding) -> Decimal {
    rounded(value, (significant_digits(typed) + 1).max(FEWEST_CONVERTED_DIGITS), rounding)
}

fn significant_digits(number: Decimal) -> u32 {
    let digits = number.normalize().mantissa().unsigned_abs().to_string();
    u32::try_from(digits.trim_end_matches('0').len()).unwrap_or(u32::MAX)
}

/// A number with so many significant digits.
pub(super) fn rounded(value: f64, digits: u32, rounding: Rounding) -> Decimal {
    let strategy = match rounding {
        Rounding::Nearest => RoundingStrategy::MidpointAwayFromZero,
        Rounding::Up => RoundingStrategy::ToPositiveInfinity,
        Rounding::Down => RoundingStrategy::ToNegativeInfinity,
    };
    // Some digits fewer than a double has first: binary noise would otherwise decide the last one.
    let exact = Decimal::from_f64_retain(value).unwrap_or_default();
    let clean = exact.round_sf_with_strategy(12, RoundingStrategy::MidpointAwayFromZero);
    clean.and_then(|n| n.round_sf_with_strategy(digits, strategy)).unwrap_or_default().normalize()
}
