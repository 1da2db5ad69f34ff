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

fn rounded(value: f64, digits: u32, rounding: Rounding) -> Decimal {
    let strategy = match rounding {
        Rounding::Nearest => RoundingStrategy::MidpointAwayFromZero,
        Rounding::Up => RoundingStrategy::ToPositiveInfinity,
        Rounding::Down => RoundingStrategy::ToNegativeInfinity,
    };
    // Some digits fewer than a double has first: binary noise would otherwise decide the last one.
    let exact = Decimal::from_f64_retain(value).unwrap_or_default();
    let round = |number: Decimal, digits: u32, strategy| {
        number.round_sf_with_strategy(digits.min(most_digits(number)), strategy)
    };
    let clean = round(exact, 12, RoundingStrategy::MidpointAwayFromZero);
    clean.and_then(|number| round(number, digits, strategy)).unwrap_or_default().normalize()
}

/// As many significant digits as a decimal of this size has places for: it ends at the 28th behind the
/// point, and asking for a further one panics.
fn most_digits(number: Decimal) -> u32 {
    let length = number.mantissa().unsigned_abs().checked_ilog10().map_or(0, |log| log + 1);
    (Decimal::MAX_SCALE + length).saturating_sub(number.scale())
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Own arithmetic: a decimal has 28 places, so 4.8107e-26 has room for three digits.
    #[test]
    fn a_number_near_nothing_is_printed_as_far_as_there_are_places() {
        for (value, printed) in [
            (4.810_7e-26, "0.0000000000000000000000000481"),
            (1.0e-28, "0.0000000000000000000000000001"),
            (4.0e-29, "0"),
            (0.0, "0"),
            (1.234_56e-9, "0.000000001235"),
        ] {
            assert_eq!(computed(value, Rounding::Nearest).to_string(), printed, "{value}");
        }
        for exponent in -330..=330 {
            for rounding in [Rounding::Nearest, Rounding::Up, Rounding::Down] {
                for lead in [9.999_999_999_999_9, -9.999_96, 1.0, 5.000_5] {
                    let _ = computed(lead * 10_f64.powi(exponent), rounding);
                }
            }
        }
    }
}
