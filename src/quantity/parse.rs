//! Reading `350 in/min`, `3/4 in`, `1 1/2 in`, `1.2e3 A`.

use std::{marker::PhantomData, str::FromStr};

use rust_decimal::Decimal;

use super::{
    Amount, Entered, Kind, KindInfo, Quantity, QuantityError,
    decimal::{Short, leading, read},
};

impl<K: Kind> FromStr for Quantity<K> {
    type Err = QuantityError;

    /// Reads a number, a space and a unit. The number may be a decimal, a fraction or a mixed
    /// number, as inch rules are marked.
    fn from_str(text: &str) -> Result<Self, Self::Err> {
        let Amount { canonical, entered, .. } = Amount::read(K::INFO, text)?;
        Ok(Self { canonical, entered, kind: PhantomData })
    }
}

impl<K: Kind> Quantity<K> {
    /// Reads the form most are typed in: a decimal or a fraction of an inch, one space and a unit. `None` for
    /// every other text, a wrong one or not, which [`FromStr`] reads or refuses.
    #[must_use]
    pub fn plainly(text: &str) -> Option<Self> {
        let (canonical, entered) = plainly(K::INFO, text)?;
        Some(Self { canonical, entered: Some(entered), kind: PhantomData })
    }
}

/// One for all kinds. What is within the tolerance of an end of the span is left to the longer way.
fn plainly(kind: &'static KindInfo, text: &str) -> Option<(f64, Entered)> {
    let bytes = text.as_bytes();
    let (number, length) = plain_number(bytes)?;
    let [b' ', symbol @ ..] = bytes.get(length..)? else { return None };
    // The longer way takes a digit behind a space for a part of the number, the unit 1 as well.
    if symbol.first()?.is_ascii_digit() {
        return None;
    }
    let unit = kind.unit_of_symbol(symbol)?;
    let canonical = unit.canonical(number.double()?);
    let (low, high) = kind.span;
    let inside = low <= canonical && canonical <= high;
    inside.then(|| (canonical, Entered { number: number.decimal(), unit }))
}

impl Amount {
    /// The refusal of a bare number, with the right form.
    #[must_use]
    pub fn missing_unit(kind: &KindInfo, number: &str) -> QuantityError {
        missing_unit(kind, number)
    }

    /// Reads a number, a space and a unit of this kind; see [`Quantity`]'s own reading.
    ///
    /// # Errors
    /// As for a quantity.
    pub fn read(kind: &'static KindInfo, text: &str) -> Result<Self, QuantityError> {
        let (number, unit) = split(kind, text)?;
        Self::entered(kind, number, unit)
    }
}

/// The number and the unit of a text.
fn split<'t>(kind: &KindInfo, text: &'t str) -> Result<(Decimal, &'t str), QuantityError> {
    let plain = plain_form(text).map(|(number, unit)| (number.decimal(), unit));
    plain.map_or_else(|| split_any(kind, text), Ok)
}

/// The same, whatever the form.
fn split_any<'t>(kind: &KindInfo, text: &'t str) -> Result<(Decimal, &'t str), QuantityError> {
    let text = trimmed(text);
    let split = text.bytes().position(|byte| !is_number_part(byte)).unwrap_or(text.len());
    if text[split..].starts_with(',') {
        let example = example(kind, Decimal::new(125, 1));
        return Err(QuantityError::Comma { given: text.to_owned(), example });
    }
    let split = exponent_end(text, split);
    let (number, unit) = (text[..split].trim_ascii(), trimmed(&text[split..]));
    let number = decimal(number).ok_or_else(|| QuantityError::NotANumber {
        given: text.to_owned(),
        example: example(kind, Decimal::new(125, 1)),
    })?;
    if unit.is_empty() {
        return Err(missing_unit(kind, &number.to_string()));
    }
    Ok((number, unit))
}

/// The parts of a decimal or a fraction of an inch, one space and a unit, which is how most are typed.
#[inline]
fn plain_form(text: &str) -> Option<(Short, &str)> {
    let bytes = text.as_bytes();
    let (number, length) = plain_number(bytes)?;
    let unit = text.get(length + 1..).filter(|_| bytes[length] == b' ')?;
    // What starts or ends in another character than those of ASCII is left to the longer way, but for degrees.
    let (first, last) = (*unit.as_bytes().first()?, *unit.as_bytes().last()?);
    let starts = first.is_ascii_graphic() && !first.is_ascii_digit() || unit.starts_with('°');
    (starts && last.is_ascii_graphic()).then_some((number, unit))
}

/// The decimal or the fraction of an inch that a text starts with, and its bytes.
#[inline]
fn plain_number(text: &[u8]) -> Option<(Short, usize)> {
    let (number, length) = leading(text)?;
    if text.get(length) == Some(&b'/') {
        fraction(text, number, length)
    } else {
        Some((number, length))
    }
}

/// The fraction of which this is the numerator. Rarer than a decimal, so that it stands apart.
#[inline(never)]
fn fraction(text: &[u8], numerator: Short, bar: usize) -> Option<(Short, usize)> {
    let (denominator, length) = leading(&text[bar + 1..])?;
    Some((numerator.fraction_of_an_inch(denominator)?, bar + 1 + length))
}

/// Without the spaces around it; other spaces than plain ones are looked for only where they can be.
fn trimmed(text: &str) -> &str {
    if text.is_ascii() { text.trim_ascii() } else { text.trim() }
}

fn is_number_part(byte: u8) -> bool {
    byte.is_ascii_digit() || matches!(byte, b'.' | b'/' | b'-' | b'+' | b' ')
}

/// Lets `1.2e3 A` keep its exponent; a unit that starts with `e` needs no such care, none exists.
fn exponent_end(text: &str, split: usize) -> usize {
    let rest = &text[split..];
    let Some(after) = rest.strip_prefix(['e', 'E']) else { return split };
    let digits = after.strip_prefix(['+', '-']).unwrap_or(after);
    let count = digits.chars().take_while(char::is_ascii_digit).count();
    if count == 0 { split } else { text.len() - digits.len() + count }
}

/// A right form of this kind with this number.
fn example(kind: &KindInfo, number: Decimal) -> String {
    format!("{number} {}", kind.probable_unit(number).symbol)
}

/// The refusal of a bare number.
fn missing_unit(kind: &KindInfo, number: &str) -> QuantityError {
    let (number, unit) = decimal(number).map_or_else(
        || (number.to_owned(), kind.units[0].symbol),
        |number| {
            let number = in_parts_of_hundred(kind, number);
            (number.to_string(), kind.probable_unit(number).symbol)
        },
    );
    QuantityError::MissingUnit {
        quantity: kind.name,
        example: format!("{number} {unit}"),
        number,
        unit,
    }
}

/// A bare number of a share below one is a part of one, which a shop writes with a percent sign.
fn in_parts_of_hundred(kind: &KindInfo, number: Decimal) -> Decimal {
    let is_part = kind.units[0].symbol == "1" && number.abs() < Decimal::ONE;
    if is_part { (number * Decimal::ONE_HUNDRED).normalize() } else { number }
}

/// A decimal, `3/4` or `1 1/2`. A fraction that does not terminate is no typed number.
fn decimal(text: &str) -> Option<Decimal> {
    // A look at each byte: texts are short, and a search built for long ones costs more.
    let Some(bar) = text.bytes().position(|byte| byte == b'/') else { return plain(text) };
    let (numerator, denominator) = (&text[..bar], &text[bar + 1..]);
    let (whole, numerator) = match numerator.trim().rsplit_once(' ') {
        Some((whole, numerator)) => (plain(whole.trim())?, numerator),
        None => (Decimal::ZERO, numerator),
    };
    let (numerator, denominator) = (plain(numerator.trim())?, plain(denominator.trim())?);
    let short = Short::of(numerator).zip(Short::of(denominator));
    let of_an_inch = short.and_then(|(above, below)| above.fraction_of_an_inch(below));
    let fraction = of_an_inch.map(Short::decimal).or_else(|| numerator.checked_div(denominator))?;
    let sign = if whole.is_sign_negative() { -Decimal::ONE } else { Decimal::ONE };
    whole.checked_add(sign * fraction).map(|sum| sum.normalize())
}

fn plain(text: &str) -> Option<Decimal> {
    if text.bytes().any(|byte| matches!(byte, b'e' | b'E')) {
        return Decimal::from_scientific(text).ok();
    }
    read(text)
}

impl<K: Kind> Quantity<K> {
    /// Reads a difference of two values, such as the error of an instrument: no plausible span, and
    /// for temperatures no offset, so that an error of `9 °F` is one of 5 °C.
    ///
    /// # Errors
    /// [`QuantityError`] where number or unit cannot be read, or the difference is negative.
    pub fn difference(text: &str) -> Result<Self, QuantityError> {
        let (number, unit) = split(K::INFO, text)?;
        let unit = K::INFO.unit(unit)?;
        let zero = unit.to_canonical(Decimal::ZERO)?;
        if number.is_sign_negative() {
            let example = example(K::INFO, Decimal::new(25, 1));
            return Err(QuantityError::Negative { given: text.to_owned(), example });
        }
        let difference = Self::computed(unit.to_canonical(number)? - zero)?;
        // A difference of degrees is no temperature that could be shown as typed.
        let entered = (unit.offset == 0.0).then_some(Entered { number, unit });
        Ok(Self { entered, ..difference })
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::{plain_form, split_any};
    use crate::quantity::{
        Current, Diameter, DiameterKind, ElectricalStickOut, Kind, QuantityError, Temperature,
        Thickness,
    };

    proptest! {
        /// Where the short way has an answer, it is that of the longer one.
        #[test]
        fn the_plain_form_is_read_as_every_form_is(
            text in r"-?[0-9]{0,4}(\.[0-9]{0,3})?(/[0-9]{1,3})?[ \u{a0}]{0,2}(in|mm|°F|A|m2|to 3 in)?[ .°]?",
        ) {
            if let Some(plain) = Diameter::plainly(&text) {
                let (number, unit) = split_any(DiameterKind::INFO, &text).unwrap();
                let expected = Diameter::entered(number, unit).unwrap().as_entered().unwrap();
                let read = plain.as_entered().unwrap();
                prop_assert_eq!((read, read.number.scale()), (expected, number.scale()));
            }
        }
    }

    #[test]
    fn a_decimal_comma_is_told_as_one() {
        for text in ["135,5 A", "1,000 A", "135, A"] {
            let error = text.parse::<Current>().unwrap_err();
            assert!(matches!(error, QuantityError::Comma { .. }), "{text}: {error}");
            assert!(error.to_string().contains("decimal point"), "{error}");
        }
        assert!("135.5 A".parse::<Current>().is_ok());
    }

    /// A nanometre lies within the tolerance of a metre.
    #[test]
    fn what_lies_at_an_end_of_the_span_is_read_as_ever() {
        for (text, plain) in [
            ("0.1 mm", true),
            ("1000 mm", true),
            ("1000.000001 mm", false),
            ("0.09999999995 mm", false),
        ] {
            assert_eq!(Thickness::plainly(text).is_some(), plain, "{text}");
            assert!(text.parse::<Thickness>().is_ok(), "{text}");
        }
        assert!("1000.1 mm".parse::<Thickness>().is_err());
    }

    #[test]
    fn what_is_mostly_typed_has_the_plain_form() {
        for text in ["240 A", "0.045 in", "3/8 in", "70 °F", "40 ft3/h"] {
            assert!(plain_form(text).is_some(), "{text}");
        }
    }

    #[test]
    fn fractions_of_an_inch_are_read_and_printed_as_decimals() {
        let eso: ElectricalStickOut = "3/4 in".parse().unwrap();
        assert_eq!(eso.to_string(), "0.75 in");
        assert_eq!("1 1/2 in".parse::<ElectricalStickOut>().unwrap().to_string(), "1.5 in");
    }

    #[test]
    fn spaces_of_all_kinds_are_read_as_before() {
        for text in
            ["240 A", " 240 A", "240  A ", "240A", "240\u{a0}A", "240 \u{a0}A", "240 A\u{2003}"]
        {
            assert_eq!(text.parse::<Current>().unwrap().to_string(), "240 A", "{text:?}");
        }
    }

    #[test]
    fn a_bare_number_is_refused_with_the_right_form() {
        let error = "240".parse::<Current>().unwrap_err();
        assert!(matches!(error, QuantityError::MissingUnit { .. }));
        assert!(error.to_string().contains("240 A"), "{error}");
    }

    /// 400 m/min would be refused, 400 in/min are 10.16 m/min.
    #[test]
    fn the_right_form_is_one_that_would_be_read() {
        use crate::quantity::{Share, WireFeed};
        let feed = "400".parse::<WireFeed>().unwrap_err().to_string();
        assert!(feed.contains("\"400 in/min\"") && feed.contains("\"unit\": \"in/min\""), "{feed}");
        let share = "0.05".parse::<Share>().unwrap_err().to_string();
        assert!(share.contains("\"5 %\"") && share.contains("\"value\": 5,"), "{share}");
        assert!("80".parse::<Share>().unwrap_err().to_string().contains("\"80 %\""));
        let beyond = "300 %".parse::<Share>().unwrap_err().to_string();
        assert_eq!(beyond, "a share lies between 0 and 200 %");
    }

    #[test]
    fn a_negative_difference_is_said_to_be_negative() {
        let error = Current::difference("-5 A").unwrap_err().to_string();
        assert_eq!(error, "\"-5 A\" is negative; a right form is \"2.5 A\"");
    }

    #[test]
    fn absurd_magnitudes_are_refused_with_the_span() {
        let error = "40000 A".parse::<Current>().unwrap_err();
        assert!(error.to_string().contains("between 1 and 3000 A"), "{error}");
    }

    #[test]
    fn an_error_of_nine_fahrenheit_is_one_of_five_celsius() {
        let error = Temperature::difference("9 °F").unwrap();
        assert!((error.celsius() - 5.0).abs() < 1e-12);
    }

    #[test]
    fn nonsense_is_not_a_number() {
        for text in ["", "A", "NaN A", "inf A", "1/0 A", "--3 A", "1e999 A", "1 2 A"] {
            assert!(text.parse::<Current>().is_err(), "{text}");
        }
    }

    #[test]
    fn the_unit_may_touch_the_number_and_have_an_exponent_before_it() {
        assert_eq!("1.2mm".parse::<Diameter>().unwrap().to_string(), "1.2 mm");
        assert_eq!("2.4e2A".parse::<Current>().unwrap().to_string(), "240 A");
        assert_eq!("-10 °C".parse::<Temperature>().unwrap().to_string(), "-10 °C");
    }
}
