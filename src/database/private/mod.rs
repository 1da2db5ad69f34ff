//! A private PostgreSQL for the demo and the tests, from the server programs on the machine.
//!
//! It needs no set-up: the cluster is made on the first start in a folder of its own, the server
//! listens on a unix socket in a folder only its account may enter, and it stops with this program,
//! also when that is killed. No port is opened, no password exists: who may enter the folder may
//! connect.
//!
//! [`PrivatePostgres::start`] takes the lock of the data folder, finds the programs, stops a
//! server left over by a killed program, makes the cluster if needed, and starts the server.

mod account;
mod binaries;
mod cluster;
mod error;
mod folders;
mod janitor;
mod lock;
mod pid_file;
mod postmaster;
mod programs;
pub mod roles;
mod server;
mod takeover;

use std::{
    env,
    path::{Path, PathBuf},
};

pub use error::PrivateError;
pub use folders::default_data_dir;

use account::Account;
use binaries::Search;
use folders::Folders;
use janitor::Janitor;
use lock::FolderLock;
use server::{Server, Site};

/// What a loss of power may cost.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Durability {
    /// Nothing that was committed. For records people rely on.
    Durable,
    /// Everything: faster, for tests. A data folder made by the start, or found empty by it, is
    /// removed at the end, also when the program is killed or keeps the server in a static.
    Throwaway,
}

impl Durability {
    /// Server settings of this kind. Tests run many pools side by side.
    fn settings(self) -> &'static [&'static str] {
        match self {
            Self::Durable => {
                &["fsync=on", "synchronous_commit=on", "full_page_writes=on", "max_connections=40"]
            }
            Self::Throwaway => &[
                "fsync=off",
                "synchronous_commit=off",
                "full_page_writes=off",
                "max_connections=100",
            ],
        }
    }
}

/// Where the data lies and how safe it is.
#[derive(Debug, Clone)]
pub struct Options {
    /// The data folder: empty, missing, or made by an earlier start.
    pub data_dir: PathBuf,
    /// What a loss of power may cost.
    pub durability: Durability,
}

impl Options {
    /// A throw-away server in a new folder below the temporary folder.
    #[must_use]
    pub fn throwaway() -> Self {
        let name = format!("arcbounds-test-{}", uuid::Uuid::now_v7().simple());
        Self { data_dir: env::temp_dir().join(name), durability: Durability::Throwaway }
    }
}

/// A running private PostgreSQL.
///
/// Call [`stop`](Self::stop) when done. Dropping it instead stops the server too, but blocks the
/// thread until the server has ended.
#[derive(Debug)]
pub struct PrivatePostgres {
    sockets: PathBuf,
    server: Server,
}

impl PrivatePostgres {
    /// Starts the server and returns once it accepts connections: about 1.3 s on the first start,
    /// 0.2 s later.
    ///
    /// # Errors
    /// [`PrivateError`], whose text tells the user what to do. The data folder being in use by
    /// another program is [`PrivateError::Locked`].
    pub async fn start(options: Options) -> Result<Self, PrivateError> {
        let site = blocking(move || prepare(&options)).await?;
        takeover::stop_orphan(&site.folders.cluster).await?;
        let site = blocking(move || {
            cluster::ensure(&site.folders, &site.binaries, &site.account, site.durability)?;
            Ok(site)
        })
        .await?;
        let sockets = site.sockets.clone();
        Ok(Self { sockets, server: Server::start(site).await? })
    }

    /// The address of a database as a role, for the pool. Every part that the environment could
    /// change is stated.
    #[must_use]
    pub fn url(&self, database: &str, role: &str) -> String {
        url(&self.sockets, database, role)
    }

    /// Stops the server: open transactions are rolled back, everything committed is on disk.
    ///
    /// # Errors
    /// [`PrivateError::Ended`] if the server had ended by itself before.
    pub async fn stop(self) -> Result<(), PrivateError> {
        self.server.stop().await
    }
}

/// Everything before the server: folder, lock, account, programs, socket.
fn prepare(options: &Options) -> Result<Site, PrivateError> {
    let given = &options.data_dir;
    let root = std::path::absolute(given).map_err(PrivateError::io("find", given))?;
    let folders = Folders::below(root);
    let account = Account::for_cluster(&folders.cluster)?;
    let binaries = Search::from_environment().find(&folders.cluster, &account)?;
    let fresh = !folders.lock.exists();
    folders.make_root(&account)?;
    let lock = FolderLock::take(&folders.lock, &folders.root)?;
    account.must_enter(&folders.root)?;
    let sockets = folders.make_socket_folder(&account)?;
    let janitor = if fresh && options.durability == Durability::Throwaway {
        let hired = Janitor::hire(&folders.root, &sockets);
        Some(hired.map_err(PrivateError::io("arrange the removal of", &folders.root))?)
    } else {
        None
    };
    Ok(Site { folders, sockets, binaries, account, durability: options.durability, janitor, lock })
}

/// Runs blocking work on a thread that lasts until it is done.
async fn blocking<T: Send + 'static>(
    work: impl FnOnce() -> Result<T, PrivateError> + Send + 'static,
) -> Result<T, PrivateError> {
    tokio::task::spawn_blocking(work).await.unwrap_or(Err(PrivateError::Interrupted))
}

fn url(sockets: &Path, database: &str, role: &str) -> String {
    let [role, database] = [role, database].map(|part| escaped(part.as_bytes(), b""));
    let host = escaped(sockets.display().to_string().as_bytes(), b"/");
    format!("postgres://{role}@localhost:5432/{database}?host={host}&sslmode=disable")
}

/// Percent-encoding of everything but RFC 3986 "unreserved" and the bytes given.
fn escaped(bytes: &[u8], keep: &[u8]) -> String {
    let plain =
        |byte: u8| byte.is_ascii_alphanumeric() || b"-._~".contains(&byte) || keep.contains(&byte);
    bytes
        .iter()
        .map(
            |&byte| if plain(byte) { char::from(byte).to_string() } else { format!("%{byte:02X}") },
        )
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn url_leaves_nothing_to_the_environment() {
        assert_eq!(
            url(Path::new("/var/lib/arc bounds/s&t"), "shop", "app"),
            "postgres://app@localhost:5432/shop?host=/var/lib/arc%20bounds/s%26t&sslmode=disable"
        );
    }

    #[test]
    fn escaping_is_that_of_the_standard() {
        // RFC 3986, section 2.3 and 2.1: unreserved characters stay, others are %HEXHEX of UTF-8;
        // U+00FC is C3 BC.
        assert_eq!(escaped("a-Z.0_~/%ü".as_bytes(), b""), "a-Z.0_~%2F%25%C3%BC");
    }
}
