//! The roles and the database of the service in a private PostgreSQL.
//!
//! The service connects as a role that owns nothing, so that row-level security binds it; another
//! role owns the database and runs the migrations.

use sqlx::{
    AssertSqlSafe, ConnectOptions as _, Connection as _, PgConnection, postgres::PgConnectOptions,
};

/// Owns the database and everything in it; runs the migrations.
pub const OWNER: &str = "arcbounds_owner";
/// The service's own role: may connect, owns nothing, is bound by row-level security.
pub const APP: &str = "arcbounds_app";

/// Key of the advisory lock under which roles and database are made; an arbitrary constant.
const LOCK_KEY: i64 = 0x6172_6362_6f75_6e64;

/// Why roles or database could not be made.
#[derive(Debug, thiserror::Error)]
pub enum RolesError {
    /// Not a plain lower-case name.
    #[error(
        "{0:?} is no name for a database: use a to z, 0 to 9 and _, a letter first, at most 63"
    )]
    Name(String),
    /// The database refused.
    #[error("could not prepare roles and database")]
    Database(#[from] sqlx::Error),
}

/// Makes the roles [`OWNER`] and [`APP`] and the database, or brings existing ones to the same
/// state. Safe to call again, and by several programs at once.
///
/// # Errors
/// [`RolesError::Name`] for a name that is not plain; [`RolesError::Database`] if the address
/// does not lead to a superuser's connection.
pub async fn ensure(superuser_url: &str, database: &str) -> Result<(), RolesError> {
    if !is_plain(database) {
        return Err(RolesError::Name(database.to_owned()));
    }
    let options: PgConnectOptions = superuser_url.parse()?;
    let mut connection = options.connect().await?;
    // Held until the connection closes.
    sqlx::query("select pg_advisory_lock($1)").bind(LOCK_KEY).execute(&mut connection).await?;
    for role in [OWNER, APP] {
        ensure_role(&mut connection, role).await?;
    }
    ensure_database(&mut connection, database).await?;
    connection.close().await?;
    Ok(())
}

async fn ensure_role(connection: &mut PgConnection, role: &str) -> sqlx::Result<()> {
    let known: bool = sqlx::query_scalar("select exists (select from pg_roles where rolname = $1)")
        .bind(role)
        .fetch_one(&mut *connection)
        .await?;
    let verb = if known { "alter" } else { "create" };
    let statement = format!(
        "{verb} role {role} login nosuperuser nobypassrls nocreatedb nocreaterole noreplication"
    );
    sqlx::query(AssertSqlSafe(statement)).execute(connection).await.map(drop)
}

async fn ensure_database(connection: &mut PgConnection, database: &str) -> sqlx::Result<()> {
    let known: bool =
        sqlx::query_scalar("select exists (select from pg_database where datname = $1)")
            .bind(database)
            .fetch_one(&mut *connection)
            .await?;
    let first = if known {
        format!("alter database {database} owner to {OWNER}")
    } else {
        format!("create database {database} owner {OWNER}")
    };
    let statements = [
        first,
        format!("revoke all on database {database} from public"),
        format!("grant connect on database {database} to {APP}"),
    ];
    for statement in statements {
        sqlx::query(AssertSqlSafe(statement)).execute(&mut *connection).await?;
    }
    Ok(())
}

/// Plain names need no quotes; 63 bytes is PostgreSQL's longest name (manual of version 15, 4.1.1).
fn is_plain(name: &str) -> bool {
    let inner = |byte: u8| byte.is_ascii_lowercase() || byte.is_ascii_digit() || byte == b'_';
    name.len() <= 63
        && name.starts_with(|first: char| first.is_ascii_lowercase())
        && name.bytes().all(inner)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_plain_names_pass() {
        assert!(is_plain("arcbounds") && is_plain("t_0") && is_plain(&"a".repeat(63)));
        for name in ["", "1a", "_a", "Aa", "a-b", "a\"b", "a b", "ä", &"a".repeat(64)] {
            assert!(!is_plain(name), "{name:?}");
        }
    }
}
