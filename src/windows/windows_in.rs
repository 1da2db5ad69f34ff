//! A setup with what is asked of its windows, as sent.

use utoipa::{
    PartialSchema, ToSchema,
    openapi::{RefOr, Schema},
};

use super::ask::AskIn;
use crate::{
    checks::SetupIn,
    wire::{Definitions, Errors, FromWire, Node, Place, WireSchema, described},
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
