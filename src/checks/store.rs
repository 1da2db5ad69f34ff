//! SQL of kept checks.

use serde_json::Value;
use sqlx::FromRow;
use time::OffsetDateTime;
use uuid::Uuid;

use crate::database::TenantTx;

/// A check somebody asked to keep.
#[derive(Debug, FromRow)]
pub(super) struct KeptCheck {
    pub check_id: Uuid,
    pub at: OffsetDateTime,
    pub rulebook_version: i64,
    pub setup: Value,
    pub answer: Value,
}

pub(super) async fn insert(tx: &mut TenantTx, kept: &KeptCheck) -> sqlx::Result<()> {
    let actor = tx.actor();
    sqlx::query(
        "insert into kept_check (organisation_id, check_id, at, key_id, person_id, rulebook_version,
             setup, answer)
         values ($1, $2, $3, $4, $5, $6, $7, $8)",
    )
    .bind(actor.organisation)
    .bind(kept.check_id)
    .bind(kept.at)
    .bind(actor.key.unwrap_or_default())
    .bind(actor.person)
    .bind(kept.rulebook_version)
    .bind(&kept.setup)
    .bind(&kept.answer)
    .execute(tx.connection())
    .await?;
    Ok(())
}

pub(super) async fn find(tx: &mut TenantTx, check_id: Uuid) -> sqlx::Result<Option<KeptCheck>> {
    sqlx::query_as(
        "select check_id, at, rulebook_version, setup, answer from kept_check where check_id = $1",
    )
    .bind(check_id)
    .fetch_optional(tx.connection())
    .await
}

/// The setup of a kept check.
#[derive(Debug, FromRow)]
pub(super) struct KeptSetupRow {
    pub check_id: Uuid,
    pub at: OffsetDateTime,
    pub setup: Value,
}

/// Setups kept last, newest first.
pub(super) async fn newest(tx: &mut TenantTx, most: i64) -> sqlx::Result<Vec<KeptSetupRow>> {
    sqlx::query_as("select check_id, at, setup from kept_check order by at desc, check_id limit $1")
        .bind(most)
        .fetch_all(tx.connection())
        .await
}
