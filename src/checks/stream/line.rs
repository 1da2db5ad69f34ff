//! One line of a stream, as sent.

use serde_json::Value;
use utoipa::openapi::{ObjectBuilder, RefOr, Schema, schema::Type};

use crate::{
    checks::setup_in::SetupIn,
    wire::{Definitions, Errors, FromWire, Node, Place, ToWire, WireSchema, wire_object},
};

/// Longest id.
const LONGEST: usize = 4000;

wire_object! {
    /// A line of a stream of checks.
    pub struct StreamLineIn {
        /// Your own id of the line, which its answer repeats letter by letter.
        pub id: Option<LineId>,
        /// The setup to check.
        pub setup: Box<SetupIn>,
    }
}

/// A caller's id of a line: a text, since a long number would not come back as it was sent.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LineId(pub(super) String);

impl FromWire for LineId {
    fn from_wire(value: &Node<'_>, at: Place<'_>, errors: &mut Errors) -> Option<Self> {
        let Some(text) = value.as_str() else {
            return errors
                .note(at, format!("an id is a text, such as \"CARD-7\"; found {}", value.kind()));
        };
        if text.len() > LONGEST {
            return errors.note(at, format!("an id has at most {LONGEST} bytes"));
        }
        Some(Self(text.to_owned()))
    }
}

impl ToWire for LineId {
    fn to_wire(&self) -> Value {
        Value::String(self.0.clone())
    }
}

impl WireSchema for LineId {
    fn reference(_: &mut Definitions) -> RefOr<Schema> {
        ObjectBuilder::new().schema_type(Type::String).max_length(Some(LONGEST)).into()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::wire::read_plain;

    /// Its id, or none, where it is read at once.
    fn ids_of(line: &str) -> Option<Vec<String>> {
        let line: StreamLineIn = read_plain(line.as_bytes())?;
        Some(line.id.into_iter().map(|id| id.0).collect())
    }

    #[test]
    fn a_line_of_an_id_and_a_sound_setup_is_read_at_once_and_keeps_its_id() {
        for (line, id) in [
            (r#"{"id":"1","setup":{"process":"136"}}"#, Some("1")),
            (r#"{"setup": {"keep": false}, "id": " early 2.50 "} "#, Some(" early 2.50 ")),
            (r#"{"id":"","setup":{}}"#, Some("")),
            (r#"{"id":null,"setup":{}}"#, None),
            (r#"{"setup":{"process":"136"}}"#, None),
        ] {
            let id: Vec<_> = id.into_iter().map(ToOwned::to_owned).collect();
            assert_eq!(ids_of(line), Some(id), "{line}");
        }
    }

    #[test]
    fn every_other_line_is_left_to_the_longer_way() {
        for line in [
            r#"{"id":"1"}"#,
            r#"{"id":1,"setup":{}}"#,
            r#"{"id":"1","setup":{"amps":"3 A"}}"#,
            r#"{"id":"1","setup":{"process":"none"}}"#,
            r#"{"id":"1","id":"2","setup":{}}"#,
            r#"{"id":"1","setup":{},"setup":{}}"#,
            r#"{"id":"1","setup":{},"shift":"early"}"#,
            r#"{"id":"\u0031","setup":{}}"#,
            r#"{"id":"1","setup":{}} {}"#,
            r#"[{"id":"1","setup":{}}]"#,
        ] {
            assert_eq!(ids_of(line), None, "{line}");
        }
    }
}
