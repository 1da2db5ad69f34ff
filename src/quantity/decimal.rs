//! Decimals read and turned into doubles without a detour where the numbers are as short as people write them.

use std::str::FromStr;

use rust_decimal::{Decimal, prelude::ToPrimitive};

/// Powers of ten that a double holds exactly.
const POWERS: [f64; 23] = [
    1e0, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15, 1e16,
    1e17, 1e18, 1e19, 1e20, 1e21, 1e22,
];

/// Digits that are certain to fit an `i64`.
const SHORT: usize = 18;

/// Ten to a power from 0 to 22, exactly.
pub(super) fn power_of_ten(exponent: u32) -> Option<f64> {
    POWERS.get(usize::try_from(exponent).ok()?).copied()
}

/// A decimal as short as people write them: its digits, and how many of them stand behind the point.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Short {
    digits: i64,
    scale: u32,
}

impl Short {
    pub(super) const fn new(digits: i64, scale: u32) -> Self {
        Self { digits, scale }
    }

    /// Its digits without the point, and how many of them stand behind it.
    pub(super) const fn parts(self) -> (i64, u32) {
        (self.digits, self.scale)
    }

    /// A decimal whose digits are few enough.
    pub(super) fn of(number: Decimal) -> Option<Self> {
        let digits = i64::try_from(number.mantissa()).ok()?;
        Some(Self { digits, scale: number.scale() })
    }

    pub(super) fn decimal(self) -> Decimal {
        Decimal::new(self.digits, self.scale)
    }

    /// The nearest double, where the digits have at most 53 bits. They and the power of ten are exact then, so
    /// that one division rounds once, as reading the text would.
    pub(super) fn double(self) -> Option<f64> {
        const EXACT: u64 = 1 << 53;
        if self.digits.unsigned_abs() > EXACT {
            return None;
        }
        #[allow(clippy::cast_precision_loss)] // at most 53 bits
        Some(self.digits as f64 / power_of_ten(self.scale)?)
    }

    pub(super) fn without_zeros(self) -> Self {
        let Self { mut digits, mut scale } = self;
        while scale > 0 && digits % 10 == 0 {
            digits /= 10;
            scale -= 1;
        }
        Self { digits, scale }
    }

    /// A fraction as inch rules have them, in halves down to sixty-fourths: its digits without a division and
    /// without zeros at their end.
    pub(super) fn fraction_of_an_inch(self, denominator: Self) -> Option<Self> {
        let (mut numerator, parts) = (self.digits, u64::try_from(denominator.digits).ok()?);
        if denominator.scale != 0 || self.scale != 0 || !parts.is_power_of_two() || parts > 64 {
            return None;
        }
        let mut halvings = parts.trailing_zeros();
        // Ten halves that are five wholes end in a zero: only what is even does.
        while halvings > 0 && numerator % 2 == 0 {
            numerator /= 2;
            halvings -= 1;
        }
        Some(Self { digits: numerator.checked_mul(5_i64.pow(halvings))?, scale: halvings })
    }
}

/// The double nearest to a decimal of at most 53 bits; `None` for longer ones.
#[must_use]
pub fn short_double(number: Decimal) -> Option<f64> {
    Short::of(number)?.double()
}

/// The double nearest to a decimal.
pub(super) fn double(number: Decimal) -> Option<f64> {
    short_double(number).or_else(|| number.to_f64())
}

/// A decimal as typed, without exponent; `None` where the text is none.
#[must_use]
pub fn read(text: &str) -> Option<Decimal> {
    short(text.as_bytes()).or_else(|| Decimal::from_str(text).ok())
}

/// Digits with at most one point between or before them; everything else is left to the library.
fn short(text: &[u8]) -> Option<Decimal> {
    leading(text).filter(|(_, length)| *length == text.len()).map(|(number, _)| number.decimal())
}

/// The short number that a text starts with, and its bytes: digits with at most one point between or before them.
#[inline]
pub(super) fn leading(text: &[u8]) -> Option<(Short, usize)> {
    // Behind the point, once there is one.
    let (mut digits, mut at, mut decimals) = (0_i64, 0, None);
    while let Some(byte) = text.get(at) {
        let digit = byte.wrapping_sub(b'0');
        if digit > 9 {
            if *byte != b'.' || decimals.is_some() {
                break;
            }
            decimals = Some(at + 1);
        } else if at < SHORT {
            digits = digits * 10 + i64::from(digit);
        } else {
            return None;
        }
        at += 1;
    }
    let scale = decimals.map_or(0, |from| at - from);
    let any = if decimals.is_some() { scale > 0 } else { at > 0 };
    any.then_some((Short { digits, scale: u32::try_from(scale).ok()? }, at))
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    /// The decimal library is the reference for what is read the short way.
    fn agree(text: &str) {
        if let Some(quick) = short(text.as_bytes()) {
            let slow = Decimal::from_str(text).unwrap();
            assert_eq!(
                (quick.mantissa(), quick.scale()),
                (slow.mantissa(), slow.scale()),
                "{text}"
            );
        }
    }

    #[test]
    fn what_people_type_is_read_the_short_way_and_the_rest_is_left() {
        for text in ["0", "240", "0.045", "1.20", "007.5", ".5"] {
            assert!(short(text.as_bytes()).is_some(), "{text}");
            agree(text);
        }
        for text in ["", ".", "5.", "1.2.3", "-5", "+5", "1_000", "1e3", "1234567890123456789"] {
            assert!(short(text.as_bytes()).is_none(), "{text}");
        }
    }

    #[test]
    fn a_number_is_read_up_to_what_follows_it() {
        for (text, expected) in [
            ("240 A", Some(("240", 3))),
            ("0.045 in", Some(("0.045", 5))),
            (".5in", Some((".5", 2))),
            ("1.2.3 A", Some(("1.2", 3))),
            ("5. A", None),
            ("A", None),
            ("123456789012345678 A", Some(("123456789012345678", 18))),
            ("1234567890123456789 A", None),
            ("123456789012345678.5 A", None),
        ] {
            let expected: Option<(Decimal, _)> =
                expected.map(|(number, length)| (number.parse().unwrap(), length));
            let read = leading(text.as_bytes()).map(|(number, length)| (number.decimal(), length));
            assert_eq!(read, expected, "{text}");
        }
    }

    /// Every fraction of an inch rule, against the division of the decimal library.
    #[test]
    fn a_fraction_of_an_inch_has_the_digits_of_its_division() {
        let fraction = |numerator, denominator| {
            let (numerator, denominator) = (Short::of(numerator)?, Short::of(denominator)?);
            numerator.fraction_of_an_inch(denominator).map(Short::decimal)
        };
        for halvings in 0..7 {
            for numerator in -200_i64..200 {
                let (numerator, denominator) =
                    (Decimal::from(numerator), Decimal::from(1_i64 << halvings));
                let (ours, library) =
                    (fraction(numerator, denominator), numerator.checked_div(denominator));
                assert_eq!(ours, library);
                let scale = |number: Option<Decimal>| number.map(|number| number.scale());
                assert_eq!(scale(ours), scale(library.map(|number| number.normalize())));
            }
        }
        for (numerator, denominator) in
            [("1", "3"), ("1", "128"), ("1.5", "2"), ("1", "2.0"), ("1", "-2"), ("1", "0")]
        {
            let (numerator, denominator) =
                (numerator.parse().unwrap(), denominator.parse().unwrap());
            assert_eq!(fraction(numerator, denominator), None);
        }
    }

    proptest! {
        #[test]
        fn short_reading_agrees_with_the_library(text in r"[0-9]{0,12}(\.[0-9]{0,8})?") {
            agree(&text);
        }

        /// The standard library's reader, which rounds to the nearest double, is the reference.
        #[test]
        fn a_short_decimal_is_its_nearest_double(digits in -9_007_199_254_740_992_i64..9_007_199_254_740_992, scale in 0_u32..22) {
            let number = Decimal::new(digits, scale);
            let nearest: f64 = number.to_string().parse().unwrap();
            prop_assert_eq!(short_double(number), Some(nearest));
        }
    }
}
