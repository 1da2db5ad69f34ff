//! Quantities, ranges and stated values on the wire.
//!
//! A quantity is `{"value": 350, "unit": "in/min"}` or the same as text, `"350 in/min"`. A range is
//! `{"min": 180, "max": 300, "unit": "A"}`, with one end left out where it is open, or
//! `"180 to 300 A"`. A bare number is refused with the right form.

use rust_decimal::Decimal;
use serde::Serialize;
use serde_json::{Number, Value, json};
use utoipa::ToSchema;

use super::{Errors, FromWire, Members, Node, NumberOut, Place, ToWire};
use crate::{
    check::Shown,
    quantity::{
        Amount, AmountRange, Kind, KindInfo, Quantity, QuantityError, Range, Rounding, Span,
        UnitSystem,
    },
};

/// The caller's choice of units; `None` keeps everything as typed.
pub type Units = Option<UnitSystem>;

/// A number with its unit.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, ToSchema)]
pub struct AmountOut {
    /// The number, with the digits that were typed or that a computation deserves.
    #[schema(value_type = f64, example = 240)]
    pub value: NumberOut,
    /// The unit.
    #[schema(example = "A")]
    pub unit: &'static str,
}

/// A range with its unit; an end that is left out is open.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct RangeOut {
    /// Lowest value, included.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(value_type = Option<f64>, example = 180)]
    pub min: Option<NumberOut>,
    /// Highest value, included.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(value_type = Option<f64>, example = 300)]
    pub max: Option<NumberOut>,
    /// The unit of both ends.
    #[schema(example = "A")]
    pub unit: &'static str,
}

/// A value or a limit as a finding shows it.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(untagged)]
pub enum ShownOut {
    /// One amount.
    Amount(AmountOut),
    /// A range.
    Range(RangeOut),
    /// Ranges with gaps between them, from low to high.
    Ranges(Vec<RangeOut>),
    /// Words and codes.
    Words(Vec<String>),
    /// Money.
    Money(super::MoneyOut),
}

impl AmountOut {
    /// An amount in the caller's units.
    #[must_use]
    pub fn new(amount: Amount, units: Units) -> Self {
        Self::rounded(amount, units, Rounding::Nearest)
    }

    /// The same, rounded one way where it has to be rounded.
    #[must_use]
    pub fn rounded(amount: Amount, units: Units, rounding: Rounding) -> Self {
        let unit = amount.written_unit(units);
        Self { value: amount.digits_in(unit, rounding).into(), unit: unit.symbol }
    }

    /// A number of things.
    #[must_use]
    pub fn count(number: u32) -> Self {
        Self { value: i64::from(number).into(), unit: "1" }
    }
}

impl RangeOut {
    /// A range in the caller's units; both ends in the unit of the first.
    #[must_use]
    pub fn new(range: &AmountRange, units: Units) -> Option<Self> {
        Self::rounded(range, units, (Rounding::Nearest, Rounding::Nearest))
    }

    /// A permission in the caller's units, rounded inward where it has to be rounded.
    #[must_use]
    pub fn inward(range: &AmountRange, units: Units) -> Option<Self> {
        Self::rounded(range, units, (Rounding::Up, Rounding::Down))
    }

    /// Bounds of a value in the caller's units, rounded outward where they have to be rounded.
    #[must_use]
    pub fn outward(range: &AmountRange, units: Units) -> Option<Self> {
        Self::rounded(range, units, (Rounding::Down, Rounding::Up))
    }

    /// The same, each end rounded one way where it has to be rounded.
    #[must_use]
    pub fn rounded(
        range: &AmountRange,
        units: Units,
        (lower, upper): (Rounding, Rounding),
    ) -> Option<Self> {
        let first = range.min.or(range.max)?;
        let unit = first.written_unit(units);
        let end = |amount: Amount, rounding| amount.digits_in(unit, rounding).into();
        Some(Self {
            min: range.min.map(|min| end(min, lower)),
            max: range.max.map(|max| end(max, upper)),
            unit: unit.symbol,
        })
    }
}

impl ShownOut {
    /// A shown value in the caller's units.
    #[must_use]
    pub fn new(shown: Shown, units: Units) -> Option<Self> {
        match shown {
            Shown::Nothing => None,
            Shown::Words(words) => Some(Self::Words(words)),
            Shown::Amount(amount) => Some(Self::Amount(AmountOut::new(amount, units))),
            Shown::Range(range) => RangeOut::new(&range, units).map(Self::Range),
        }
    }
}

/// A JSON number as a decimal, exactly as written.
pub(super) fn decimal(number: &Number) -> Option<Decimal> {
    let text = number.to_string();
    if text.contains(['e', 'E']) { Decimal::from_scientific(&text).ok() } else { text.parse().ok() }
}

impl<K: Kind> FromWire for Quantity<K> {
    #[inline]
    fn from_wire(value: &Node<'_>, at: Place<'_>, errors: &mut Errors) -> Option<Self> {
        let plain = value.as_str().and_then(Self::plainly);
        plain.or_else(|| amount(K::INFO, value, at, errors)?.of_kind())
    }
}

/// A quantity of a kind known at run time: one reader for all kinds, not one for each.
fn amount(
    kind: &'static KindInfo,
    value: &Node<'_>,
    at: Place<'_>,
    errors: &mut Errors,
) -> Option<Amount> {
    match value {
        Node::Text(text) => from_text(kind, text, at, errors),
        Node::Number(number) => {
            errors.note(at, Amount::missing_unit(kind, &number.to_string()).to_string())
        }
        Node::Object(members) => {
            known_members(members, &["value", "unit"], at, errors)?;
            let unit = unit_of(kind, members, at, errors)?;
            number_in(kind, (members, "value"), unit, at, errors)
        }
        other => errors.note(at, format!("expected a {}, found {}", kind.name, other.kind())),
    }
}

fn from_text(
    kind: &'static KindInfo,
    text: &str,
    at: Place<'_>,
    errors: &mut Errors,
) -> Option<Amount> {
    Amount::read(kind, text).map_or_else(|error| errors.note(at, error.to_string()), Some)
}

/// Refuses members that a quantity does not have.
pub(super) fn known_members(
    members: &Members<'_>,
    known: &[&str],
    at: Place<'_>,
    errors: &mut Errors,
) -> Option<()> {
    let unknown: Vec<_> = members.names().filter(|name| !known.contains(name)).collect();
    for name in &unknown {
        let detail = format!("no such field; known are {}", known.join(", "));
        errors.note::<()>(Place::Member(&at, name), detail);
    }
    unknown.is_empty().then_some(())
}

pub(super) fn unit_of<'v>(
    kind: &KindInfo,
    members: &'v Members<'_>,
    at: Place<'_>,
    errors: &mut Errors,
) -> Option<&'v str> {
    members.get("unit").and_then(Node::as_str).or_else(|| {
        let unit = kind.answer_unit(UnitSystem::Metric).symbol;
        errors.note(
            Place::Member(&at, "unit"),
            format!("a {} needs its unit, such as \"{unit}\"", kind.name),
        )
    })
}

/// The number of a member in the unit beside it; each error stands at the one that is wrong.
pub(super) fn number_in(
    kind: &'static KindInfo,
    (members, name): (&Members<'_>, &str),
    unit: &str,
    object: Place<'_>,
    errors: &mut Errors,
) -> Option<Amount> {
    let at = Place::Member(&object, name);
    let number = match members.get(name) {
        Some(Node::Number(number)) => decimal(number),
        Some(other) => {
            return errors.note(at, format!("expected a number, found {}", other.kind()));
        }
        None => return errors.note(at, "this field is required"),
    };
    let Some(number) = number else { return errors.note(at, "this number has too many digits") };
    Amount::entered(kind, number, unit).map_or_else(
        |error| {
            let unit_is_wrong = matches!(error, QuantityError::UnknownUnit { .. });
            let at = if unit_is_wrong { Place::Member(&object, "unit") } else { at };
            errors.note(at, error.to_string())
        },
        Some,
    )
}

/// One end of a range: a number in the common unit, or a quantity of its own.
pub(super) fn end(
    kind: &'static KindInfo,
    members: &Members<'_>,
    name: &str,
    at: Place<'_>,
    errors: &mut Errors,
) -> Result<Option<Amount>, ()> {
    let here = Place::Member(&at, name);
    let read = match members.get(name) {
        None | Some(Node::Null) => return Ok(None),
        Some(Node::Number(_)) => match unit_of(kind, members, at, errors) {
            Some(unit) => number_in(kind, (members, name), unit, at, errors),
            None => None,
        },
        Some(value) => amount(kind, value, here, errors),
    };
    read.map(Some).ok_or(())
}

/// Both ends as read; a single value stands for both.
type Ends<Q> = (Option<Q>, Option<Q>);

/// Reads the ends of a range or interval from its object or text form.
pub(super) fn ends<K: Kind>(
    value: &Node<'_>,
    at: Place<'_>,
    errors: &mut Errors,
) -> Option<Ends<Quantity<K>>> {
    let (low, high) = amounts(K::INFO, value, at, errors)?;
    Some((low.and_then(Amount::of_kind), high.and_then(Amount::of_kind)))
}

fn amounts(
    kind: &'static KindInfo,
    value: &Node<'_>,
    at: Place<'_>,
    errors: &mut Errors,
) -> Option<Ends<Amount>> {
    match value {
        Node::Object(members) if members.contains("min") || members.contains("max") => {
            known_members(members, &["min", "max", "unit"], at, errors)?;
            let min = end(kind, members, "min", at, errors);
            let max = end(kind, members, "max", at, errors);
            Some((min.ok()?, max.ok()?))
        }
        Node::Text(text) => match halves(text) {
            Some(halves) => text_ends(kind, halves, at, errors),
            None => from_text(kind, text, at, errors).map(|one| (Some(one), Some(one))),
        },
        value => amount(kind, value, at, errors).map(|one| (Some(one), Some(one))),
    }
}

/// What stands on both sides of the first `to`.
fn halves(text: &str) -> Option<(&str, &str)> {
    // Most texts are one value; a search built for long texts costs more than this look.
    let at = text.as_bytes().windows(TO.len()).position(|part| part == TO)?;
    Some((&text[..at], &text[at + TO.len()..]))
}

/// Between the ends of a range.
const TO: &[u8] = b" to ";

/// `180 to 300 A`, `3/4 to 1 in`, `180 A to 300 A`.
fn text_ends(
    kind: &'static KindInfo,
    (low, high): (&str, &str),
    at: Place<'_>,
    errors: &mut Errors,
) -> Option<Ends<Amount>> {
    let unit_start =
        high.find(|c: char| c.is_alphabetic() || c == '°' || c == '%').unwrap_or(high.len());
    let unit = &high[unit_start..];
    let low = if low.ends_with(unit) { low.to_owned() } else { format!("{low} {unit}") };
    let low = from_text(kind, &low, at, errors);
    let high = from_text(kind, high, at, errors);
    Some((Some(low?), Some(high?)))
}

impl<K: Kind> FromWire for Range<K> {
    fn from_wire(value: &Node<'_>, at: Place<'_>, errors: &mut Errors) -> Option<Self> {
        let (min, max) = ends(value, at, errors)?;
        Self::new(min, max).map_or_else(|error| errors.note(at, error.to_string()), Some)
    }
}

impl<K: Kind> FromWire for Span<K> {
    #[inline]
    fn from_wire(value: &Node<'_>, at: Place<'_>, errors: &mut Errors) -> Option<Self> {
        let plain = value.as_str().and_then(Quantity::plainly).map(Self::one);
        plain.or_else(|| interval(value, at, errors))
    }
}

/// The forms that are rarer than one plain value.
#[inline(never)]
fn interval<K: Kind>(value: &Node<'_>, at: Place<'_>, errors: &mut Errors) -> Option<Span<K>> {
    let (Some(low), Some(high)) = ends(value, at, errors)? else {
        return errors.note(at, "a proposed interval needs both ends");
    };
    Span::new(low, high).map_or_else(|error| errors.note(at, error.to_string()), Some)
}

impl<K: Kind> ToWire for Quantity<K> {
    fn to_wire(&self) -> Value {
        let out = AmountOut::new(self.amount(), None);
        json!({"value": out.value, "unit": out.unit})
    }
}

impl<K: Kind> ToWire for Span<K> {
    fn to_wire(&self) -> Value {
        match self.single() {
            Some(one) => one.to_wire(),
            None => RangeOut::new(&self.amounts(), None).map_or(Value::Null, |out| json!(out)),
        }
    }
}

impl<K: Kind> ToWire for Range<K> {
    fn to_wire(&self) -> Value {
        let unit = |q: Option<Quantity<K>>| q.map(|q| q.amount().written_unit(None));
        if let (Some(min), Some(max)) = (unit(self.min()), unit(self.max()))
            && min != max
        {
            return json!({
                "min": self.min().map(|q| q.to_wire()),
                "max": self.max().map(|q| q.to_wire()),
            });
        }
        RangeOut::new(&self.amounts(), None).map_or(Value::Null, |out| json!(out))
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;
    use serde_json::json;

    use super::*;
    use crate::{
        quantity::{
            CurrentKind, Diameter, DiameterKind, ElectricalStickOutKind, Entered, TemperatureKind,
        },
        wire,
    };

    proptest! {
        /// The reader of every form is the reference of the quick one, for values and for refusals.
        #[test]
        fn a_text_is_read_or_refused_the_same_in_either_way(
            text in r"[ +-]?[0-9]{0,4}(\.[0-9]{0,3})?(/[0-9]{1,3}|e-?1)?[ \u{a0}]{0,2}(in|inch|mm|\[in_i\]|ft|m|°F|A|1|-|)[ .°]?",
        ) {
            let (node, mut quick, mut long) =
                (Node::Text(text.as_str().into()), Errors::default(), Errors::default());
            let told = |read: Diameter| {
                let entered = read.as_entered();
                let digits = |Entered { number, unit }| (number, number.scale(), unit.symbol);
                (read.canonical().to_bits(), entered.map(digits))
            };
            let read = Diameter::from_wire(&node, Place::Root, &mut quick).map(told);
            let expected = amount(DiameterKind::INFO, &node, Place::Root, &mut long);
            prop_assert_eq!(read, expected.and_then(Amount::of_kind).map(told));
            prop_assert_eq!(format!("{quick:?}"), format!("{long:?}"));
        }
    }

    fn range<K: Kind>(value: &Value) -> Range<K> {
        wire::read(value).unwrap()
    }

    #[test]
    fn a_range_is_an_object_or_a_text() {
        let object = range::<CurrentKind>(&json!({"min": 180, "max": 300, "unit": "A"}));
        assert_eq!(object, range(&json!("180 to 300 A")));
        assert_eq!(object, range(&json!("180 A to 300 A")));
        assert_eq!(object.to_wire(), json!({"min": 180, "max": 300, "unit": "A"}));
    }

    #[test]
    fn fractions_and_open_ends() {
        let eso = range::<ElectricalStickOutKind>(&json!("3/4 to 1 in"));
        assert_eq!(eso.to_wire(), json!({"min": 0.75, "max": 1, "unit": "in"}));
        let preheat = range::<TemperatureKind>(&json!({"min": 50, "unit": "°F"}));
        assert_eq!(preheat.to_wire(), json!({"min": 50, "unit": "°F"}));
    }

    #[test]
    fn ends_typed_in_two_units_stay_as_typed() {
        let eso = json!({"min": "15 mm", "max": "3/4 in"});
        let written = range::<ElectricalStickOutKind>(&eso).to_wire();
        assert_eq!(written["max"], json!({"value": 0.75, "unit": "in"}));
        assert_eq!(range::<ElectricalStickOutKind>(&written).to_wire(), written);
    }

    #[test]
    fn a_range_without_a_unit_is_refused_at_the_unit() {
        let problem = wire::read::<Range<CurrentKind>>(&json!({"min": 1, "max": 2})).unwrap_err();
        assert!(format!("{problem:?}").contains("/unit"), "{problem:?}");
    }

    #[test]
    fn an_open_interval_is_no_proposal() {
        assert!(wire::read::<Span<CurrentKind>>(&json!({"max": 240, "unit": "A"})).is_err());
    }
}
