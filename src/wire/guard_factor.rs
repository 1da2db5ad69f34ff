//! The organisation's width of guard bands, as a number.

use serde_json::{Value, json};
use utoipa::openapi::{ObjectBuilder, RefOr, Schema, schema::Type};

use super::{Definitions, Errors, FromWire, Node, Place, ToWire, WireSchema};
use crate::check::GuardFactor;

impl FromWire for GuardFactor {
    fn from_wire(value: &Node<'_>, at: Place<'_>, errors: &mut Errors) -> Option<Self> {
        let number = match value {
            Node::Number(number) => number.as_f64(),
            _ => None,
        };
        let factor = number.and_then(Self::new);
        factor.or_else(|| {
            errors.note(at, "expected a number of more than 0 and at most 3, such as 1 or 0.82")
        })
    }
}

impl ToWire for GuardFactor {
    fn to_wire(&self) -> Value {
        json!(self.ratio())
    }
}

impl WireSchema for GuardFactor {
    fn reference(_: &mut Definitions) -> RefOr<Schema> {
        ObjectBuilder::new()
            .schema_type(Type::Number)
            .exclusive_minimum(Some(0.0))
            .maximum(Some(3.0))
            .into()
    }
}
