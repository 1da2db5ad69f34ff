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

/// What a list tells of a kept check.
#[derive(Debug, FromRow)]
pub(super) struct KeptLine {
    pub check_id: Uuid,
    pub at: OffsetDateTime,
    pub verdict: String,
    pub procedure: Option<String>,
    pub revision: Option<i32>,
    pub work_order: Option<String>,
    pub station: Option<String>,
    pub welder: Option<String>,
    pub person_id: Option<Uuid>,
    pub key_id: Uuid,
}

/// Which kept checks a page holds.
#[derive(Debug, Clone, Copy)]
pub(super) struct Wanted<'a> {
    /// For this work order.
    pub work_order: Option<&'a str>,
    /// For this station.
    pub station: Option<&'a str>,
    /// From this moment on.
    pub from: Option<OffsetDateTime>,
    /// Before this moment.
    pub before: Option<OffsetDateTime>,
    /// Older than this check, or kept at the same moment with a smaller id.
    pub after: Option<(OffsetDateTime, Uuid)>,
    /// At most so many.
    pub limit: i64,
}

/// One page of kept checks, newest first.
pub(super) async fn page(tx: &mut TenantTx, wanted: Wanted<'_>) -> sqlx::Result<Vec<KeptLine>> {
    sqlx::query_as(
        "select check_id, at, answer ->> 'verdict' as verdict, answer #>> '{held_to,procedure}' as procedure,
                (answer #>> '{held_to,revision}')::integer as revision, work_order, station,
                setup #>> '{welder,code}' as welder, person_id, key_id
         from kept_check
         where ($1::text is null or work_order = $1)
           and ($2::text is null or station = $2)
           and ($3::timestamptz is null or at >= $3)
           and ($4::timestamptz is null or at < $4)
           and ($5::timestamptz is null or (at, check_id) < ($5, $6))
         order by at desc, check_id desc
         limit $7",
    )
    .bind(wanted.work_order)
    .bind(wanted.station)
    .bind(wanted.from)
    .bind(wanted.before)
    .bind(wanted.after.map(|(at, _)| at))
    .bind(wanted.after.map(|(_, check_id)| check_id))
    .bind(wanted.limit)
    .fetch_all(tx.connection())
    .await
}

/// When a check was kept.
pub(super) async fn moment(
    tx: &mut TenantTx,
    check_id: Uuid,
) -> sqlx::Result<Option<OffsetDateTime>> {
    sqlx::query_scalar("select at from kept_check where check_id = $1")
        .bind(check_id)
        .fetch_optional(tx.connection())
        .await
}
