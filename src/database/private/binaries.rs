//! Finds the server programs on the machine, of the right major version.

use std::{
    env,
    ffi::OsString,
    fs,
    path::{Path, PathBuf},
    process::Command,
};

use super::{account::Account, error::PrivateError};

/// Oldest major version whose SQL the service relies on.
pub(super) const OLDEST_MAJOR: u32 = 15;

/// Families of folders `PARENT/PREFIX<major>/SUFFIX` where systems keep the server programs off
/// `PATH`: Debian and Ubuntu, the RPM packages, Alpine, and two usual prefixes on macOS.
const VERSIONED: [(&str, &str, &str); 5] = [
    ("usr/lib/postgresql", "", "bin"),
    ("usr", "pgsql-", "bin"),
    ("usr/libexec", "postgresql", ""),
    ("opt/homebrew/opt", "postgresql@", "bin"),
    ("usr/local/opt", "postgresql@", "bin"),
];

/// Prefixes without a version in their name, tried last; the first is the default of the source
/// distribution.
const UNVERSIONED: [&str; 2] = ["usr/local/pgsql/bin", "opt/homebrew/bin"];

/// A folder with `initdb` and `postgres`.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Binaries {
    /// The folder.
    pub(super) folder: PathBuf,
    /// Major version of `postgres` in it.
    pub(super) major: u32,
}

/// Where to look.
#[derive(Debug)]
pub(super) struct Search {
    explicit: Option<PathBuf>,
    path: Option<OsString>,
    root: PathBuf,
}

impl Search {
    /// `ARCBOUNDS_PG_BINDIR`, then `PATH`, then the usual prefixes.
    pub(super) fn from_environment() -> Self {
        let explicit = env::var_os("ARCBOUNDS_PG_BINDIR").filter(|value| !value.is_empty());
        Self {
            explicit: explicit.map(PathBuf::from),
            path: env::var_os("PATH"),
            root: PathBuf::from("/"),
        }
    }

    /// The first folder with programs that fit: of the major version of the data if there is data,
    /// else of [`OLDEST_MAJOR`] or newer. Programs are asked under the account that will run them.
    ///
    /// # Errors
    /// [`PrivateError::IncompleteBindir`], [`PrivateError::NoBinaries`],
    /// [`PrivateError::WrongMajor`], or the first program that does not answer when none does.
    pub(super) fn find(&self, cluster: &Path, account: &Account) -> Result<Binaries, PrivateError> {
        let wanted = major_of_data(cluster);
        let fits = |major| wanted.map_or(major >= OLDEST_MAJOR, |wanted| wanted == major);
        let folders = self.folders()?;
        let mut found = Vec::new();
        let mut broken = None;
        for folder in folders.iter().filter_map(|folder| complete(folder)) {
            match major_of_program(&folder.join("postgres"), account) {
                Ok(major) if fits(major) => return Ok(Binaries { folder, major }),
                Ok(major) => found.push((folder, major)),
                Err(error) => broken = broken.or(Some(error)),
            }
        }
        if found.is_empty() {
            return Err(broken.unwrap_or(PrivateError::NoBinaries { looked_in: folders }));
        }
        Err(PrivateError::WrongMajor {
            needed: wanted.map_or(format!("{OLDEST_MAJOR} or newer"), |major| major.to_string()),
            data_dir: wanted.map(|_| cluster.to_owned()),
            found,
        })
    }

    /// The folders to try, in order. An explicit folder is the only one.
    fn folders(&self) -> Result<Vec<PathBuf>, PrivateError> {
        if let Some(explicit) = &self.explicit {
            let absolute =
                std::path::absolute(explicit).map_err(PrivateError::io("find", explicit))?;
            return match complete(&absolute) {
                Some(folder) => Ok(vec![folder]),
                None => Err(PrivateError::IncompleteBindir(explicit.clone())),
            };
        }
        let on_path = self.path.iter().flat_map(env::split_paths).filter(|dir| dir.is_absolute());
        let versioned = VERSIONED.iter().flat_map(|family| self.newest_first(*family));
        let unversioned = UNVERSIONED.iter().map(|prefix| self.root.join(prefix));
        let mut folders: Vec<PathBuf> = Vec::new();
        for folder in on_path.chain(versioned).chain(unversioned) {
            if !folders.contains(&folder) {
                folders.push(folder);
            }
        }
        Ok(folders)
    }

    fn newest_first(&self, (parent, prefix, suffix): (&str, &str, &str)) -> Vec<PathBuf> {
        let entries = fs::read_dir(self.root.join(parent)).into_iter().flatten().flatten();
        let mut versions: Vec<(u32, PathBuf)> = entries
            .filter_map(|entry| {
                let name = entry.file_name();
                let major = name.to_str()?.strip_prefix(prefix)?.parse().ok()?;
                Some((major, entry.path().join(suffix)))
            })
            .collect();
        versions.sort_unstable_by(|left, right| right.cmp(left));
        versions.into_iter().map(|(_, folder)| folder).collect()
    }
}

/// The folder with both programs, links to them followed: `PATH` often holds links only.
fn complete(folder: &Path) -> Option<PathBuf> {
    let holds_both = |dir: &Path| dir.join("initdb").is_file() && dir.join("postgres").is_file();
    if !holds_both(folder) {
        return None;
    }
    let real = fs::canonicalize(folder.join("postgres")).ok()?.parent()?.to_owned();
    Some(if holds_both(&real) { real } else { folder.to_owned() })
}

fn major_of_data(cluster: &Path) -> Option<u32> {
    fs::read_to_string(cluster.join("PG_VERSION")).ok()?.trim().parse().ok()
}

fn major_of_program(program: &Path, account: &Account) -> Result<u32, PrivateError> {
    let mut command = Command::new(program);
    command.arg("--version").env_clear().current_dir("/");
    let output = account.apply(&mut command).output().map_err(PrivateError::io("run", program))?;
    let answer = String::from_utf8_lossy(&output.stdout).into_owned();
    parse_major(&answer)
        .ok_or_else(|| PrivateError::UnknownVersion { program: program.to_owned(), answer })
}

/// Reads the major version from the answer to `postgres --version`.
fn parse_major(answer: &str) -> Option<u32> {
    let version = answer.split_once("(PostgreSQL) ")?.1;
    let digits = version.find(|c: char| !c.is_ascii_digit()).unwrap_or(version.len());
    version[..digits].parse().ok()
}

#[cfg(test)]
#[path = "binaries_tests.rs"]
mod tests;
