//! A text of many lines, kept as typed.

use serde_json::Value;
use utoipa::openapi::{ObjectBuilder, RefOr, Schema, schema::Type};

use super::{Definitions, Errors, FromWire, Node, Place, ToWire, WireSchema};

/// A file as text, kept letter by letter, so that its lines keep their numbers.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LongText(String);

/// Most bytes of a file: 256 KiB.
const LONGEST: usize = 256 * 1024;

impl LongText {
    /// The text.
    #[must_use]
    pub fn as_str(&self) -> &str {
        &self.0
    }
}

impl FromWire for LongText {
    fn from_wire(value: &Node<'_>, at: Place<'_>, errors: &mut Errors) -> Option<Self> {
        let Some(text) = value.as_str() else {
            return errors.note(at, format!("expected a text, found {}", value.kind()));
        };
        if text.trim().is_empty() {
            return errors.note(at, "the text is empty");
        }
        if text.len() > LONGEST || text.contains('\0') {
            return errors.note(at, format!("this text has at most {LONGEST} bytes and no NUL"));
        }
        Some(Self(text.to_owned()))
    }
}

impl ToWire for LongText {
    fn to_wire(&self) -> Value {
        Value::String(self.0.clone())
    }
}

impl WireSchema for LongText {
    fn reference(_: &mut Definitions) -> RefOr<Schema> {
        ObjectBuilder::new().schema_type(Type::String).max_length(Some(LONGEST)).into()
    }
}
