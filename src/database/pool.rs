//! Opening pools and running migrations.

use std::time::Duration;

use sqlx::{PgPool, migrate::Migrator, postgres::PgPoolOptions};

/// All migrations, inside the program.
static MIGRATIONS: Migrator = sqlx::migrate!();

/// A pool for the application role.
///
/// # Errors
/// When the URL cannot be read or no connection is had.
pub async fn open(url: &str, connections: u32) -> sqlx::Result<PgPool> {
    PgPoolOptions::new()
        .max_connections(connections)
        .acquire_timeout(Duration::from_secs(5))
        .connect(url)
        .await
}

/// Brings the schema up to date; the URL's role must own the database.
///
/// # Errors
/// When a migration fails, or one that has run was changed.
pub async fn migrate(owner_url: &str) -> Result<(), sqlx::migrate::MigrateError> {
    let pool = open(owner_url, 1).await?;
    let done = MIGRATIONS.run(&pool).await;
    pool.close().await;
    done
}
