//! Values of a setup as somebody states them: set, measured or nominal, with their accuracy.

use crate::{
    quantity::{Kind, Quantity, Range, Span, compare},
    trade::{Accuracy, coded},
};

coded! {
    /// Where a stated value comes from.
    pub enum Origin: "origin" {
        /// Dialled or planned.
        Set = "set",
        /// Read off an instrument.
        Measured = "measured",
        /// Printed on the wire, plate or drawing.
        Nominal = "nominal",
    }
}

/// One stated value or interval.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Given<K: Kind> {
    /// The value, or all values between two.
    pub span: Span<K>,
    /// Where it comes from.
    pub origin: Origin,
    /// Accuracy of a measured value; without meaning for others.
    pub accuracy: Accuracy<K>,
}

/// How a stated value lies to one limit (JCGM 106, ISO 14253-1).
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Place {
    /// Inside, and no error of the instrument could put it outside.
    Inside,
    /// Shown inside; the instrument's error could put it outside.
    EdgeInside,
    /// Shown outside; the instrument's error could put it inside.
    EdgeOutside,
    /// Outside.
    Outside,
}

impl<K: Kind> Given<K> {
    /// A value that was dialled or planned.
    #[must_use]
    pub const fn set(span: Span<K>) -> Self {
        Self { span, origin: Origin::Set, accuracy: Accuracy::Unknown }
    }

    /// Whether this was measured with an accuracy nobody knows.
    #[must_use]
    pub fn accuracy_unknown(&self) -> bool {
        self.origin == Origin::Measured && self.accuracy == Accuracy::Unknown
    }

    /// Expanded uncertainty of the value in canonical units: zero for values that are set or
    /// nominal, `None` where a measured value's accuracy is unknown.
    pub(crate) fn uncertainty(&self) -> Option<f64> {
        if self.origin != Origin::Measured {
            return Some(0.0);
        }
        let (low, high) = (self.span.low().canonical(), self.span.high().canonical());
        self.accuracy.at_reading(low.abs().max(high.abs()))
    }

    /// How the value lies to a range.
    #[must_use]
    pub fn place(&self, range: &Range<K>) -> Place {
        let ends = (range.min().map(Quantity::canonical), range.max().map(Quantity::canonical));
        let values = (self.span.low().canonical(), self.span.high().canonical());
        place(values, ends, self.uncertainty().unwrap_or(0.0), K::INFO.tolerance_floor)
    }
}

/// Where values lie; not generic, so that the code of every check is the same.
fn place(
    (low, high): (f64, f64),
    (min, max): (Option<f64>, Option<f64>),
    error: f64,
    floor: f64,
) -> Place {
    let holds_with = |error: f64| {
        min.is_none_or(|min| compare(low - error, min, floor).is_ge())
            && max.is_none_or(|max| compare(high + error, max, floor).is_le())
    };
    match holds_with(0.0) {
        true if error == 0.0 || holds_with(error) => Place::Inside,
        true => Place::EdgeInside,
        false if error > 0.0 && holds_with(-error) => Place::EdgeOutside,
        false => Place::Outside,
    }
}

#[cfg(test)]
mod tests {
    use rust_decimal::Decimal;

    use super::*;
    use crate::quantity::{Current, CurrentKind, TemperatureKind};

    fn amperes(text: &str) -> Current {
        text.parse().unwrap()
    }

    fn measured(value: &str, accuracy: Accuracy<CurrentKind>) -> Given<CurrentKind> {
        Given { span: Span::one(amperes(value)), origin: Origin::Measured, accuracy }
    }

    /// Band 234 to 286 A, measured 281 A, expanded uncertainty 7.0 A: the guarded upper limit is
    /// 279.0 A, so 281 lies in the guard band (JCGM 106 terms; own arithmetic).
    #[test]
    fn the_guard_band_lies_inside_the_limit_and_outside_it() {
        let band = Range::new(Some(amperes("234 A")), Some(amperes("286 A"))).unwrap();
        let seven = Accuracy::Absolute(amperes("7 A"));
        assert_eq!(measured("279 A", seven).place(&band), Place::Inside);
        assert_eq!(measured("281 A", seven).place(&band), Place::EdgeInside);
        assert_eq!(measured("286 A", seven).place(&band), Place::EdgeInside);
        assert_eq!(measured("290 A", seven).place(&band), Place::EdgeOutside);
        assert_eq!(measured("293.1 A", seven).place(&band), Place::Outside);
    }

    /// A difference of 9 °F is one of 5 K (own arithmetic by the factor 5/9).
    #[test]
    fn an_absolute_accuracy_is_a_difference() {
        let five = |number: i64, unit| {
            let accuracy = Accuracy::<TemperatureKind>::absolute(Decimal::from(number), unit);
            let Ok(Accuracy::Absolute(amount)) = accuracy else { panic!("{accuracy:?}") };
            (amount.canonical() - 5.0).abs() < 1e-12
        };
        assert!(five(9, "°F") && five(5, "K") && five(5, "°C") && five(-5, "Cel"));
        assert!(Accuracy::<TemperatureKind>::absolute(Decimal::ONE, "A").is_err());
        assert!(Accuracy::<CurrentKind>::absolute(Decimal::new(5, 1), "A").is_ok());
    }

    #[test]
    fn a_set_value_has_no_guard_band() {
        let band = Range::at_most(amperes("286 A"));
        assert_eq!(Given::set(Span::one(amperes("286 A"))).place(&band), Place::Inside);
        assert_eq!(Given::set(Span::one(amperes("286.1 A"))).place(&band), Place::Outside);
    }

    #[test]
    fn full_scale_accuracy_is_the_same_everywhere_on_the_scale() {
        let band = Range::at_most(amperes("286 A"));
        let accuracy =
            Accuracy::OfFullScale { share: "2.5 %".parse().unwrap(), full_scale: amperes("400 A") };
        assert_eq!(measured("276 A", accuracy).place(&band), Place::Inside);
        assert_eq!(measured("276.5 A", accuracy).place(&band), Place::EdgeInside);
    }
}
