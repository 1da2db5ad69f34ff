//! Designations and shielding gases on the wire.

use std::cell::RefCell;

use rust_decimal::Decimal;
use serde_json::{Value, json};
use utoipa::openapi::{
    ObjectBuilder, RefOr, Schema,
    schema::{AnyOfBuilder, Type},
};

use super::{
    Definitions, Errors, FromWire, Kept, Node, Place, ToWire, WireSchema, define, scalars::text,
};
use crate::{
    quantity::Share,
    trade::{Coded, Designation, Gas, GasComponent, GasGroup, GasMixture},
};

impl FromWire for Designation {
    fn from_wire(value: &Node<'_>, at: Place<'_>, errors: &mut Errors) -> Option<Self> {
        let text = text(value, at, errors)?;
        Self::parse(text).map_or_else(|error| errors.note(at, error.to_string()), Some)
    }
}

impl ToWire for Designation {
    fn to_wire(&self) -> Value {
        Value::from(self.text())
    }
}

impl WireSchema for Designation {
    fn reference(_: &mut Definitions) -> RefOr<Schema> {
        ObjectBuilder::new()
            .schema_type(Type::String)
            .examples(["AWS A5.20: E71T-1M", "ISO 17632-A - T 46 4 P M21 1 H5"])
            .into()
    }
}

/// `"M21-ArC-25"`, or `{"Ar": "75 %", "CO2": "25 %"}`.
impl FromWire for GasMixture {
    fn from_wire(value: &Node<'_>, at: Place<'_>, errors: &mut Errors) -> Option<Self> {
        match value {
            Node::Text(text) => {
                Self::parse(text).map_or_else(|error| errors.note(at, error.to_string()), Some)
            }
            Node::Object(members) => {
                let parts: Vec<_> = members
                    .iter()
                    .map(|(name, share)| part(name, share, Place::Member(&at, name), errors))
                    .collect();
                let parts: Vec<_> = parts.into_iter().collect::<Option<_>>()?;
                Self::new(&parts).map_or_else(|error| errors.note(at, error.to_string()), Some)
            }
            other => errors.note(
                at,
                format!(
                    "expected a mixture such as \"M21-ArC-25\" or {{\"Ar\": \"75 %\", \"CO2\": \"25 %\"}}, found {}",
                    other.kind()
                ),
            ),
        }
    }
}

fn part(
    name: &str,
    share: &Node<'_>,
    at: Place<'_>,
    errors: &mut Errors,
) -> Option<(GasComponent, Decimal)> {
    let component = GasComponent::from_code(name);
    let known = || GasComponent::ALL.iter().map(|(_, code)| *code).collect::<Vec<_>>().join(", ");
    if component.is_none() {
        errors.note::<()>(at, format!("no such gas component; known are {}", known()));
    }
    let share = Share::from_wire(share, at, errors)?.as_entered()?;
    let percent =
        if share.unit.symbol == "%" { share.number } else { share.number * Decimal::ONE_HUNDRED };
    Some((component?, percent))
}

impl ToWire for GasMixture {
    fn to_wire(&self) -> Value {
        let shares =
            GasComponent::ALL.iter().map(|(component, code)| (code, self.share(*component)));
        let present = shares.filter(|(_, percent)| !percent.is_zero());
        Value::Object(
            present
                .map(|(code, percent)| {
                    ((*code).to_owned(), json!(format!("{} %", percent.normalize())))
                })
                .collect(),
        )
    }
}

impl WireSchema for GasMixture {
    fn reference(into: &mut Definitions) -> RefOr<Schema> {
        let text = ObjectBuilder::new().schema_type(Type::String).examples(["M21-ArC-25"]);
        let mut object = ObjectBuilder::new().schema_type(Type::Object);
        for (_, component) in GasComponent::ALL {
            object = object.property(*component, <Share as WireSchema>::reference(into));
        }
        let schema = AnyOfBuilder::new()
            .description(Some("A gas mixture in volume per cent (ISO 14175)."))
            .item(text)
            .item(object);
        define(into, "GasMixture".to_owned(), Schema::AnyOf(schema.build()).into())
    }
}

/// Bytes of the longest text of a gas that is kept.
const LONGEST: usize = 32;

thread_local! {
    /// Gases by the texts they were read from: a shop has few, and to take one apart is an eighth of reading a setup.
    static READ: RefCell<Kept<(String, Gas)>> = const { RefCell::new(Kept::none()) };
}

/// The gas that a text names; `None` where it names none.
fn named(text: &str) -> Option<Gas> {
    if text.len() > LONGEST {
        return taken_apart(text);
    }
    READ.with_borrow_mut(|read| {
        let make = || taken_apart(text).map(|gas| (text.to_owned(), gas)).ok_or(());
        read.fitting(|(known, _)| known == text, make).ok().map(|(_, gas)| *gas)
    })
}

fn taken_apart(text: &str) -> Option<Gas> {
    if text == "none" {
        return Some(Gas::None);
    }
    let group = GasGroup::from_code(text).map(Gas::Group);
    group.or_else(|| GasMixture::parse(text).ok().map(Gas::Mixture))
}

/// A group (`"M21"`), a mixture, or `"none"` for a process without gas.
impl FromWire for Gas {
    fn from_wire(value: &Node<'_>, at: Place<'_>, errors: &mut Errors) -> Option<Self> {
        let gas = value.as_str().and_then(named);
        gas.or_else(|| GasMixture::from_wire(value, at, errors).map(Self::Mixture))
    }
}

impl ToWire for Gas {
    fn to_wire(&self) -> Value {
        match self {
            Self::None => Value::from("none"),
            Self::Group(group) => Value::from(group.code()),
            Self::Mixture(mixture) => mixture.to_wire(),
        }
    }
}

impl WireSchema for Gas {
    fn reference(into: &mut Definitions) -> RefOr<Schema> {
        let none = ObjectBuilder::new().schema_type(Type::String).enum_values(Some(["none"]));
        let schema = AnyOfBuilder::new()
            .description(Some("A gas group of ISO 14175, a mixture, or `none`."))
            .item(super::schema::coded::<GasGroup>(into))
            .item(<GasMixture as WireSchema>::reference(into))
            .item(none);
        define(into, "Gas".to_owned(), Schema::AnyOf(schema.build()).into())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::wire;

    /// Whatever was read before, and whatever its length: each text is read as when it is taken apart.
    #[test]
    fn a_gas_is_the_same_whether_it_was_read_before_or_not() {
        let long = format!("M21-ArC-25.{}", "0".repeat(30));
        let texts = ["M21-ArC-25", "M21", "none", "ArC-18", "M21-ArC-20", "C1", &long];
        for text in texts.into_iter().chain(texts).chain(["M21-ArC-25"; 2]) {
            assert_eq!(wire::read::<Gas>(&json!(text)).ok(), taken_apart(text), "{text}");
            assert!(taken_apart(text).is_some());
        }
        for wrong in ["M21-ArC-50", "M99", "", "None", "M21-ArC-50"] {
            assert!(wire::read::<Gas>(&json!(wrong)).is_err(), "{wrong}");
        }
    }
}
