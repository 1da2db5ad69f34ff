//! The text of a number, made in one place.

use std::{borrow::Cow, cmp::Ordering, fmt};

use rust_decimal::Decimal;

use super::decimal::Short;

/// The digits of a number as it is printed, without zeros at their end.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Digits(Form);

/// A number that can be short is, so that every number has one form.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Form {
    Short(Short),
    Long(Decimal),
}

/// The most bytes of a short number: as many digits as a decimal has behind its point, with a sign, a zero and the
/// point before them.
pub const MOST_BYTES: usize = 31;

impl Digits {
    /// The number.
    #[must_use]
    pub fn decimal(self) -> Decimal {
        match self.0 {
            Form::Short(short) => short.decimal(),
            Form::Long(number) => number,
        }
    }

    /// The text, as JSON has it too; a short one in the room given.
    #[must_use]
    pub fn text(self, room: &mut [u8; MOST_BYTES]) -> Cow<'_, [u8]> {
        match self.0 {
            Form::Short(short) => Cow::Borrowed(bytes(short, room)),
            Form::Long(number) => Cow::Owned(number.to_string().into_bytes()),
        }
    }

    /// Adds the text to another one.
    pub(super) fn write_to(self, text: &mut impl fmt::Write) -> fmt::Result {
        let mut room = [0; MOST_BYTES];
        text.write_str(str::from_utf8(&self.text(&mut room)).unwrap_or_default())
    }
}

impl fmt::Display for Digits {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.write_to(f)
    }
}

impl Ord for Digits {
    fn cmp(&self, other: &Self) -> Ordering {
        self.decimal().cmp(&other.decimal())
    }
}

impl PartialOrd for Digits {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl From<Decimal> for Digits {
    fn from(number: Decimal) -> Self {
        Short::of(number).map_or_else(|| long(number.normalize()), Self::from)
    }
}

/// A number with too many digits, unless they were zeros that are gone.
fn long(normal: Decimal) -> Digits {
    Digits(Short::of(normal).map_or(Form::Long(normal), Form::Short))
}

impl From<Short> for Digits {
    fn from(number: Short) -> Self {
        Self(Form::Short(number.without_zeros()))
    }
}

/// The text as the decimal library writes it, without its way over long division.
fn bytes(number: Short, room: &mut [u8; MOST_BYTES]) -> &[u8] {
    let (signed, scale) = number.parts();
    let mut digits = signed.unsigned_abs();
    let mut start = room.len();
    let mut put = |byte: u8| {
        start -= 1;
        room[start] = byte;
    };
    let mut last_digit = || {
        let digit = u8::try_from(digits % 10).unwrap_or_default();
        digits /= 10;
        (b'0' + digit, digits == 0)
    };
    if scale > 0 {
        for _ in 0..scale {
            put(last_digit().0);
        }
        put(b'.');
    }
    loop {
        let (digit, is_first) = last_digit();
        put(digit);
        if is_first {
            break;
        }
    }
    if signed < 0 {
        put(b'-');
    }
    &room[start..]
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Both texts of a number.
    fn texts(number: Decimal) -> (String, String) {
        let (digits, mut room) = (Digits::from(number), [0; MOST_BYTES]);
        (digits.to_string(), String::from_utf8(digits.text(&mut room).into_owned()).unwrap())
    }

    /// The decimal library is the reference.
    #[test]
    fn a_number_is_written_as_the_library_writes_it() {
        let mut numbers = vec![Decimal::MAX, Decimal::MIN, Decimal::from(u64::MAX), -Decimal::ZERO];
        for scale in 0..=Decimal::MAX_SCALE {
            let digits = [0, 1, 5, 10, 45, 1900, -7, i64::MAX, i64::MIN];
            numbers.extend(digits.map(|digits| Decimal::new(digits, scale)));
            numbers.push(Decimal::from_i128_with_scale(-12_345_678_901_234_567_890, scale));
        }
        for number in numbers {
            let expected = number.normalize().to_string();
            assert_eq!(texts(number), (expected.clone(), expected), "{number}");
            assert_eq!(Digits::from(number).decimal().scale(), number.normalize().scale());
        }
    }

    #[test]
    fn a_number_is_the_same_with_any_zeros_at_its_end() {
        for (number, longer) in [("9", "9.0"), ("9", "9.0000000000000000000000000"), ("0", "-0.00")]
        {
            let [number, longer] = [number, longer].map(|text| text.parse::<Decimal>().unwrap());
            assert_eq!(Digits::from(number), Digits::from(longer));
        }
        assert_ne!(Digits::from(Decimal::ONE), Digits::from(Decimal::TEN));
    }

    #[test]
    fn zeros_at_the_end_go_as_with_the_library() {
        let without_zeros = |number: Decimal| Digits::from(number).decimal();
        for digits in [0, 1, -1, 10, -1200, 1_000_000, 1_000_001, i64::MAX, i64::MIN] {
            for scale in 0..=Decimal::MAX_SCALE {
                let number = Decimal::new(digits, scale);
                let (ours, library) = (without_zeros(number), number.normalize());
                assert_eq!((ours, ours.scale()), (library, library.scale()), "{number}");
            }
        }
        assert_eq!(without_zeros(Decimal::MAX), Decimal::MAX);
        assert!(!without_zeros(-Decimal::ZERO).is_sign_negative());
    }
}
