//! Stated values of a setup: one value or an interval, where it comes from, how accurate it is.

use serde_json::{Value, json};
use utoipa::openapi::{
    ObjectBuilder, RefOr, Schema,
    schema::{AnyOfBuilder, Type},
};

use super::{
    Definitions, Errors, FromWire, Members, Node, Place, ToWire, WireSchema, define, member,
    quantity_schema, schema::schema_name,
};
use crate::{
    check::{Accuracy, Given, Origin},
    quantity::{Kind, Quantity, Span},
    trade::{Coded, ErrorModel, ErrorSize},
};

/// A stated value as sent: `"240 A"`, `{"value": 240, "unit": "A"}`, `{"min": 200, "max": 240,
/// "unit": "A"}`, each object with `origin` and, for a measured value, `accuracy` or `instrument`.
#[derive(Debug, Clone, PartialEq)]
pub struct Stated<K: Kind> {
    span: Span<K>,
    /// Of most values nothing else is said: they are set. What is rare stands apart, since a setup moves many.
    beside: Option<Box<Beside<K>>>,
}

/// What is said of a value that is not set.
#[derive(Debug, Clone, PartialEq)]
struct Beside<K: Kind> {
    origin: Origin,
    accuracy: Accuracy<K>,
    instrument: Option<String>,
    /// The accuracy as sent: evidence shows what the caller stated.
    sent_accuracy: Option<Value>,
}

impl<K: Kind> Stated<K> {
    /// The value, or all values between two.
    #[must_use]
    pub const fn span(&self) -> Span<K> {
        self.span
    }

    /// The value with what the caller says of its accuracy.
    #[must_use]
    pub fn given(&self) -> Given<K> {
        let set = Given::set(self.span);
        match self.beside.as_deref() {
            Some(Beside { origin, accuracy, .. }) => {
                Given { origin: *origin, accuracy: *accuracy, ..set }
            }
            None => set,
        }
    }

    /// Code of the station's instrument that read it.
    #[must_use]
    pub fn instrument(&self) -> Option<&str> {
        self.beside.as_ref()?.instrument.as_deref()
    }
}

impl<K: Kind> FromWire for Stated<K> {
    #[inline]
    fn from_wire(value: &Node<'_>, at: Place<'_>, errors: &mut Errors) -> Option<Self> {
        match value.as_object() {
            Some(members) => Self::of(members, at, errors),
            None => Some(Self { span: Span::from_wire(value, at, errors)?, beside: None }),
        }
    }
}

impl<K: Kind> Stated<K> {
    /// A value with what is said beside it.
    #[inline(never)]
    fn of(members: &Members<'_>, at: Place<'_>, errors: &mut Errors) -> Option<Self> {
        let span = span(members, at, errors);
        let origin = match members.get("origin") {
            Some(origin) => Origin::from_wire(origin, Place::Member(&at, "origin"), errors),
            None => Some(Origin::Set),
        };
        let accuracy = match members.get("accuracy") {
            Some(value) => accuracy(value, Place::Member(&at, "accuracy"), errors),
            None => Some(Accuracy::Unknown),
        };
        let instrument = match members.get("instrument") {
            Some(value) => {
                String::from_wire(value, Place::Member(&at, "instrument"), errors).map(Some)
            }
            None => Some(None),
        };
        let (origin, accuracy, span, instrument) = (origin?, accuracy?, span?, instrument?);
        if origin != Origin::Measured && (instrument.is_some() || accuracy != Accuracy::Unknown) {
            return errors.note(
                at,
                "only a value with \"origin\": \"measured\" has an accuracy or an instrument",
            );
        }
        // What was kept before this was asked stays readable.
        if let Accuracy::Known(_, size) = accuracy
            && !size.scale_holds(span.high())
            && !errors.of_stored()
        {
            return errors.note(
                Place::Member(&at, "accuracy"),
                "the reading lies beyond the end of the scale, \"full_scale\"",
            );
        }
        let beside = (origin != Origin::Set).then(|| {
            let sent_accuracy = members.get("accuracy").map(Node::to_value);
            Box::new(Beside { origin, accuracy, instrument, sent_accuracy })
        });
        Some(Self { span, beside })
    }
}

/// The value or interval in the object form, without its origin and accuracy.
fn span<K: Kind>(members: &Members<'_>, at: Place<'_>, errors: &mut Errors) -> Option<Span<K>> {
    let rest = members.without(&["origin", "accuracy", "instrument"]);
    Span::from_wire(&Node::Object(rest), at, errors)
}

/// What an accuracy is sent as; said where it cannot be read.
pub(super) const ACCURACY_FORM: &str = "expected {\"of_reading\": \"2.5 %\"}, {\"of_full_scale\": \"1 %\", \"full_scale\": …} or \
     {\"absolute\": …}, with \"coverage_factor\" where it is not 2, or \"meaning\": \"maximum-permissible-error\" where the \
     figure is the largest error";

/// Reads [`ACCURACY_FORM`]. An expanded uncertainty at another coverage factor is converted to factor 2.
pub(crate) fn accuracy<K: Kind>(
    value: &Node<'_>,
    at: Place<'_>,
    errors: &mut Errors,
) -> Option<Accuracy<K>> {
    let Some(members) = value.as_object() else {
        return errors.note(at, format!("{ACCURACY_FORM}, found {}", value.kind()));
    };
    let model = match members.get("meaning") {
        Some(code) => ErrorModel::from_wire(code, Place::Member(&at, "meaning"), errors),
        None => Some(ErrorModel::Expanded),
    };
    let factor = coverage(members, at, errors);
    let size = error_size(&members.without(&["meaning", "coverage_factor"]), at, errors);
    let (model, factor, size) = (model?, factor?, size?);
    match (model, members.get("coverage_factor")) {
        (model, None) => Some(Accuracy::Known(model, size)),
        (ErrorModel::Expanded, Some(_)) => match size.times(2.0 / factor) {
            Ok(size) => Some(Accuracy::Known(model, size)),
            Err(error) => errors.note(at, error.to_string()),
        },
        (ErrorModel::Largest, Some(_)) => errors.note(
            Place::Member(&at, "coverage_factor"),
            "a largest error has no coverage factor; leave it out",
        ),
    }
}

/// The coverage factor: 2 where none is stated.
fn coverage(members: &Members<'_>, at: Place<'_>, errors: &mut Errors) -> Option<f64> {
    let Some(stated) = members.get("coverage_factor") else { return Some(2.0) };
    let number = match stated {
        Node::Number(number) => number.as_f64(),
        _ => None,
    };
    number.filter(|factor| (1.0..=4.0).contains(factor)).or_else(|| {
        errors.note(
            Place::Member(&at, "coverage_factor"),
            "expected a number from 1 to 4, such as 2 or 1.96",
        )
    })
}

fn error_size<K: Kind>(
    members: &Members<'_>,
    at: Place<'_>,
    errors: &mut Errors,
) -> Option<ErrorSize<K>> {
    let mut names: Vec<_> = members.names().collect();
    names.sort_unstable();
    match names.as_slice() {
        ["of_reading"] => member(members, "of_reading", at, errors).map(ErrorSize::OfReading),
        ["full_scale", "of_full_scale"] => {
            let share = member(members, "of_full_scale", at, errors);
            let full_scale = member(members, "full_scale", at, errors);
            Some(ErrorSize::OfFullScale { share: share?, full_scale: full_scale? })
        }
        ["absolute"] => {
            let place = Place::Member(&at, "absolute");
            let Some(text) = members.get("absolute").and_then(Node::as_str) else {
                return errors.note(place, "expected a text such as \"5 A\"");
            };
            Quantity::difference(text).map_or_else(
                |error| errors.note(place, error.to_string()),
                |q| Some(ErrorSize::Absolute(q)),
            )
        }
        _ => errors.note(at, ACCURACY_FORM),
    }
}

impl<K: Kind> ToWire for Stated<K> {
    fn to_wire(&self) -> Value {
        let mut value = self.span.to_wire();
        let Some(beside) = &self.beside else { return value };
        value["origin"] = json!(beside.origin.code());
        if let Some(instrument) = &beside.instrument {
            value["instrument"] = json!(instrument);
        }
        if let Some(accuracy) = &beside.sent_accuracy {
            value["accuracy"] = accuracy.clone();
        }
        value
    }
}

impl<K: Kind> WireSchema for Stated<K> {
    fn reference(into: &mut Definitions) -> RefOr<Schema> {
        let origin = super::schema::coded::<Origin>(into);
        let plain = <Span<K> as WireSchema>::reference(into);
        let accuracy = ObjectBuilder::new().schema_type(Type::Object).description(Some(
            "{\"of_reading\": \"2.5 %\"}, a share of the number as typed in its unit, {\"of_full_scale\": \"1 %\", \"full_scale\": …} or {\"absolute\": …}: an expanded uncertainty, at \
             \"coverage_factor\" 2 where that is left out; with \"meaning\": \"maximum-permissible-error\" the largest error.",
        )).build();
        let stated = |object: ObjectBuilder| {
            object
                .property("origin", origin.clone())
                .property("accuracy", accuracy.clone())
                .property("instrument", ObjectBuilder::new().schema_type(Type::String))
        };
        let [numbers, ends] = quantity_schema::ends_objects::<K>(&["min", "max"], into);
        let schema = AnyOfBuilder::new()
            .description(Some(format!(
                "A stated {}: one value or an interval, with its origin.",
                K::INFO.name
            )))
            .item(plain)
            .item(stated(quantity_schema::value_object::<K>()))
            .item(stated(numbers))
            .item(stated(ends));
        let name = format!("{}Stated", schema_name(K::INFO.name));
        define(into, name, Schema::AnyOf(schema.build()).into())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{CurrentKind, TemperatureKind};

    /// What is kept as evidence has to judge as what was sent did.
    #[test]
    fn a_stated_value_comes_back_with_its_accuracy() {
        for accuracy in [
            json!({ "of_reading": "2.5 %" }),
            json!({ "of_full_scale": "1 %", "full_scale": "500 °C" }),
            json!({ "absolute": "9 °F" }),
            json!({ "absolute": "9 °F", "coverage_factor": 3 }),
            json!({ "of_reading": "1 %", "meaning": "maximum-permissible-error" }),
        ] {
            let sent = json!({
                "value": 100, "unit": "°C", "origin": "measured", "accuracy": accuracy,
            });
            let mut errors = Errors::default();
            let mut read = |value: &Value| {
                Stated::<TemperatureKind>::from_wire(&value.into(), Place::Root, &mut errors)
                    .unwrap()
            };
            let first = read(&sent);
            assert_eq!(read(&first.to_wire()), first, "{accuracy}");
        }
    }

    /// 3 A at a coverage factor of 3 are 2 A at one of 2 (own arithmetic).
    #[test]
    fn another_coverage_factor_is_converted_and_a_largest_error_has_none() {
        let read = |accuracy: Value| {
            let mut errors = Errors::default();
            let read =
                super::accuracy::<CurrentKind>(&(&accuracy).into(), Place::Root, &mut errors);
            read.ok_or_else(|| errors.finish().unwrap_err().errors()[0].pointer.clone())
        };
        let figure = |accuracy: Accuracy<CurrentKind>| accuracy.at_reading(100.0).unwrap();
        let three = read(json!({ "absolute": "3 A", "coverage_factor": 3 })).unwrap();
        assert!((figure(three).expanded() - 2.0).abs() < 1e-12);
        let largest = json!({ "of_reading": "3 %", "meaning": "maximum-permissible-error" });
        let largest = figure(read(largest).unwrap());
        assert_eq!(largest.model, ErrorModel::Largest);
        assert!((largest.standard() - 3.0_f64.sqrt()).abs() < 1e-12);
        for (wrong, place) in [
            (json!({ "absolute": "3 A", "coverage_factor": 0.5 }), "/coverage_factor"),
            (json!({ "absolute": "3 A", "coverage_factor": "2" }), "/coverage_factor"),
            (json!({ "absolute": "3 A", "meaning": "typical" }), "/meaning"),
            (
                json!({ "absolute": "3 A", "meaning": "maximum-permissible-error", "coverage_factor": 2 }),
                "/coverage_factor",
            ),
        ] {
            assert_eq!(read(wrong.clone()).unwrap_err(), place, "{wrong}");
        }
    }
}
