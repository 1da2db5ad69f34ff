//! SQL of the organisation.

use serde_json::Value;
use sqlx::PgConnection;
use uuid::Uuid;

/// Id, name and settings.
pub(super) async fn find(db: &mut PgConnection) -> sqlx::Result<(Uuid, String, Value)> {
    sqlx::query_as("select organisation_id, name, settings from organisation").fetch_one(db).await
}

/// Replaces the settings.
pub(super) async fn write_settings(db: &mut PgConnection, settings: &Value) -> sqlx::Result<()> {
    sqlx::query("update organisation set settings = $1").bind(settings).execute(db).await?;
    Ok(())
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
