//! The folders and files of one private PostgreSQL.

use std::{
    env,
    fs::{self, DirBuilder, Permissions},
    io,
    os::unix::{
        ffi::OsStrExt,
        fs::{DirBuilderExt, MetadataExt, PermissionsExt},
    },
    path::{Path, PathBuf},
};

use sha2::{Digest, Sha256};

use super::{account::Account, error::PrivateError};

/// Name of the socket below its folder; the number is part of the name only, no port is opened.
pub(super) const SOCKET_NAME: &str = ".s.PGSQL.5432";

/// Longest path of a unix socket in bytes, without the closing zero. Source: `sun_path` in unix(7)
/// is 108 bytes on Linux; 104 on macOS and the BSDs (from memory).
const SOCKET_PATH_LIMIT: usize = if cfg!(target_os = "linux") { 107 } else { 103 };

/// Where things are below the data folder.
#[derive(Debug, Clone)]
pub(super) struct Folders {
    /// The data folder itself.
    pub(super) root: PathBuf,
    /// The cluster, complete once it exists.
    pub(super) cluster: PathBuf,
    /// A cluster being made.
    pub(super) unfinished: PathBuf,
    /// The lock file; also the mark that the folder is ours.
    pub(super) lock: PathBuf,
    /// Log of the running server.
    pub(super) log: PathBuf,
}

impl Folders {
    /// Names the folders below an absolute data folder.
    pub(super) fn below(root: PathBuf) -> Self {
        Self {
            cluster: root.join("cluster"),
            unfinished: root.join("cluster.unfinished"),
            lock: root.join("arcbounds.lock"),
            log: root.join("server.log"),
            root,
        }
    }

    /// Makes the data folder, closed to others but for passing through to the account's folders.
    /// A folder with someone else's files in it is refused before anything is changed.
    pub(super) fn make_root(&self, account: &Account) -> Result<(), PrivateError> {
        let root = &self.root;
        fs::create_dir_all(root).map_err(PrivateError::io("create", root))?;
        let mut entries = fs::read_dir(root).map_err(PrivateError::io("read", root))?;
        if entries.next().is_some() && !self.lock.exists() {
            return Err(PrivateError::ForeignFolder(root.clone()));
        }
        let mode = if *account == Account::Own { 0o700 } else { 0o711 };
        fs::set_permissions(root, Permissions::from_mode(mode))
            .map_err(PrivateError::io("set the permissions of", root))
    }

    /// Makes the folder for the socket: below the data folder, else, where that path is too long
    /// for a socket, in the run-time folder or the temporary folder.
    pub(super) fn make_socket_folder(&self, account: &Account) -> Result<PathBuf, PrivateError> {
        let preferred = self.root.join("sockets");
        let hash = hex::encode(Sha256::digest(self.root.as_os_str().as_bytes()));
        let short = format!("arcbounds-{}", &hash[..12]);
        let elsewhere = run_time_folders(account).into_iter().map(|folder| folder.join(&short));
        for folder in std::iter::once(preferred.clone()).chain(elsewhere) {
            if fits_a_socket(&folder) && claim(&folder, account).is_ok() {
                return Ok(folder);
            }
        }
        Err(PrivateError::NoSocketFolder { tried: preferred, limit: SOCKET_PATH_LIMIT })
    }
}

/// The data folder of the demo: as root `/var/lib/arcbounds`, which the database account can
/// enter; else `$XDG_DATA_HOME/arcbounds` or `~/.local/share/arcbounds` (XDG Base Directory
/// Specification 0.8).
///
/// # Errors
/// [`PrivateError::NoHome`] for a plain user without `HOME` and `XDG_DATA_HOME`.
pub fn default_data_dir() -> Result<PathBuf, PrivateError> {
    if rustix::process::geteuid().is_root() {
        return Ok(PathBuf::from("/var/lib/arcbounds"));
    }
    user_data_dir(env::var_os("XDG_DATA_HOME").map(PathBuf::from), env::home_dir())
        .ok_or(PrivateError::NoHome)
}

/// Relative paths in `XDG_DATA_HOME` are to be ignored, says the specification.
fn user_data_dir(xdg: Option<PathBuf>, home: Option<PathBuf>) -> Option<PathBuf> {
    let absolute = |path: &PathBuf| path.is_absolute();
    let from_home = || home.filter(absolute).map(|home| home.join(".local/share"));
    xdg.filter(absolute).or_else(from_home).map(|folder| folder.join("arcbounds"))
}

fn run_time_folders(account: &Account) -> Vec<PathBuf> {
    let own = match account {
        Account::Own => env::var_os("XDG_RUNTIME_DIR").map(PathBuf::from),
        Account::Other { .. } => Some(PathBuf::from("/run")),
    };
    let folders = own.into_iter().chain([env::temp_dir(), PathBuf::from("/tmp")]);
    folders.filter(|folder| folder.is_absolute()).collect()
}

/// Whether a socket in this folder has a path short enough, which a URL can carry.
fn fits_a_socket(folder: &Path) -> bool {
    let path = folder.join(SOCKET_NAME);
    path.as_os_str().len() <= SOCKET_PATH_LIMIT && path.to_str().is_some()
}

/// Makes a folder only the account may enter. An existing one must be a real folder of the
/// account: in a shared temporary folder someone else could have put a link there.
fn claim(folder: &Path, account: &Account) -> Result<(), PrivateError> {
    let claimed = match DirBuilder::new().mode(0o700).create(folder) {
        Err(error) if error.kind() == io::ErrorKind::AlreadyExists => {
            let found = fs::symlink_metadata(folder).map_err(PrivateError::io("read", folder))?;
            if found.is_dir() && found.uid() == account.uid() {
                fs::set_permissions(folder, Permissions::from_mode(0o700))
            } else {
                Err(error)
            }
        }
        created => created.and_then(|()| account.take(folder)),
    };
    claimed.map_err(PrivateError::io("create", folder))?;
    account.must_enter(folder)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn data_home_is_used_when_absolute() {
        // XDG Base Directory Specification 0.8: default $HOME/.local/share; relative is invalid.
        let home = || Some(PathBuf::from("/home/p"));
        let expected = |path: &str| Some(PathBuf::from(path));
        assert_eq!(user_data_dir(Some("/d".into()), home()), expected("/d/arcbounds"));
        let default = expected("/home/p/.local/share/arcbounds");
        assert_eq!(user_data_dir(None, home()), default);
        assert_eq!(user_data_dir(Some("d".into()), home()), default);
        assert_eq!(user_data_dir(Some("".into()), home()), default);
        assert_eq!(user_data_dir(None, None), None);
    }

    #[cfg(target_os = "linux")]
    #[test]
    fn socket_path_of_107_bytes_fits_and_108_does_not() {
        // unix(7): sun_path has 108 bytes including the closing zero. The name takes 14 with its
        // slash, so the folder may take 93 (own arithmetic).
        assert!(fits_a_socket(Path::new(&format!("/{}", "a".repeat(92)))));
        assert!(!fits_a_socket(Path::new(&format!("/{}", "a".repeat(93)))));
    }

    #[test]
    fn a_link_in_place_of_the_socket_folder_is_refused() {
        let link = env::temp_dir().join(format!("arcbounds-link-{}", uuid::Uuid::now_v7()));
        std::os::unix::fs::symlink("/", &link).unwrap();
        let claimed = claim(&link, &Account::Own);
        fs::remove_file(&link).unwrap();
        assert!(matches!(claimed, Err(PrivateError::Io { .. })));
    }
}
