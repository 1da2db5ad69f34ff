//! People: who writes, approves and signs. A person is not a key.

pub(super) mod change;
pub(super) mod create;
pub(super) mod list;
mod store;

pub(super) use store::{NewPerson, insert, named};

use serde::Serialize;
use utoipa::ToSchema;
use uuid::Uuid;

use crate::{access::Role, wire::wire_object};

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
}
