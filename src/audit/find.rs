//! One entry of the chain.

use sqlx::{FromRow, PgConnection};
use time::OffsetDateTime;

/// Number, time and hash of an entry: enough to hold a paper against the chain.
#[derive(Debug, Clone, PartialEq, Eq, FromRow)]
pub struct Entry {
    /// Its number.
    pub number: i64,
    /// When it was written.
    pub at: OffsetDateTime,
    /// Its hash.
    pub hash: Vec<u8>,
}

/// The newest entry of this action about one revision of a record: kind, code and revision.
///
/// # Errors
/// When the database fails.
pub async fn newest(
    db: &mut PgConnection,
    (kind, subject, revision): (&str, &str, i32),
    action: &str,
) -> sqlx::Result<Option<Entry>> {
    sqlx::query_as(
        "select number, at, hash from audit_entry
         where subject = $1 and subject_kind = $2 and revision = $3 and action = $4
         order by number desc limit 1",
    )
    .bind(subject)
    .bind(kind)
    .bind(revision)
    .bind(action)
    .fetch_optional(db)
    .await
}
