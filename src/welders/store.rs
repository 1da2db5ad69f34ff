//! SQL of welders' events and names. No rules here.

use sqlx::{FromRow, PgConnection};
use time::{Date, OffsetDateTime};
use uuid::Uuid;

use crate::database::Actor;

/// One thing that happened to a qualification.
#[derive(Debug, Clone, FromRow)]
pub struct EventRow {
    /// Place in the welder's history.
    pub sequence: i32,
    /// Qualification.
    pub qualification: String,
    /// What happened.
    pub event: String,
    /// Day it is for.
    pub on_day: Date,
    /// Whether a confirmation rests on use alone.
    pub by_use: bool,
    /// Option of a revalidation.
    pub option: Option<String>,
    /// Days of the welds tested for a revalidation.
    pub welds: Vec<Date>,
    /// Hash of the test as it was written then.
    pub test_hash: Vec<u8>,
    /// Who signed it.
    pub person_id: Uuid,
    /// When it was entered.
    pub at: OffsetDateTime,
}

/// Everything that happened to a welder's qualifications, in order.
///
/// # Errors
/// When the database fails.
pub async fn events(db: &mut PgConnection, code: &str) -> sqlx::Result<Vec<EventRow>> {
    sqlx::query_as(
        "select sequence, qualification, event, on_day, by_use, option, welds, test_hash, person_id, at
         from welder_event where code = $1 order by sequence",
    )
    .bind(code)
    .fetch_all(db)
    .await
}

/// An event to be written.
#[derive(Debug, Clone, Copy)]
pub(super) struct NewEvent<'a> {
    pub code: &'a str,
    pub sequence: i32,
    pub qualification: &'a str,
    pub event: &'a str,
    pub on_day: Date,
    pub by_use: bool,
    pub option: Option<&'a str>,
    pub welds: &'a [Date],
    pub reason: &'a str,
    pub test_hash: &'a [u8],
    pub person: Uuid,
}

/// Writes an event.
pub(super) async fn write_event(
    db: &mut PgConnection,
    actor: Actor,
    new: NewEvent<'_>,
) -> sqlx::Result<()> {
    sqlx::query(
        "insert into welder_event (organisation_id, code, sequence, qualification, event, on_day, by_use,
             option, welds, reason, test_hash, person_id, key_id)
         values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12, $13)",
    )
    .bind(actor.organisation)
    .bind(new.code)
    .bind(new.sequence)
    .bind(new.qualification)
    .bind(new.event)
    .bind(new.on_day)
    .bind(new.by_use)
    .bind(new.option)
    .bind(new.welds)
    .bind(new.reason)
    .bind(new.test_hash)
    .bind(new.person)
    .bind(actor.key.unwrap_or_default())
    .execute(db)
    .await?;
    Ok(())
}

/// Name behind a code, and how long it is kept.
#[derive(Debug, Clone, FromRow)]
pub(super) struct NameRow {
    pub name: Option<String>,
    pub retention: String,
    pub version: i32,
}

/// The name behind a code.
pub(super) async fn name(db: &mut PgConnection, code: &str) -> sqlx::Result<Option<NameRow>> {
    sqlx::query_as("select name, retention, version from welder_name where code = $1")
        .bind(code)
        .fetch_optional(db)
        .await
}

/// Writes the name behind a code as this version, or takes it out.
pub(super) async fn write_name(
    db: &mut PgConnection,
    organisation: Uuid,
    code: &str,
    NameRow { name, retention, version }: &NameRow,
) -> sqlx::Result<()> {
    sqlx::query(
        "insert into welder_name (organisation_id, code, name, retention, version)
         values ($1, $2, $3, $4, $5)
         on conflict (organisation_id, code)
         do update set name = excluded.name, retention = excluded.retention,
                       version = excluded.version",
    )
    .bind(organisation)
    .bind(code)
    .bind(name)
    .bind(retention)
    .bind(version)
    .execute(db)
    .await?;
    Ok(())
}
