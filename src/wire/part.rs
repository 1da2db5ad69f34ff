//! Shares that are a part of a whole: more than nothing, and at most all of it.

use serde_json::Value;
use utoipa::openapi::{RefOr, Schema};

use super::{Definitions, Errors, FromWire, Node, Place, ToWire, WireSchema};
use crate::quantity::Share;

/// An efficiency, an operating factor, a duty cycle: more than 0 % and at most 100 %. What was stored by wider rules is
/// read as it stands.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Part(Share);

impl Part {
    /// The share.
    #[must_use]
    pub const fn share(self) -> Share {
        self.0
    }
}

impl FromWire for Part {
    fn from_wire(value: &Node<'_>, at: Place<'_>, errors: &mut Errors) -> Option<Self> {
        let share = Share::from_wire(value, at, errors)?;
        if share.is_part() || errors.of_stored() {
            return Some(Self(share));
        }
        errors.note(at, format!("this is more than 0 % and at most 100 %, not {share}"))
    }
}

impl ToWire for Part {
    fn to_wire(&self) -> Value {
        self.0.to_wire()
    }
}

impl WireSchema for Part {
    fn reference(into: &mut Definitions) -> RefOr<Schema> {
        <Share as WireSchema>::reference(into)
    }
}

#[cfg(test)]
mod tests {
    use serde_json::json;

    use super::Part;
    use crate::wire::{read, read_stored};

    /// A part of a whole (definition).
    #[test]
    fn a_part_is_more_than_nothing_and_at_most_all() {
        for (text, is_part) in
            [("0 %", false), ("0.1 %", true), ("35 %", true), ("100 %", true), ("100.1 %", false)]
        {
            assert_eq!(read::<Part>(&json!(text)).is_ok(), is_part, "{text}");
            assert!(read_stored::<Part>(&json!(text)).is_ok(), "{text}");
        }
    }
}
