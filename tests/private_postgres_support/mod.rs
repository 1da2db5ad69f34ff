//! Scratch folders, other processes, and one-line questions to a server.

mod process;

pub use process::*;

use std::{
    env, fs,
    os::unix::fs::PermissionsExt,
    path::{Path, PathBuf},
    time::{Duration, Instant},
};

use sqlx::{AssertSqlSafe, Connection, PgConnection};

/// A folder below the temporary folder, removed at the end.
pub struct Scratch(PathBuf);

impl Scratch {
    /// The database account may pass through it.
    pub fn new() -> Self {
        Self::with_mode(0o711)
    }

    /// Anyone may make files in it.
    pub fn open_to_all() -> Self {
        Self::with_mode(0o777)
    }

    fn with_mode(mode: u32) -> Self {
        let folder = env::temp_dir().join(format!("arcbounds-scratch-{}", uuid::Uuid::now_v7()));
        fs::create_dir(&folder).unwrap();
        fs::set_permissions(&folder, fs::Permissions::from_mode(mode)).unwrap();
        Self(folder)
    }

    /// The data folder in it, not made yet.
    pub fn data(&self) -> PathBuf {
        self.0.join("data")
    }

    /// A folder only its owner may enter.
    pub fn closed_folder(&self) -> PathBuf {
        let folder = self.0.join("closed");
        fs::create_dir(&folder).unwrap();
        fs::set_permissions(&folder, fs::Permissions::from_mode(0o700)).unwrap();
        folder
    }
}

impl Drop for Scratch {
    fn drop(&mut self) {
        fs::remove_dir_all(&self.0).unwrap();
    }
}

/// A connection to a server.
pub async fn connect(url: &str) -> sqlx::Result<PgConnection> {
    PgConnection::connect(url).await
}

/// Runs a statement.
pub async fn execute(url: &str, statement: &str) -> sqlx::Result<()> {
    let mut connection = connect(url).await?;
    sqlx::query(AssertSqlSafe(statement)).execute(&mut connection).await.map(drop)
}

/// The first value of a statement's first row; empty if it yields none.
pub async fn ask(url: &str, statement: &str) -> String {
    let mut connection = connect(url).await.unwrap();
    let answer = sqlx::query_scalar::<_, String>(AssertSqlSafe(statement));
    let value = answer.fetch_optional(&mut connection).await.unwrap();
    connection.close().await.unwrap();
    value.unwrap_or_default()
}

/// The process id of the server on a data folder.
pub fn postmaster(data_dir: &Path) -> u32 {
    let text = fs::read_to_string(data_dir.join("cluster/postmaster.pid")).unwrap();
    text.lines().next().unwrap().parse().unwrap()
}

/// Waits up to ten seconds for something to become true.
pub async fn until(what: &str, mut holds: impl FnMut() -> bool) {
    let deadline = Instant::now() + Duration::from_secs(10);
    while !holds() {
        assert!(Instant::now() < deadline, "not within ten seconds: {what}");
        tokio::time::sleep(Duration::from_millis(20)).await;
    }
}
