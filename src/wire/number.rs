//! Decimal numbers as sent.

use std::fmt;

use rust_decimal::Decimal;
use serde::{Serialize, Serializer};
use serde_json::Number;

use super::ready::READY;
use crate::quantity::{Digits, MOST_BYTES, short_double};

/// A number with the digits that it was typed with or that a computation deserves.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct NumberOut(Digits);

impl From<Digits> for NumberOut {
    fn from(digits: Digits) -> Self {
        Self(digits)
    }
}

impl From<Decimal> for NumberOut {
    fn from(number: Decimal) -> Self {
        Self(number.into())
    }
}

impl From<i64> for NumberOut {
    fn from(number: i64) -> Self {
        Decimal::from(number).into()
    }
}

impl fmt::Display for NumberOut {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.fmt(f)
    }
}

impl Serialize for NumberOut {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_newtype_struct(READY, &Written(self.0))
    }
}

/// A number as text where JSON is written here, as a number everywhere else.
struct Written(Digits);

impl Serialize for Written {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        if serializer.is_human_readable() {
            return json_number(self.0.decimal()).serialize(serializer);
        }
        serializer.serialize_bytes(&self.0.text(&mut [0; MOST_BYTES]))
    }
}

/// A decimal without zeros at its end as a JSON number.
fn json_number(number: Decimal) -> Number {
    if number.scale() == 0
        && let Ok(whole) = i64::try_from(number.mantissa())
    {
        return Number::from(whole);
    }
    let short = short_double(number).and_then(Number::from_f64);
    short.or_else(|| serde_json::from_str(&number.to_string()).ok()).unwrap_or_else(|| 0.into())
}

#[cfg(test)]
mod tests {
    use serde_json::Value;

    use super::*;
    use crate::wire::write_json;

    #[test]
    fn a_number_is_the_same_however_it_is_written() {
        for text in [
            "0",
            "240",
            "-10",
            "0.75",
            "19.050",
            "-0.0001",
            "1200.0",
            "0.00000000123",
            "123456789012345678.9",
            "10000000000000000000.0",
            "100000000000000000000",
            "79228162514264337593543950335",
        ] {
            let number = NumberOut::from(text.parse::<Decimal>().unwrap());
            let mut written = Vec::new();
            write_json(&number, &mut written).unwrap();
            let read: Value = serde_json::from_slice(&written).unwrap();
            let value = serde_json::to_value(number).unwrap();
            assert_eq!(read.as_f64(), value.as_f64(), "{text}");
            assert_eq!(read.as_f64(), text.parse().ok(), "{text}");
            assert_eq!(read.is_i64(), value.is_i64(), "{text}");
        }
    }
}
