//! The metal of a weld, as formulas of heat and cracking tell metals apart.

use serde_json::Value;
use utoipa::openapi::{ObjectBuilder, RefOr, Schema, schema::Type};

use crate::{
    trade::{Coded, MetalGroup, SteelFamily},
    wire::{Definitions, Errors, FromWire, Node, Place, ToWire, WireSchema, define},
};

/// A metal family by its code, or by an ISO/TR 15608 group that belongs to one family only.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Metal(pub SteelFamily);

impl FromWire for Metal {
    fn from_wire(value: &Node<'_>, at: Place<'_>, errors: &mut Errors) -> Option<Self> {
        let text = String::from_wire(value, at, errors)?;
        if let Some(family) = SteelFamily::from_code(&text) {
            return Some(Self(family));
        }
        let Ok(group) = text.parse::<MetalGroup>() else {
            let codes: Vec<_> = SteelFamily::ALL.iter().map(|(_, code)| *code).collect();
            let known = format!("use one of {}, or an ISO/TR 15608 group", codes.join(", "));
            return errors.note(at, format!("\"{text}\" is no metal family; {known}"));
        };
        SteelFamily::of(group).map(Self).or_else(|| {
            let why = "reaches from low-alloy to high-alloy steel; give its sub-group";
            errors.note(at, format!("group {group} {why}"))
        })
    }
}

impl ToWire for Metal {
    fn to_wire(&self) -> Value {
        Value::from(self.0.code())
    }
}

impl WireSchema for Metal {
    fn reference(into: &mut Definitions) -> RefOr<Schema> {
        let codes: Vec<_> = SteelFamily::ALL.iter().map(|(_, code)| *code).collect();
        let schema = ObjectBuilder::new()
            .schema_type(Type::String)
            .description(Some(format!(
                "A metal: a family ({}), or an ISO/TR 15608 group.",
                codes.join(", ")
            )))
            .examples(["low-alloy-ferritic", "1.2"]);
        define(into, "Metal".to_owned(), Schema::from(schema.build()).into())
    }
}
