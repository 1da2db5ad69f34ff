//! SQL of audit entries.

use sqlx::{FromRow, PgConnection};
use time::OffsetDateTime;
use uuid::Uuid;

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
}

/// Entries after a number, in order.
pub(super) async fn page(
    db: &mut PgConnection,
    after: i64,
    subject: Option<&str>,
    limit: i64,
) -> sqlx::Result<Vec<EntryRow>> {
    sqlx::query_as(
        "select number, at, person_id, key_id, action, subject_kind, subject, revision, document_hash,
                changes_rules, previous_hash, hash
         from audit_entry
         where number > $1 and ($2::text is null or subject = $2)
         order by number limit $3",
    )
    .bind(after)
    .bind(subject)
    .bind(limit)
    .fetch_all(db)
    .await
}
