//! Why a private PostgreSQL could not be started or stopped, in words for the person at the terminal.

use std::{
    fmt::Write as _,
    io,
    path::{Path, PathBuf},
    process::ExitStatus,
};

/// What went wrong around the private PostgreSQL.
#[derive(Debug, thiserror::Error)]
pub enum PrivateError {
    /// No PostgreSQL server programs on this machine.
    #[error(
        "no PostgreSQL server programs (initdb and postgres) were found{}.\n\
         Three ways out:\n\
         1. install the distribution's package (Debian, Ubuntu: apt-get install postgresql);\n\
         2. set ARCBOUNDS_PG_BINDIR to the folder that holds initdb and postgres;\n\
         3. set DATABASE_URL and use `arcbounds serve` with a PostgreSQL that already runs.",
        list(" in ", .looked_in)
    )]
    NoBinaries {
        /// Folders that were looked into.
        looked_in: Vec<PathBuf>,
    },
    /// The folder named by the environment lacks a program.
    #[error(
        "ARCBOUNDS_PG_BINDIR is {}, but that folder does not hold both initdb and postgres",
        .0.display()
    )]
    IncompleteBindir(PathBuf),
    /// Only programs of an unusable major version were found.
    #[error("PostgreSQL {needed} is needed{}, but only this was found:{}", reason(.data_dir.as_deref()), found_list(.found))]
    WrongMajor {
        /// The major version wanted, in words ("15", "15 or newer").
        needed: String,
        /// The data folder that asks for exactly that version, if one does.
        data_dir: Option<PathBuf>,
        /// Folders found, with their major version.
        found: Vec<(PathBuf, u32)>,
    },
    /// A `postgres --version` that cannot be read.
    #[error("{} did not state its version: {answer:?}", .program.display())]
    UnknownVersion {
        /// The program asked.
        program: PathBuf,
        /// What it printed.
        answer: String,
    },
    /// Neither a home folder nor a data folder is known.
    #[error(
        "no place for the data: HOME is not set (set HOME, XDG_DATA_HOME or name a data folder)"
    )]
    NoHome,
    /// Running as root without an account to drop to.
    #[error(
        "PostgreSQL does not run as root, and this machine has no account `postgres` or `nobody` \
         to run it under"
    )]
    NoAccount,
    /// Another program holds the data folder.
    #[error(
        "the data folder {} is in use by another arcbounds{}; stop that one first, or use another data folder",
        .data_dir.display(), holder(*.pid)
    )]
    Locked {
        /// The data folder.
        data_dir: PathBuf,
        /// The process that holds it, if it said so.
        pid: Option<u32>,
    },
    /// The data folder holds something else.
    #[error("{} is not empty and was not made by arcbounds; name another data folder", .0.display())]
    ForeignFolder(PathBuf),
    /// The database account may not enter a folder on the way to the data.
    #[error(
        "the account `{account}`, under which PostgreSQL runs, may not enter {}; \
         choose a data folder outside of private folders, such as /var/lib/arcbounds",
        .folder.display()
    )]
    NotEnterable {
        /// The folder.
        folder: PathBuf,
        /// The account.
        account: String,
    },
    /// No folder for the socket has a name short enough and belongs to us.
    #[error(
        "no folder for the database socket: its path may have {limit} bytes at most, and {} is \
         too long (set XDG_RUNTIME_DIR or TMPDIR to a short folder of your own)",
        .tried.display()
    )]
    NoSocketFolder {
        /// The folder preferred.
        tried: PathBuf,
        /// Longest path of a socket on this system.
        limit: usize,
    },
    /// `initdb` failed.
    #[error("initdb failed ({status}):\n{output}")]
    InitFailed {
        /// How it ended.
        status: ExitStatus,
        /// What it printed, the tail.
        output: String,
    },
    /// The server ended although nobody asked it to.
    #[error("PostgreSQL ended by itself ({status}); the end of its log:\n{log}")]
    Ended {
        /// How it ended.
        status: ExitStatus,
        /// The tail of its log.
        log: String,
    },
    /// The server did not become ready in time.
    #[error("PostgreSQL was not ready after {seconds} s; the end of its log:\n{log}")]
    NotReady {
        /// Seconds waited.
        seconds: u64,
        /// The tail of its log.
        log: String,
    },
    /// A server left over by a killed program does not stop.
    #[error(
        "a PostgreSQL left over from an earlier run (process {pid}) does not stop; end it by hand"
    )]
    OrphanStuck {
        /// Its process id.
        pid: u32,
    },
    /// The task or thread that looks after the server is gone.
    #[error("the task that looks after PostgreSQL was interrupted")]
    Interrupted,
    /// A call to the operating system failed.
    #[error("could not {action} {}", .path.display())]
    Io {
        /// What was tried, as a verb.
        action: &'static str,
        /// On what.
        path: PathBuf,
        /// The system's answer.
        #[source]
        source: io::Error,
    },
}

impl PrivateError {
    /// For `map_err`: names the action and the path beside the system's answer.
    pub(super) fn io(action: &'static str, path: &Path) -> impl FnOnce(io::Error) -> Self {
        let path = path.to_owned();
        move |source| Self::Io { action, path, source }
    }
}

fn list(intro: &str, folders: &[PathBuf]) -> String {
    let names: Vec<String> = folders.iter().map(|folder| folder.display().to_string()).collect();
    if names.is_empty() { String::new() } else { format!("{intro}{}", names.join(", ")) }
}

fn found_list(found: &[(PathBuf, u32)]) -> String {
    found.iter().fold(String::new(), |mut text, (folder, major)| {
        // Writing to a String does not fail.
        let _ = write!(text, "\n{} (PostgreSQL {major})", folder.display());
        text
    })
}

fn reason(data_dir: Option<&Path>) -> String {
    data_dir.map_or_else(String::new, |folder| {
        format!(" by the data in {} (it is never upgraded unasked)", folder.display())
    })
}

fn holder(pid: Option<u32>) -> String {
    pid.map_or_else(String::new, |pid| format!(" (process {pid})"))
}
