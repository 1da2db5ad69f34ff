//! A setup with what is asked of its windows, as sent.

use utoipa::{
    PartialSchema, ToSchema,
    openapi::{RefOr, Schema},
};

use super::ask::AskIn;
use crate::{
    checks::SetupIn,
    wire::{Definitions, Errors, FromWire, Node, Place, PlainText, WireSchema, described},
};

/// Name of the member beside those of the setup.
const ASK: &str = "ask";

/// What the member is, for the reference page.
const ASK_MEANS: &str = "What is asked beyond the setup.";

/// A proposed setup, and in `ask` what is asked of its windows beyond it.
#[derive(Debug, Clone)]
pub struct WindowsIn {
    /// The setup as sent.
    pub setup: Box<SetupIn>,
    /// What is asked.
    pub ask: Option<AskIn>,
}

impl FromWire for WindowsIn {
    fn from_wire(value: &Node<'_>, at: Place<'_>, errors: &mut Errors) -> Option<Self> {
        let Some(members) = value.as_object() else {
            return errors.note(at, format!("expected a setup, found {}", value.kind()));
        };
        let ask =
            members.get(ASK).map(|ask| AskIn::from_wire(ask, Place::Member(&at, ASK), errors));
        let setup = Node::Object(members.without(&[ASK]));
        let setup = Box::from_wire(&setup, at, errors);
        let ask = match ask {
            Some(read) => Some(read?),
            None => None,
        };
        Some(Self { setup: setup?, ask })
    }

    /// Of most windows nothing is asked beyond the setup.
    fn from_plain(text: &mut PlainText<'_>) -> Option<Self> {
        Some(Self { setup: Box::from_plain(text)?, ask: None })
    }
}

impl PartialSchema for WindowsIn {
    fn schema() -> RefOr<Schema> {
        let mut schema = SetupIn::schema();
        if let RefOr::T(Schema::Object(object)) = &mut schema {
            let ask = <AskIn as WireSchema>::reference(&mut Definitions::new());
            object.properties.insert(ASK.to_owned(), described(ask, ASK_MEANS));
        }
        schema
    }
}

impl ToSchema for WindowsIn {
    fn schemas(into: &mut Definitions) {
        SetupIn::schemas(into);
        <AskIn as WireSchema>::reference(into);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::wire::{read_node, read_plain, read_text};

    #[test]
    fn a_setup_alone_is_read_straight_and_one_with_a_question_by_way_of_nodes() {
        let straight = |text: &str| read_plain::<WindowsIn>(text.as_bytes());
        let by_nodes = |text: &str| {
            read_node::<WindowsIn>(&read_text(text.as_bytes()).unwrap()).map_err(|_| ())
        };
        let alone = r#"{"process": "136", "settings": {"current": "240 A"}}"#;
        let told = |read: WindowsIn| format!("{read:?}");
        assert_eq!(straight(alone).map(told), by_nodes(alone).map(told).ok());
        let asking = r#"{"process": "136", "ask": {"hand_spread": {"travel_speed": "4 %"}}}"#;
        assert!(straight(asking).is_none() && by_nodes(asking).unwrap().ask.is_some());
    }
}
