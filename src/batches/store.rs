//! SQL of what was done with portions of batches. No rules here.

use serde_json::Value;
use sqlx::{FromRow, PgConnection};
use time::OffsetDateTime;
use uuid::Uuid;

use crate::database::Actor;

/// One thing that was done with a portion.
#[derive(Debug, Clone, FromRow)]
pub struct EventRow {
    /// Place in the history of the batch.
    pub sequence: i32,
    /// What was done, as it was sent, with its moment.
    pub document: Value,
    /// Person who noted it, where a person's key did.
    pub person_id: Option<Uuid>,
    /// Key that noted it.
    pub key_id: Uuid,
    /// When it was noted.
    pub noted_at: OffsetDateTime,
}

/// Everything that was done with the portions of a batch, in order.
///
/// # Errors
/// When the database fails.
pub async fn events(db: &mut PgConnection, code: &str) -> sqlx::Result<Vec<EventRow>> {
    sqlx::query_as(
        "select sequence, document, person_id, key_id, noted_at
         from consumable_batch_event where code = $1 order by sequence",
    )
    .bind(code)
    .fetch_all(db)
    .await
}

/// Writes what was done.
pub(super) async fn write_event(
    db: &mut PgConnection,
    actor: Actor,
    code: &str,
    sequence: i32,
    document: &Value,
) -> sqlx::Result<()> {
    sqlx::query(
        "insert into consumable_batch_event (organisation_id, code, sequence, document, person_id, key_id)
         values ($1, $2, $3, $4, $5, $6)",
    )
    .bind(actor.organisation)
    .bind(code)
    .bind(sequence)
    .bind(document)
    .bind(actor.person)
    .bind(actor.key.unwrap_or_default())
    .execute(db)
    .await?;
    Ok(())
}
