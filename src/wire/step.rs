//! Smallest steps of a dial: differences, which may be smaller than any plausible value.

use serde_json::Value;
use utoipa::openapi::{RefOr, Schema};

use super::{Definitions, Errors, FromWire, Node, Place, ToWire, WireSchema};
use crate::quantity::{Kind, Quantity, QuantityError};

/// A step as sent: `"0.1 V"` or `{"value": 0.1, "unit": "V"}`; more than zero.
#[derive(Debug, Clone, PartialEq)]
pub struct Step<K: Kind> {
    sent: Value,
    step: Quantity<K>,
}

impl<K: Kind> Step<K> {
    /// The step.
    #[must_use]
    pub const fn quantity(&self) -> Quantity<K> {
        self.step
    }
}

impl<K: Kind> FromWire for Step<K> {
    fn from_wire(value: &Node<'_>, at: Place<'_>, errors: &mut Errors) -> Option<Self> {
        let text =
            match (value.as_str(), value.get("value"), value.get("unit").and_then(Node::as_str)) {
                (Some(text), ..) => Some(text.to_owned()),
                (None, Some(Node::Number(number)), Some(unit)) => Some(format!("{number} {unit}")),
                _ => None,
            };
        let unit = K::INFO.units[0].symbol;
        let Some(text) = text else {
            return errors.note(at, format!("expected a step such as \"0.1 {unit}\""));
        };
        let read = Quantity::difference(&text);
        match read.map_err(|error: QuantityError| error.to_string()) {
            Ok(step) if step.canonical() > 0.0 => Some(Self { sent: value.to_value(), step }),
            Ok(_) => errors.note(at, "a step is more than zero"),
            Err(reason) => errors.note(at, reason),
        }
    }
}

impl<K: Kind> ToWire for Step<K> {
    fn to_wire(&self) -> Value {
        self.sent.clone()
    }
}

impl<K: Kind> WireSchema for Step<K> {
    fn reference(into: &mut Definitions) -> RefOr<Schema> {
        <Quantity<K> as WireSchema>::reference(into)
    }
}
