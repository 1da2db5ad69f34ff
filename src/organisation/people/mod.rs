//! People: who writes, approves and signs. A person is not a key.

pub(super) mod change;
pub(super) mod create;
pub(super) mod list;
pub(super) mod read;
mod store;

pub(super) use store::{NewPerson, insert, named};

use serde::Serialize;
use serde_json::Value;
use utoipa::ToSchema;
use uuid::Uuid;

use crate::{
    access::Role,
    database::Change,
    http::problem::Problem,
    wire::{self, wire_object},
};

wire_object! {
    /// A person as sent.
    pub struct PersonIn {
        /// Name.
        pub name: String,
        /// Roles; a key of this person may have these and no others.
        pub roles: Vec<Role>,
        /// Whether the person's keys work; true where left out.
        pub active: Option<bool>,
    }
}

impl PersonIn {
    /// Reads a person, who has at least one role.
    fn read(body: &Value) -> Result<Self, Problem> {
        let sent: Self = wire::read(body)?;
        if sent.roles.is_empty() {
            return Err(Problem::field("/roles", "name at least one role"));
        }
        Ok(sent)
    }
}

/// A person.
#[derive(Debug, Serialize, ToSchema, sqlx::FromRow)]
pub struct PersonOut {
    /// Id; the audit chain knows people by it.
    #[serde(rename = "person")]
    pub person_id: Uuid,
    /// Name.
    pub name: String,
    /// Roles.
    pub roles: Vec<String>,
    /// Whether the person's keys work.
    pub active: bool,
    /// Counts the changes; the `ETag`.
    #[serde(skip)]
    pub version: i32,
}

/// A change of a person for the audit chain, which knows people by id only. `known` is one that keys and
/// signatures may refer to already.
pub(super) fn entry(action: &'static str, person: Uuid, known: bool) -> Change {
    Change {
        action,
        kind: "person",
        subject: person.to_string(),
        revision: None,
        document_hash: None,
        changes_rules: known,
    }
}
