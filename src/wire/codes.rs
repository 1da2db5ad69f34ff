//! Codes that organisations give to their records, and editions of governing codes.

use serde_json::Value;
use utoipa::openapi::{ObjectBuilder, RefOr, Schema, schema::Type};

use super::{Definitions, Errors, FromWire, Node, Place, ToWire, WireSchema, wire_object};
use crate::check::CodeEdition;

/// Code of a record: what people write on paper for it, and its name in a path.
#[derive(Debug, Clone, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct Code(String);

/// What a code looks like.
const PATTERN: &str = "^[A-Za-z0-9][A-Za-z0-9._-]{0,63}$";

/// Whether a byte stands in codes. A look at this list is shorter than five comparisons.
const IS_PART: [bool; 256] = {
    let (mut is_part, mut byte) = ([false; 256], 0_u8);
    while byte < 128 {
        is_part[byte as usize] = byte.is_ascii_alphanumeric() || matches!(byte, b'.' | b'_' | b'-');
        byte += 1;
    }
    is_part
};

impl Code {
    /// A code from a text.
    #[must_use]
    pub fn parse(text: &str) -> Option<Self> {
        let sound = text.len() <= 64
            && text.bytes().next().is_some_and(|b| b.is_ascii_alphanumeric())
            && text.bytes().all(|b| IS_PART[usize::from(b)]);
        sound.then(|| Self(text.to_owned()))
    }

    /// The code as text.
    #[must_use]
    pub fn as_str(&self) -> &str {
        &self.0
    }
}

impl std::fmt::Display for Code {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(&self.0)
    }
}

impl FromWire for Code {
    fn from_wire(value: &Node<'_>, at: Place<'_>, errors: &mut Errors) -> Option<Self> {
        value.as_str().and_then(Self::parse).or_else(|| {
            errors.note(
                at,
                "expected a code of 1 to 64 letters, digits, '.', '_' or '-', such as \"WPS-014\"",
            )
        })
    }
}

impl ToWire for Code {
    fn to_wire(&self) -> Value {
        Value::String(self.0.clone())
    }
}

impl WireSchema for Code {
    fn reference(_: &mut Definitions) -> RefOr<Schema> {
        ObjectBuilder::new().schema_type(Type::String).pattern(Some(PATTERN)).into()
    }
}

wire_object! {
    /// A governing code and its edition.
    pub struct CodeEditionDocument {
        /// Designation of the code, such as `AWS D1.1`.
        pub name: String,
        /// Edition, such as `2020`.
        pub edition: String,
    }
}

impl CodeEditionDocument {
    /// As the check reads it.
    #[must_use]
    pub fn compile(&self) -> CodeEdition {
        CodeEdition { name: self.name.clone(), edition: self.edition.clone() }
    }
}
