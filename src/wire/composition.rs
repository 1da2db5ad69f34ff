//! Chemical compositions on the wire.

use serde_json::{Value, json};
use utoipa::openapi::{
    ObjectBuilder, RefOr, Schema,
    schema::{AdditionalProperties, AnyOfBuilder},
};

use super::{Definitions, Errors, FromWire, Members, Node, Place, ToWire, WireSchema, define};
use crate::{
    quantity::MassPercent,
    trade::{Coded, Composition, Content, Element},
};

/// `{"C": "0.16 %", "Mn": {"is": "1.4 %"}, "Cr": {"at_most": "0.05 %"}}`; an element that is left out
/// is unknown.
impl FromWire for Composition {
    fn from_wire(value: &Node<'_>, at: Place<'_>, errors: &mut Errors) -> Option<Self> {
        let Some(members) = value.as_object() else {
            let found = value.kind();
            let form = "{\"C\": \"0.16 %\", \"Cr\": {\"at_most\": \"0.05 %\"}}";
            return errors.note(at, format!("expected elements such as {form}, found {found}"));
        };
        if members.is_empty() {
            return errors.note(at, "a composition states at least one element");
        }
        let read: Vec<_> = members
            .iter()
            .map(|(symbol, value)| element(symbol, value, Place::Member(&at, symbol), errors))
            .collect();
        let contents: Vec<_> = read.into_iter().collect::<Option<_>>()?;
        Self::new(contents).map_or_else(|error| errors.note(at, error.to_string()), Some)
    }
}

fn element(
    symbol: &str,
    value: &Node<'_>,
    at: Place<'_>,
    errors: &mut Errors,
) -> Option<(Element, Content)> {
    let element = Element::from_code(symbol).or_else(|| {
        let known: Vec<_> = Element::ALL.iter().map(|(_, code)| *code).collect();
        errors.note(at, format!("no element that is counted; known are {}", known.join(", ")))
    });
    let stated = value.as_object().filter(|members| !members.contains("unit"));
    let content = match stated {
        None => MassPercent::from_wire(value, at, errors).map(Content::Is),
        Some(members) => content(members, at, errors),
    };
    Some((element?, content?))
}

/// One of `is` and `at_most`.
fn content(members: &Members<'_>, at: Place<'_>, errors: &mut Errors) -> Option<Content> {
    let mut stated = members.iter();
    match (stated.next(), stated.next()) {
        (Some((name, value)), None) if name == "is" => {
            MassPercent::from_wire(value, Place::Member(&at, name), errors).map(Content::Is)
        }
        (Some((name, value)), None) if name == "at_most" => {
            MassPercent::from_wire(value, Place::Member(&at, name), errors).map(Content::AtMost)
        }
        _ => errors.note(at, "expected {\"is\": \"0.16 %\"} or {\"at_most\": \"0.05 %\"}"),
    }
}

impl ToWire for Composition {
    fn to_wire(&self) -> Value {
        let stated = Element::ALL.iter().filter_map(|(element, code)| {
            let content = match self.get(*element)? {
                Content::Is(content) => json!({ "is": content.to_wire() }),
                Content::AtMost(content) => json!({ "at_most": content.to_wire() }),
            };
            Some(((*code).to_owned(), content))
        });
        Value::Object(stated.collect())
    }
}

impl WireSchema for Composition {
    fn reference(into: &mut Definitions) -> RefOr<Schema> {
        let percent = <MassPercent as WireSchema>::reference(into);
        let one = |name: &str| ObjectBuilder::new().property(name, percent.clone()).required(name);
        let content = Schema::AnyOf(
            AnyOfBuilder::new()
                .description(Some("What is known of an element: its content, or a ceiling only."))
                .item(percent.clone())
                .item(one("is"))
                .item(one("at_most"))
                .build(),
        );
        let content = define(into, "ElementContent".to_owned(), content.into());
        let mut object = ObjectBuilder::new()
            .description(Some(
                "Elements of a steel by mass. An element that is left out is unknown, not absent.",
            ))
            .additional_properties(Some(AdditionalProperties::<Schema>::FreeForm(false)));
        for (_, symbol) in Element::ALL {
            object = object.property(*symbol, content.clone());
        }
        define(into, "Composition".to_owned(), Schema::from(object.build()).into())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(value: &Value) -> Result<Composition, Vec<String>> {
        let mut errors = Errors::default();
        let steel = Composition::from_wire(&value.into(), Place::Root, &mut errors);
        steel.ok_or_else(|| errors.met.into_iter().map(|error| error.pointer).collect())
    }

    #[test]
    fn a_composition_comes_back_as_sent() {
        let sent =
            json!({ "C": "0.16 %", "Mn": { "is": "1.4 %" }, "Cr": { "at_most": "500 ppm" } });
        let steel = read(&sent).unwrap();
        assert_eq!(steel.get(Element::C), Some(Content::Is("0.16 %".parse().unwrap())));
        assert_eq!(steel.get(Element::Cr), Some(Content::AtMost("0.05 %".parse().unwrap())));
        assert_eq!(steel.get(Element::Ni), None);
        assert_eq!(read(&steel.to_wire()).unwrap(), steel);
    }

    #[test]
    fn what_is_no_content_is_refused_at_its_place() {
        for (wrong, place) in [
            (json!({ "C": 0.16 }), "/C"),
            (json!({ "Xx": "1 %" }), "/Xx"),
            (json!({ "C": { "is": "0.1 %", "at_most": "0.2 %" } }), "/C"),
            (json!({ "C": { "at_least": "0.1 %" } }), "/C"),
            (json!({ "C": { "at_most": "101 %" } }), "/C/at_most"),
            (json!({ "C": "60 %", "Mn": "60 %" }), ""),
            (json!({}), ""),
            (json!("S355"), ""),
        ] {
            assert_eq!(read(&wrong).unwrap_err(), [place], "{wrong}");
        }
    }
}
