//! Readings of a qualification test: the value the record states, the span it moved in, the instrument.

use serde_json::{Value, json};
use utoipa::openapi::{
    ObjectBuilder, RefOr, Schema,
    schema::{AnyOfBuilder, Type},
};

use super::{
    AmountOut, Definitions, Errors, FromWire, Node, Place, ToWire, WireSchema, define, quantities,
    quantity_schema, schema::schema_name,
};
use crate::{
    qualify::record::Measured,
    quantity::{Amount, Kind, Quantity, Span},
};

/// `"240 A"`, or `{"value": 240, "min": 232, "max": 249, "unit": "A", "instrument": "A-101"}`.
impl<K: Kind> FromWire for Measured<K> {
    fn from_wire(value: &Node<'_>, at: Place<'_>, errors: &mut Errors) -> Option<Self> {
        let Some(members) = value.as_object() else {
            return Quantity::from_wire(value, at, errors).map(Self::of);
        };
        let known = ["value", "min", "max", "unit", "instrument"];
        quantities::known_members(members, &known, at, errors)?;
        let unit = quantities::unit_of(K::INFO, members, at, errors)?;
        let stated = quantities::number_in(K::INFO, (members, "value"), unit, at, errors);
        let low = quantities::end(K::INFO, members, "min", at, errors);
        let high = quantities::end(K::INFO, members, "max", at, errors);
        let instrument = match members.get("instrument") {
            Some(code) => {
                String::from_wire(code, Place::Member(&at, "instrument"), errors).map(Some)
            }
            None => Some(None),
        };
        let (low, high) =
            (low.ok()?.and_then(Amount::of_kind), high.ok()?.and_then(Amount::of_kind));
        let stated: Quantity<K> = stated?.of_kind()?;
        let span = match (low, high) {
            (None, None) => None,
            (Some(low), Some(high)) => match Span::new(low, high) {
                Ok(span) if low.at_most(stated) && stated.at_most(high) => Some(span),
                Ok(_) => return errors.note(at, "the value lies between \"min\" and \"max\""),
                Err(error) => return errors.note(at, error.to_string()),
            },
            _ => return errors.note(at, "state the lowest and the highest reading, or neither"),
        };
        Some(Self { value: stated, span, instrument: instrument? })
    }
}

impl<K: Kind> ToWire for Measured<K> {
    fn to_wire(&self) -> Value {
        let mut out = self.value.to_wire();
        if let Some(span) = self.span {
            for (name, end) in [("min", span.low()), ("max", span.high())] {
                let end = AmountOut::new(end.amount(), None);
                let same = out["unit"] == end.unit;
                out[name] = if same { json!(end.value) } else { json!(end) };
            }
        }
        if let Some(instrument) = &self.instrument {
            out["instrument"] = json!(instrument);
        }
        out
    }
}

impl<K: Kind> WireSchema for Measured<K> {
    fn reference(into: &mut Definitions) -> RefOr<Schema> {
        let reading = || {
            let instrument = ObjectBuilder::new().schema_type(Type::String);
            quantity_schema::value_object::<K>().property("instrument", instrument)
        };
        let moved = ["min", "max"].into_iter().fold(reading(), |reading, name| {
            quantity_schema::end_property::<K>(reading, name, into).required(name)
        });
        let schema = AnyOfBuilder::new()
            .description(Some(format!(
                "A reading of the {}: the value the record states, and where it moved its lowest and \
                 highest; with the instrument's code.",
                K::INFO.name
            )))
            .item(<Quantity<K> as WireSchema>::reference(into))
            .item(reading())
            .item(moved);
        let name = format!("{}Reading", schema_name(K::INFO.name));
        define(into, name, Schema::AnyOf(schema.build()).into())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{quantity::CurrentKind, wire};

    fn read(value: &Value) -> Result<Measured<CurrentKind>, Vec<String>> {
        wire::read(value)
            .map_err(|problem| problem.errors().iter().map(|error| error.pointer.clone()).collect())
    }

    #[test]
    fn a_reading_comes_back_as_sent() {
        let sent =
            json!({ "value": 240, "unit": "A", "min": 232, "max": 249, "instrument": "A-101" });
        let reading = read(&sent).unwrap();
        assert_eq!(reading.to_wire(), sent);
        assert_eq!(read(&json!("240 A")).unwrap().to_wire(), json!({ "value": 240, "unit": "A" }));
    }

    #[test]
    fn a_span_without_its_value_is_no_reading() {
        let whole = String::new();
        for (wrong, place) in [
            (json!({ "min": 232, "max": 249, "unit": "A" }), "/value"),
            (json!({ "value": 240, "min": 232, "unit": "A" }), whole.as_str()),
            (json!({ "value": 260, "min": 232, "max": 249, "unit": "A" }), whole.as_str()),
            (json!({ "value": 240, "unit": "V" }), "/unit"),
            (json!({ "value": 240, "unit": "A", "meter": "A-1" }), "/meter"),
            (json!(240), whole.as_str()),
        ] {
            assert_eq!(read(&wrong).unwrap_err(), [place], "{wrong}");
        }
    }
}
