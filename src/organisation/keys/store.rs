//! SQL of keys.

use time::OffsetDateTime;
use uuid::Uuid;

use super::KeyOut;
use crate::{
    access::{KeyHash, Role},
    database::TenantTx,
    trade::Coded,
};

/// A key to be inserted.
#[derive(Debug, Clone, Copy)]
pub(in crate::organisation) struct NewKey<'a> {
    pub key_id: Uuid,
    pub label: &'a str,
    pub roles: &'a [Role],
    pub person: Option<Uuid>,
    pub station: Option<&'a str>,
    pub expires_at: Option<OffsetDateTime>,
    pub hash: KeyHash,
}

macro_rules! key_columns {
    () => {
        "key_id, label, roles, person_id, station, created_at, expires_at, revoked_at, last_used_at"
    };
}

pub(in crate::organisation) async fn insert(
    tx: &mut TenantTx,
    new: &NewKey<'_>,
) -> sqlx::Result<KeyOut> {
    let organisation = tx.actor().organisation;
    let roles: Vec<_> = new.roles.iter().map(|role| role.code()).collect();
    sqlx::query_as(concat!(
        "insert into api_key (organisation_id, key_id, label, roles, person_id, station, expires_at,
             secret_hash)
         values ($1, $2, $3, $4, $5, $6, $7, $8) returning ",
        key_columns!()
    ))
    .bind(organisation)
    .bind(new.key_id)
    .bind(new.label)
    .bind(roles)
    .bind(new.person)
    .bind(new.station)
    .bind(new.expires_at)
    .bind(new.hash.as_slice())
    .fetch_one(tx.connection())
    .await
}

pub(super) async fn all(tx: &mut TenantTx) -> sqlx::Result<Vec<KeyOut>> {
    sqlx::query_as(concat!("select ", key_columns!(), " from api_key order by key_id"))
        .fetch_all(tx.connection())
        .await
}

/// Locks a key that works.
pub(super) async fn lock(tx: &mut TenantTx, key: Uuid) -> sqlx::Result<Option<KeyOut>> {
    sqlx::query_as(concat!(
        "select ",
        key_columns!(),
        " from api_key where key_id = $1 and revoked_at is null for update"
    ))
    .bind(key)
    .fetch_optional(tx.connection())
    .await
}

/// Gives a key a new secret.
pub(super) async fn replace_secret(
    tx: &mut TenantTx,
    key: Uuid,
    hash: KeyHash,
) -> sqlx::Result<()> {
    sqlx::query("update api_key set secret_hash = $2 where key_id = $1")
        .bind(key)
        .bind(hash.as_slice())
        .execute(tx.connection())
        .await?;
    Ok(())
}

/// Revokes a key.
pub(in crate::organisation) async fn revoke(tx: &mut TenantTx, key: Uuid) -> sqlx::Result<KeyOut> {
    sqlx::query_as(concat!(
        "update api_key set revoked_at = now() where key_id = $1 returning ",
        key_columns!()
    ))
    .bind(key)
    .fetch_one(tx.connection())
    .await
}

/// Roles of an active person; `None` when there is none.
pub(super) async fn roles_of(tx: &mut TenantTx, person: Uuid) -> sqlx::Result<Option<Vec<String>>> {
    sqlx::query_scalar("select roles from person where person_id = $1 and active")
        .bind(person)
        .fetch_optional(tx.connection())
        .await
}

/// Keys with this label that work.
pub(in crate::organisation) async fn labelled(
    tx: &mut TenantTx,
    label: &str,
) -> sqlx::Result<Vec<Uuid>> {
    sqlx::query_scalar("select key_id from api_key where label = $1 and revoked_at is null")
        .bind(label)
        .fetch_all(tx.connection())
        .await
}
