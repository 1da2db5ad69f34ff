//! Own packs in the database, beside what records are in general.

use sqlx::PgConnection;

/// Keys of the own packs in use, at most this many.
///
/// # Errors
/// A failing database.
pub(super) async fn own_keys(db: &mut PgConnection, most: i64) -> sqlx::Result<Vec<String>> {
    sqlx::query_scalar(
        "select code from record where kind = 'rule-pack' and state <> 'withdrawn' order by code limit $1",
    )
    .bind(most)
    .fetch_all(db)
    .await
}
