//! Stated values of a setup: one value or an interval, where it comes from, how accurate it is.

use serde_json::{Value, json};
use utoipa::openapi::{
    ObjectBuilder, RefOr, Schema,
    schema::{AnyOfBuilder, Type},
};

use super::{
    Definitions, Errors, FromWire, Members, Node, Place, ToWire, WireSchema, define, member,
    quantities, schema::schema_name,
};
use crate::{
    check::{Accuracy, Given, Origin},
    quantity::{Kind, Quantity, Span},
    trade::Coded,
};

/// A stated value as sent: `"240 A"`, `{"value": 240, "unit": "A"}`, `{"min": 200, "max": 240,
/// "unit": "A"}`, each object with `origin` and, for a measured value, `accuracy` or `instrument`.
#[derive(Debug, Clone, PartialEq)]
pub struct Stated<K: Kind> {
    /// The value with what the caller says of its accuracy.
    pub given: Given<K>,
    /// Code of the station's instrument that read it.
    pub instrument: Option<String>,
    /// The accuracy as sent: evidence shows what the caller stated.
    sent_accuracy: Option<Value>,
}

impl<K: Kind> FromWire for Stated<K> {
    fn from_wire(value: &Node<'_>, at: Place<'_>, errors: &mut Errors) -> Option<Self> {
        let Some(members) = value.as_object() else {
            let span = Span::from_wire(value, at, errors)?;
            return Some(Self { given: Given::set(span), instrument: None, sent_accuracy: None });
        };
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
        let given = Given { span: span?, origin: origin?, accuracy: accuracy? };
        let instrument = instrument?;
        if given.origin != Origin::Measured
            && (instrument.is_some() || given.accuracy != Accuracy::Unknown)
        {
            return errors.note(
                at,
                "only a value with \"origin\": \"measured\" has an accuracy or an instrument",
            );
        }
        Some(Self { given, instrument, sent_accuracy: members.get("accuracy").map(Node::to_value) })
    }
}

/// The value or interval in the object form, without its origin and accuracy.
fn span<K: Kind>(members: &Members<'_>, at: Place<'_>, errors: &mut Errors) -> Option<Span<K>> {
    let rest = members.without(&["origin", "accuracy", "instrument"]);
    Span::from_wire(&Node::Object(rest), at, errors)
}

/// Reads `{"of_reading": "2.5 %"}`, `{"of_full_scale": "1 %", "full_scale": "500 A"}` or
/// `{"absolute": "5 A"}`; the figures are expanded uncertainties (k = 2).
pub(crate) fn accuracy<K: Kind>(
    value: &Node<'_>,
    at: Place<'_>,
    errors: &mut Errors,
) -> Option<Accuracy<K>> {
    let form = "expected {\"of_reading\": \"2.5 %\"}, {\"of_full_scale\": \"1 %\", \"full_scale\": …} or {\"absolute\": …}";
    let Some(members) = value.as_object() else {
        return errors.note(at, format!("{form}, found {}", value.kind()));
    };
    let mut names: Vec<_> = members.names().collect();
    names.sort_unstable();
    match names.as_slice() {
        ["of_reading"] => member(members, "of_reading", at, errors).map(Accuracy::OfReading),
        ["full_scale", "of_full_scale"] => {
            let share = member(members, "of_full_scale", at, errors);
            let full_scale = member(members, "full_scale", at, errors);
            Some(Accuracy::OfFullScale { share: share?, full_scale: full_scale? })
        }
        ["absolute"] => {
            let place = Place::Member(&at, "absolute");
            let Some(text) = members.get("absolute").and_then(Node::as_str) else {
                return errors.note(place, "expected a text such as \"5 A\"");
            };
            Quantity::difference(text).map_or_else(
                |error| errors.note(place, error.to_string()),
                |q| Some(Accuracy::Absolute(q)),
            )
        }
        _ => errors.note(at, form),
    }
}

impl<K: Kind> ToWire for Stated<K> {
    fn to_wire(&self) -> Value {
        let mut value = self.given.span.to_wire();
        if self.given.origin != Origin::Set {
            value["origin"] = json!(self.given.origin.code());
        }
        if let Some(accuracy) = accuracy_out(&self.given.accuracy) {
            value["accuracy"] = accuracy;
        }
        if let Some(instrument) = &self.instrument {
            value["instrument"] = json!(instrument);
        }
        if let Some(accuracy) = &self.sent_accuracy {
            value["accuracy"] = accuracy.clone();
        }
        value
    }
}

/// As [`accuracy`] reads it; `None` where it is unknown.
fn accuracy_out<K: Kind>(accuracy: &Accuracy<K>) -> Option<Value> {
    match accuracy {
        Accuracy::Unknown => None,
        Accuracy::OfReading(share) => Some(json!({ "of_reading": share.to_wire() })),
        Accuracy::OfFullScale { share, full_scale } => Some(json!({
            "of_full_scale": share.to_wire(),
            "full_scale": full_scale.to_wire(),
        })),
        // A difference is in the canonical unit, without the zero of another.
        Accuracy::Absolute(amount) => Some(
            json!({ "absolute": format!("{} {}", amount.canonical(), K::INFO.units[0].symbol) }),
        ),
    }
}

impl<K: Kind> WireSchema for Stated<K> {
    fn reference(into: &mut Definitions) -> RefOr<Schema> {
        let origin = super::schema::coded::<Origin>(into);
        let range = <crate::quantity::Range<K> as WireSchema>::reference(into);
        let accuracy = ObjectBuilder::new().schema_type(Type::Object).description(Some(
            "Expanded uncertainty (k = 2): {\"of_reading\": \"2.5 %\"}, {\"of_full_scale\": \"1 %\", \"full_scale\": …} or {\"absolute\": …}.",
        ));
        let stated = quantities::ends_object::<K>()
            .property("value", ObjectBuilder::new().schema_type(Type::Number))
            .property("origin", origin)
            .property("accuracy", accuracy)
            .property("instrument", ObjectBuilder::new().schema_type(Type::String));
        let schema = AnyOfBuilder::new()
            .description(Some(format!(
                "A stated {}: one value or an interval, with its origin.",
                K::INFO.name
            )))
            .item(range)
            .item(stated);
        let name = format!("{}Stated", schema_name(K::INFO.name));
        define(into, name, Schema::AnyOf(schema.build()).into())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::TemperatureKind;

    /// What is kept as evidence has to judge as what was sent did.
    #[test]
    fn a_stated_value_comes_back_with_its_accuracy() {
        for accuracy in [
            json!({ "of_reading": "2.5 %" }),
            json!({ "of_full_scale": "1 %", "full_scale": "500 °C" }),
            json!({ "absolute": "9 °F" }),
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
}
