//! Texts, numbers, dates, lists and things that may be missing.

use serde_json::Value;
use time::{
    Date, Month, OffsetDateTime, format_description::well_known::Rfc3339,
    macros::format_description,
};
use uuid::Uuid;

use super::{Errors, FromWire, Node, Place, PlainText, ToWire};
use crate::trade::MetalGroup;

/// Longest text of a field.
const LONGEST_TEXT: usize = 4000;

/// Most items of a list.
const LONGEST_LIST: usize = 1000;

impl FromWire for String {
    fn from_wire(value: &Node<'_>, at: Place<'_>, errors: &mut Errors) -> Option<Self> {
        text(value, at, errors).map(ToOwned::to_owned)
    }
}

/// A text as sent, without the spaces around it.
pub(super) fn text<'t>(value: &'t Node<'_>, at: Place<'_>, errors: &mut Errors) -> Option<&'t str> {
    let Some(text) = value.as_str() else {
        return errors.note(at, format!("expected a text, found {}", value.kind()));
    };
    let trimmed = trimmed(text);
    if trimmed.is_empty() {
        return errors.note(at, "the text is empty");
    }
    if text.len() > LONGEST_TEXT || text.contains('\0') {
        return errors.note(at, format!("a text has at most {LONGEST_TEXT} bytes and no NUL"));
    }
    Some(trimmed)
}

/// Without the spaces around it; most texts begin and end with what is plainly none.
fn trimmed(text: &str) -> &str {
    match text.as_bytes() {
        [first, .., last] if first.is_ascii_graphic() && last.is_ascii_graphic() => text,
        _ => text.trim(),
    }
}

impl ToWire for String {
    fn to_wire(&self) -> Value {
        Value::String(self.clone())
    }
}

impl FromWire for bool {
    fn from_wire(value: &Node<'_>, at: Place<'_>, errors: &mut Errors) -> Option<Self> {
        let message = || format!("expected true or false, found {}", value.kind());
        value.as_bool().or_else(|| errors.note(at, message()))
    }
}

impl ToWire for bool {
    fn to_wire(&self) -> Value {
        Value::Bool(*self)
    }
}

/// Whole numbers from zero up.
macro_rules! whole_numbers {
    ($($type:ty),+) => {$(
        impl FromWire for $type {
            fn from_wire(value: &Node<'_>, at: Place<'_>, errors: &mut Errors) -> Option<Self> {
                let number = value.as_u64().and_then(|number| Self::try_from(number).ok());
                let most = Self::MAX;
                number.or_else(|| errors.note(at, format!("expected a whole number from 0 to {most}")))
            }
        }

        impl ToWire for $type {
            fn to_wire(&self) -> Value {
                Value::from(*self)
            }
        }
    )+};
}

whole_numbers!(u8, u16, u32);

impl FromWire for Uuid {
    fn from_wire(value: &Node<'_>, at: Place<'_>, errors: &mut Errors) -> Option<Self> {
        let id = value.as_str().and_then(|text| Self::parse_str(text).ok());
        id.or_else(|| {
            errors.note(at, "expected a UUID, such as 019ab3c4-5d6e-7f80-91a2-b3c4d5e6f708")
        })
    }
}

impl ToWire for Uuid {
    fn to_wire(&self) -> Value {
        Value::String(self.to_string())
    }
}

impl FromWire for Date {
    fn from_wire(value: &Node<'_>, at: Place<'_>, errors: &mut Errors) -> Option<Self> {
        let date = value.as_str().and_then(|text| match calendar_day(text) {
            None if errors.of_stored() => any_date(text),
            date => date,
        });
        date.or_else(|| {
            errors.note(at, "expected a date as year-month-day from 1900 on, such as 2026-11-25")
        })
    }
}

/// A day as year-month-day, from 1900 on: nothing that is welded, tested or calibrated by today's records is older.
/// `None` for anything else.
#[must_use]
pub fn calendar_day(text: &str) -> Option<Date> {
    let day = plain_date(text).or_else(|| any_date(text));
    day.filter(|day| (1900..=9999).contains(&day.year()))
}

/// A day of four, two and two digits; everything else, a day that no month has above all, is left to the library.
fn plain_date(text: &str) -> Option<Date> {
    let [y, yy, yyy, yyyy, b'-', m, mm, b'-', d, dd] = text.as_bytes() else { return None };
    let number = |digits: &[&u8]| {
        digits.iter().try_fold(0_u16, |number, digit| {
            let digit = digit.wrapping_sub(b'0');
            (digit < 10).then(|| number * 10 + u16::from(digit))
        })
    };
    let month = Month::try_from(u8::try_from(number(&[m, mm])?).ok()?).ok()?;
    let (year, day) = (number(&[y, yy, yyy, yyyy])?, u8::try_from(number(&[d, dd])?).ok()?);
    Date::from_calendar_date(year.into(), month, day).ok()
}

fn any_date(text: &str) -> Option<Date> {
    Date::parse(text, format_description!("[year]-[month]-[day]")).ok()
}

impl ToWire for Date {
    fn to_wire(&self) -> Value {
        Value::String(self.to_string())
    }
}

/// RFC 3339, to the second: nothing of a shop needs more.
impl FromWire for OffsetDateTime {
    fn from_wire(value: &Node<'_>, at: Place<'_>, errors: &mut Errors) -> Option<Self> {
        let read = value.as_str().and_then(|text| Self::parse(text, &Rfc3339).ok());
        let read = read.filter(|at| (2000..=9000).contains(&at.year()));
        read.or_else(|| {
            errors.note(at, "expected a moment with its offset, such as 2026-11-25T06:30:00Z")
        })
    }
}

impl ToWire for OffsetDateTime {
    fn to_wire(&self) -> Value {
        self.format(&Rfc3339).map_or(Value::Null, Value::String)
    }
}

impl FromWire for MetalGroup {
    fn from_wire(value: &Node<'_>, at: Place<'_>, errors: &mut Errors) -> Option<Self> {
        text(value, at, errors)?.parse().map_or_else(
            |error: crate::trade::UnknownMetalGroup| errors.note(at, error.to_string()),
            Some,
        )
    }
}

impl ToWire for MetalGroup {
    fn to_wire(&self) -> Value {
        Value::String(self.to_string())
    }
}

/// A member that may be missing or null.
impl<T: FromWire> FromWire for Option<T> {
    fn from_wire(value: &Node<'_>, at: Place<'_>, errors: &mut Errors) -> Option<Self> {
        if value.is_null() { Some(None) } else { T::from_wire(value, at, errors).map(Some) }
    }

    #[inline]
    fn from_plain(text: &mut PlainText<'_>) -> Option<Self> {
        if text.is_at_null() { text.value().map(|_| None) } else { T::from_plain(text).map(Some) }
    }

    fn when_missing() -> Option<Self> {
        Some(None)
    }
}

impl<T: ToWire> ToWire for Option<T> {
    fn to_wire(&self) -> Value {
        self.as_ref().map_or(Value::Null, ToWire::to_wire)
    }

    fn is_missing(&self) -> bool {
        self.is_none()
    }
}

/// A large member that is moved as a pointer.
impl<T: FromWire> FromWire for Box<T> {
    fn from_wire(value: &Node<'_>, at: Place<'_>, errors: &mut Errors) -> Option<Self> {
        T::from_wire(value, at, errors).map(Self::new)
    }

    #[inline]
    fn from_plain(text: &mut PlainText<'_>) -> Option<Self> {
        T::from_plain(text).map(Self::new)
    }

    fn when_missing() -> Option<Self> {
        T::when_missing().map(Self::new)
    }
}

impl<T: ToWire> ToWire for Box<T> {
    fn to_wire(&self) -> Value {
        T::to_wire(self)
    }

    fn is_missing(&self) -> bool {
        T::is_missing(self)
    }
}

/// A list that may be missing; every item is read, so that all errors show.
impl<T: FromWire> FromWire for Vec<T> {
    fn from_wire(value: &Node<'_>, at: Place<'_>, errors: &mut Errors) -> Option<Self> {
        let Some(items) = value.as_list() else {
            return errors.note(at, format!("expected a list, found {}", value.kind()));
        };
        if items.len() > LONGEST_LIST {
            return errors.note(at, format!("a list has at most {LONGEST_LIST} items"));
        }
        let (mut read, mut sound) = (Self::with_capacity(items.len()), true);
        for (index, item) in items.iter().enumerate() {
            match T::from_wire(item, Place::Item(&at, index), errors) {
                Some(item) => read.push(item),
                None => sound = false,
            }
        }
        sound.then_some(read)
    }

    fn from_plain(text: &mut PlainText<'_>) -> Option<Self> {
        let mut more = text.enter_list()?;
        let mut read = Self::with_capacity(if more { 4 } else { 0 });
        while more && read.len() < LONGEST_LIST {
            read.push(T::from_plain(text)?);
            more = text.more_items()?;
        }
        (!more).then_some(read)
    }

    fn when_missing() -> Option<Self> {
        Some(Self::new())
    }
}

impl<T: ToWire> ToWire for Vec<T> {
    fn to_wire(&self) -> Value {
        Value::Array(self.iter().map(ToWire::to_wire).collect())
    }

    fn is_missing(&self) -> bool {
        self.is_empty()
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    /// A day that no record is from is not taken, and one that was kept before is read.
    #[test]
    fn a_day_before_1900_is_read_only_where_it_was_stored() {
        use crate::wire::{read, read_stored};
        for text in ["-0001-01-01", "0000-01-01", "1899-12-31"] {
            let value = Value::String(text.to_owned());
            assert!(read::<Date>(&value).is_err(), "{text}");
            assert_eq!(read_stored::<Date>(&value).unwrap().to_wire(), value);
        }
        assert!(read::<Date>(&Value::String("1900-01-01".to_owned())).is_ok());
        assert!(read_stored::<Date>(&Value::String("2026-02-30".to_owned())).is_err());
    }

    /// 2024 has a 29 February (divisible by four), 1900 has none (a full century not divisible by 400).
    #[test]
    fn a_day_of_digits_is_read_here() {
        for (text, day) in [
            ("2026-12-01", Some("2026-12-01")),
            ("2024-02-29", Some("2024-02-29")),
            ("0000-01-01", Some("0000-01-01")),
            ("1900-02-29", None),
            ("2026-13-01", None),
            ("2026-12-00", None),
            ("2026-1-01", None),
            ("+2026-12-01", None),
            ("2026/12/01", None),
            ("２026-12-1", None),
        ] {
            assert_eq!(plain_date(text).map(|day| day.to_string()).as_deref(), day, "{text}");
        }
    }

    proptest! {
        /// Where the short way has an answer, it is the library's.
        #[test]
        fn a_date_is_read_as_by_the_library(text in "[+-]?[0-9]{4}[-/]?[0-3][0-9]-?[0-3][0-9a ]?") {
            let plain = plain_date(&text);
            prop_assert!(plain.is_none() || plain == any_date(&text), "{text}");
        }

        /// A text goes without the spaces around it, of all kinds that there are.
        #[test]
        fn a_text_loses_the_spaces_around_it(text in r"[ \t\u{a0}\u{2003}\u{b}]{0,2}[a-z°]{0,3}[ \u{b}\u{3000}]{0,2}") {
            prop_assert_eq!(trimmed(&text), text.trim());
        }
    }
}
