//! Keys: made, rotated and revoked. Shown once; only their hash is kept.

pub(super) mod create;
pub(super) mod list;
pub(super) mod revoke;
pub(super) mod rotate;
mod store;

pub(super) use create::change;
pub(super) use store::{NewKey, insert, labelled, revoke};

use serde::Serialize;
use time::OffsetDateTime;
use utoipa::ToSchema;
use uuid::Uuid;

/// A key without its secret.
#[derive(Debug, Serialize, ToSchema, sqlx::FromRow)]
pub struct KeyOut {
    /// Id of the key.
    #[serde(rename = "key")]
    pub key_id: Uuid,
    /// What it is for.
    pub label: String,
    /// Roles.
    pub roles: Vec<String>,
    /// Person it stands for.
    #[serde(rename = "person", skip_serializing_if = "Option::is_none")]
    pub person_id: Option<Uuid>,
    /// Station it is bound to.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub station: Option<String>,
    /// When it was made.
    #[serde(with = "time::serde::rfc3339")]
    pub created_at: OffsetDateTime,
    /// When it stops working.
    #[serde(with = "time::serde::rfc3339::option", skip_serializing_if = "Option::is_none")]
    pub expires_at: Option<OffsetDateTime>,
    /// When it was revoked.
    #[serde(with = "time::serde::rfc3339::option", skip_serializing_if = "Option::is_none")]
    pub revoked_at: Option<OffsetDateTime>,
    /// When it was last used, to half a minute.
    #[serde(with = "time::serde::rfc3339::option", skip_serializing_if = "Option::is_none")]
    pub last_used_at: Option<OffsetDateTime>,
}

/// A new key with its secret, shown this once.
#[derive(Debug, Serialize, ToSchema)]
pub struct NewKeyOut {
    /// The key.
    #[serde(flatten)]
    pub key: KeyOut,
    /// The secret to send as `Authorization: Bearer …`; it cannot be read again.
    #[schema(example = "arcbounds_…")]
    pub secret: String,
}
