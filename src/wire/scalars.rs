//! Texts, numbers, dates, lists and things that may be missing.

use serde_json::Value;
use time::{
    Date, OffsetDateTime, format_description::well_known::Rfc3339, macros::format_description,
};
use uuid::Uuid;

use super::{Errors, FromWire, Node, Place, ToWire};
use crate::trade::MetalGroup;

/// Longest text of a field.
const LONGEST_TEXT: usize = 4000;

/// Most items of a list.
const LONGEST_LIST: usize = 1000;

impl FromWire for String {
    fn from_wire(value: &Node<'_>, at: Place<'_>, errors: &mut Errors) -> Option<Self> {
        let Some(text) = value.as_str() else {
            return errors.note(at, format!("expected a text, found {}", value.kind()));
        };
        let trimmed = text.trim();
        if trimmed.is_empty() {
            return errors.note(at, "the text is empty");
        }
        if text.len() > LONGEST_TEXT || text.contains('\0') {
            return errors.note(at, format!("a text has at most {LONGEST_TEXT} bytes and no NUL"));
        }
        Some(trimmed.to_owned())
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
        let format = format_description!("[year]-[month]-[day]");
        let date = value.as_str().and_then(|text| Self::parse(text, format).ok());
        date.or_else(|| errors.note(at, "expected a date as year-month-day, such as 2026-11-25"))
    }
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
        let text = String::from_wire(value, at, errors)?;
        text.parse().map_or_else(
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
        let read: Vec<_> = items
            .iter()
            .enumerate()
            .map(|(index, item)| T::from_wire(item, Place::Item(&at, index), errors))
            .collect();
        read.into_iter().collect()
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
