//! SQL of audit entries and of the documents they name.

use serde_json::{Value, json};
use sqlx::{FromRow, PgConnection};
use time::OffsetDateTime;
use uuid::Uuid;

use super::{chain::Place, walk::Wanted};
use crate::database::Hashed;

/// One entry.
#[derive(Debug, Clone, FromRow)]
pub(super) struct EntryRow {
    pub number: i64,
    pub at: OffsetDateTime,
    pub person_id: Option<Uuid>,
    pub key_id: Option<Uuid>,
    pub action: String,
    pub subject_kind: String,
    pub subject: String,
    pub revision: Option<i32>,
    pub document_hash: Option<Vec<u8>>,
    pub changes_rules: bool,
    pub previous_hash: Vec<u8>,
    pub hash: Vec<u8>,
    pub format: i16,
    pub details: Option<Value>,
    pub details_hash: Option<Vec<u8>>,
}

impl EntryRow {
    /// The object that the hash is taken over.
    pub(super) fn object(&self) -> Value {
        Hashed {
            format: self.format,
            number: self.number,
            at: self.at,
            person: self.person_id,
            key: self.key_id,
            action: &self.action,
            kind: &self.subject_kind,
            subject: &self.subject,
            revision: self.revision,
            document_hash: self.document_hash.as_deref(),
            details_hash: self.details_hash.as_deref(),
            changes_rules: self.changes_rules,
            previous: &self.previous_hash,
        }
        .object()
    }
}

macro_rules! entry_columns {
    () => {
        "select number, at, person_id, key_id, action, subject_kind, subject, revision, document_hash,
                changes_rules, previous_hash, hash, format, details, details_hash
         from audit_entry "
    };
}

/// Entries after a number, in order.
pub(super) async fn page(
    db: &mut PgConnection,
    after: i64,
    subject: Option<&str>,
    limit: i64,
) -> sqlx::Result<Vec<EntryRow>> {
    sqlx::query_as(concat!(
        entry_columns!(),
        "where number > $1 and ($2::text is null or subject = $2) order by number limit $3"
    ))
    .bind(after)
    .bind(subject)
    .bind(limit)
    .fetch_all(db)
    .await
}

/// Lets the database give up a statement of this transaction after a while.
pub(super) async fn limit_time(db: &mut PgConnection, seconds: u32) -> sqlx::Result<()> {
    sqlx::query("select set_config('statement_timeout', $1, true)")
        .bind(format!("{seconds}s"))
        .execute(db)
        .await?;
    Ok(())
}

/// The head as its row tells it.
#[derive(Debug, Clone, FromRow)]
pub(super) struct HeadRow {
    pub number: i64,
    pub hash: Vec<u8>,
    pub rulebook_version: i64,
}

impl HeadRow {
    pub(super) fn place(&self) -> Place {
        Place { number: self.number, hash: hex::encode(&self.hash) }
    }
}

/// The head; `None` where its row is gone.
pub(super) async fn head(db: &mut PgConnection) -> sqlx::Result<Option<HeadRow>> {
    sqlx::query_as("select number, hash, rulebook_version from audit_head").fetch_optional(db).await
}

/// The entry with this number, as a place.
pub(super) async fn place(db: &mut PgConnection, number: i64) -> sqlx::Result<Option<Place>> {
    let hash: Option<Vec<u8>> =
        sqlx::query_scalar("select hash from audit_entry where number = $1")
            .bind(number)
            .fetch_optional(db)
            .await?;
    Ok(hash.map(|hash| Place { number, hash: hex::encode(hash) }))
}

/// Number of the last entry that names settings.
pub(super) async fn last_settings(db: &mut PgConnection) -> sqlx::Result<Option<i64>> {
    sqlx::query_scalar(
        "select max(number) from audit_entry
         where subject_kind = 'organisation' and document_hash is not null",
    )
    .fetch_one(db)
    .await
}

/// The settings as they are.
pub(super) async fn settings(db: &mut PgConnection) -> sqlx::Result<Option<Value>> {
    sqlx::query_scalar("select settings from organisation").fetch_optional(db).await
}

/// Documents of revisions, each with the number of the entry that wants it. An entry of the first format says
/// which revision, not which edit: where no edit has the hash it names, the last one stands for it.
pub(super) async fn revisions(
    db: &mut PgConnection,
    wanted: &[Wanted<'_>],
) -> sqlx::Result<Vec<(i64, Value)>> {
    let each = |of: fn(&Wanted<'_>) -> String| wanted.iter().map(of).collect::<Vec<_>>();
    let numbers: Vec<_> = wanted.iter().map(|one| one.number).collect();
    let revisions: Vec<_> = wanted.iter().map(|one| one.revision).collect();
    let edits: Vec<_> = wanted.iter().map(|one| one.edit).collect();
    let hashes: Vec<_> = wanted.iter().map(|one| one.hash).collect();
    sqlx::query_as(
        "select w.number, v.document
         from unnest($1::bigint[], $2::text[], $3::text[], $4::int[], $5::int[], $6::bytea[])
             as w (number, kind, code, revision, edit, hash)
         join lateral (
             select n.document from record_revision n
             where (n.kind, n.code, n.revision) = (w.kind, w.code, w.revision)
               and (w.edit is null or n.edit = w.edit)
             order by n.document_hash = w.hash desc, n.edit desc limit 1
         ) v on true",
    )
    .bind(numbers)
    .bind(each(|one| one.kind.to_owned()))
    .bind(each(|one| one.code.to_owned()))
    .bind(revisions)
    .bind(edits)
    .bind(hashes)
    .fetch_all(db)
    .await
}

/// Setup and answer of kept checks, as they were hashed.
pub(super) async fn checks(
    db: &mut PgConnection,
    wanted: &[Uuid],
) -> sqlx::Result<Vec<(Uuid, Value)>> {
    let found: Vec<(Uuid, Value, Value)> =
        sqlx::query_as("select check_id, setup, answer from kept_check where check_id = any($1)")
            .bind(wanted)
            .fetch_all(db)
            .await?;
    let whole = |(id, setup, answer)| (id, json!({ "setup": setup, "answer": answer }));
    Ok(found.into_iter().map(whole).collect())
}
