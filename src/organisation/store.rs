//! SQL of the organisation.

use serde_json::Value;
use sqlx::{FromRow, PgConnection};
use uuid::Uuid;

use crate::{access::Role, trade::Coded};

/// The organisation.
#[derive(Debug, FromRow)]
pub(super) struct OrganisationRow {
    pub organisation_id: Uuid,
    pub name: String,
    pub settings: Value,
    /// Counts the changes of the settings.
    pub version: i32,
}

/// The organisation as it stands.
pub(super) async fn find(db: &mut PgConnection) -> sqlx::Result<OrganisationRow> {
    sqlx::query_as("select organisation_id, name, settings, version from organisation")
        .fetch_one(db)
        .await
}

/// Locks the organisation's row, so that two changes take turns.
pub(super) async fn lock(db: &mut PgConnection) -> sqlx::Result<()> {
    sqlx::query("select 1 from organisation for update").execute(db).await?;
    Ok(())
}

/// Replaces the settings.
pub(super) async fn write_settings(db: &mut PgConnection, settings: &Value) -> sqlx::Result<()> {
    sqlx::query("update organisation set settings = $1, version = version + 1")
        .bind(settings)
        .execute(db)
        .await?;
    Ok(())
}

/// Whether a key that works, of a person who is active or of nobody, may administer.
pub(super) async fn has_administrator(db: &mut PgConnection) -> sqlx::Result<bool> {
    sqlx::query_scalar(
        "select exists (
             select 1 from api_key k
             left join person p
               on (p.organisation_id, p.person_id) = (k.organisation_id, k.person_id)
             where k.revoked_at is null and (k.expires_at is null or k.expires_at > now())
               and $1 = any(k.roles)
               and (k.person_id is null or (p.active and $1 = any(p.roles))))",
    )
    .bind(Role::Admin.code())
    .fetch_one(db)
    .await
}

/// Inserts a new organisation with an empty audit chain.
pub(super) async fn insert(
    db: &mut PgConnection,
    organisation: Uuid,
    name: &str,
    settings: &Value,
) -> sqlx::Result<()> {
    sqlx::query("insert into organisation (organisation_id, name, settings) values ($1, $2, $3)")
        .bind(organisation)
        .bind(name)
        .bind(settings)
        .execute(&mut *db)
        .await?;
    sqlx::query("insert into audit_head (organisation_id) values ($1)")
        .bind(organisation)
        .execute(db)
        .await?;
    Ok(())
}
