//! Sensible digits: the precision of what was typed, never seventeen.

use rust_decimal::{Decimal, RoundingStrategy};

use super::{
    decimal::{Short, power_of_ten},
    digits::Digits,
};

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
pub(super) fn computed(value: f64, rounding: Rounding) -> Digits {
    rounded_digits(value, COMPUTED_DIGITS, rounding)
}

/// A number converted to another unit: one digit more than was typed, and at least
/// [`FEWEST_CONVERTED_DIGITS`].
pub(super) fn converted(value: f64, typed: Decimal, rounding: Rounding) -> Digits {
    rounded_digits(value, (significant_digits(typed) + 1).max(FEWEST_CONVERTED_DIGITS), rounding)
}

fn significant_digits(number: Decimal) -> u32 {
    let mut digits = number.mantissa().unsigned_abs();
    while digits > 0 && digits.is_multiple_of(10) {
        digits /= 10;
    }
    digits.checked_ilog10().map_or(0, |log| log + 1)
}

/// A number of its own, such as a difference, with three significant digits, never more than it is.
pub(crate) fn rounded_down(value: f64) -> Decimal {
    rounded(value, 3, Rounding::Down)
}

/// A number with so many significant digits.
pub(super) fn rounded(value: f64, digits: u32, rounding: Rounding) -> Decimal {
    rounded_digits(value, digits, rounding).decimal()
}

fn rounded_digits(value: f64, digits: u32, rounding: Rounding) -> Digits {
    match quickly(value, digits, rounding) {
        Some(short) => Digits::from(short),
        None => Digits::from(exactly(value, digits, rounding)),
    }
}

/// The same as [`exactly`], by floating point, where its error cannot decide the last digit; else `None`.
fn quickly(value: f64, digits: u32, rounding: Rounding) -> Option<Short> {
    let size = value.abs();
    if !(1e-9..1e9).contains(&size) || digits > 9 {
        return None;
    }
    let scale = u32::try_from(digits.cast_signed() - 1 - exponent(size)?).ok()?;
    let scaled = size * power_of_ten(scale)?;
    let highest = power_of_ten(digits)?;
    if !(highest / 10.0..highest).contains(&scaled) {
        return None;
    }
    // Rounds like the library of mathematics without its call, but for halves, which are doubtful below.
    #[allow(clippy::cast_possible_truncation, clippy::cast_precision_loss)] // at most nine digits
    let nearest = (scaled + 0.5) as i64 as f64;
    let off = (scaled - nearest).abs();
    let is_noise = off < scaled * 1e-13;
    let is_doubtful = !is_noise && off < scaled * 1e-10 || 0.5 - off < scaled * 1e-10;
    if is_doubtful {
        return None;
    }
    let up = (rounding == Rounding::Up) == (value > 0.0);
    let whole = match rounding {
        _ if is_noise => nearest,
        Rounding::Nearest => nearest,
        Rounding::Up | Rounding::Down if up => scaled.ceil(),
        Rounding::Up | Rounding::Down => scaled.floor(),
    };
    #[allow(clippy::cast_possible_truncation)] // at most nine digits
    let mantissa = whole.copysign(value) as i64;
    Some(Short::new(mantissa, scale))
}

/// The power of ten of the first digit, for sizes from 1e-9 up to 1e9; beside a power of ten it may be the next one.
fn exponent(size: f64) -> Option<i32> {
    const BIAS: i32 = 1023;
    let of_two = i32::try_from(size.to_bits() >> 52).ok()? - BIAS;
    // The common logarithm of two is a little less than 1233 of 4096 parts, by less than counts here; a size has up
    // to twice its power of two, so that its power of ten is the one found or the next.
    let of_ten = (of_two * 1233) >> 12;
    let next = power_of_ten((of_ten + 1).unsigned_abs())?;
    let is_next = if of_ten < -1 { size * next >= 1.0 } else { size >= next };
    Some(of_ten + i32::from(is_next))
}

fn exactly(value: f64, digits: u32, rounding: Rounding) -> Decimal {
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
    use proptest::prelude::*;

    use super::*;

    const ALL: [Rounding; 3] = [Rounding::Nearest, Rounding::Up, Rounding::Down];

    /// Rounding by the decimal library is the reference.
    fn agree(value: f64, digits: u32) {
        for rounding in ALL {
            if let Some(quick) = quickly(value, digits, rounding) {
                assert_eq!(
                    quick.decimal(),
                    exactly(value, digits, rounding),
                    "{value} {digits} {rounding:?}"
                );
            }
        }
    }

    #[test]
    fn the_quick_way_is_taken_for_usual_numbers_and_left_for_doubtful_ones() {
        let quickly =
            |value, digits, rounding| quickly(value, digits, rounding).map(Short::without_zeros);
        assert_eq!(quickly(1.0 / 3.0, 4, Rounding::Up), Some(Short::new(3334, 4)));
        assert_eq!(quickly(-1.0 / 3.0, 4, Rounding::Up), Some(Short::new(-3333, 4)));
        assert_eq!(quickly(0.1 + 0.2, 4, Rounding::Up), Some(Short::new(3, 1)));
        assert_eq!(quickly(9999.7, 4, Rounding::Nearest), Some(Short::new(10_000, 0)));
        assert_eq!(quickly(1.0005, 4, Rounding::Nearest), None);
        assert_eq!(quickly(0.0, 4, Rounding::Nearest), None);
    }

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

    #[test]
    fn both_ways_agree_beside_every_short_decimal() {
        for whole in 1_i32..3000 {
            for power in -3..4 {
                let short = f64::from(whole) * 10_f64.powi(power);
                for nudge in [0.0, 1e-15, -1e-15, 3e-13, -3e-13, 1e-9, -1e-9] {
                    agree(short * (1.0 + nudge), 4);
                    agree((short + 0.5 * 10_f64.powi(power)) * (1.0 + nudge), 5);
                }
            }
        }
    }

    proptest! {
        #[test]
        fn both_ways_agree(size in -8.0_f64..8.0, negative: bool, digits in 1_u32..10) {
            let value = 10_f64.powf(size);
            agree(if negative { -value } else { value }, digits);
        }
    }
}
