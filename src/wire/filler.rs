//! Designations and shielding gases on the wire.

use rust_decimal::Decimal;
use serde_json::{Value, json};
use utoipa::openapi::{
    ObjectBuilder, RefOr, Schema,
    schema::{AnyOfBuilder, Type},
};

use super::{
    Definitions, Errors, FromWire, Node, Place, ToWire, WireSchema, define, scalars::text,
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

/// A group (`"M21"`), a mixture, or `"none"` for a process without gas.
impl FromWire for Gas {
    fn from_wire(value: &Node<'_>, at: Place<'_>, errors: &mut Errors) -> Option<Self> {
        match value.as_str() {
            Some("none") => Some(Self::None),
            Some(text) => match GasGroup::from_code(text) {
                Some(group) => Some(Self::Group(group)),
                None => GasMixture::from_wire(value, at, errors).map(Self::Mixture),
            },
            None => GasMixture::from_wire(value, at, errors).map(Self::Mixture),
        }
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
