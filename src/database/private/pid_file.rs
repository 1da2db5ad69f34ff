//! `postmaster.pid`, by which PostgreSQL marks a cluster in use.
//!
//! Source: `src/include/utils/pidfile.h` of PostgreSQL, unchanged since version 10: line 1 is the
//! process id, line 5 the socket folder, line 8 the status, padded with blanks.

use std::{
    fs,
    path::{Path, PathBuf},
};

/// How far a server is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Status {
    /// Accepts connections.
    Ready,
    /// On its way up or down, or not stated yet.
    Changing,
}

/// What the file says.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct PidFile {
    /// Process id of the server.
    pub(super) pid: u32,
    /// Folder of its socket, if stated yet.
    pub(super) socket_folder: Option<PathBuf>,
    /// How far it is.
    pub(super) status: Status,
}

impl PidFile {
    /// Path of the file in a cluster.
    pub(super) fn path(cluster: &Path) -> PathBuf {
        cluster.join("postmaster.pid")
    }

    /// Reads the file; none if it is missing, or not written far enough to name a process.
    pub(super) fn read(cluster: &Path) -> Option<Self> {
        Self::parse(&fs::read_to_string(Self::path(cluster)).ok()?)
    }

    fn parse(text: &str) -> Option<Self> {
        let lines: Vec<&str> = text.lines().map(str::trim).collect();
        let pid = lines.first()?.parse().ok()?;
        let socket_folder = lines.get(4).filter(|line| !line.is_empty()).map(PathBuf::from);
        let status = match lines.get(7) {
            Some(&"ready") => Status::Ready,
            _ => Status::Changing,
        };
        Some(Self { pid, socket_folder, status })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    // As written by PostgreSQL 15.18.
    const READY: &str =
        "4711\n/data/cluster\n1795645389\n5432\n/data/sockets\n\n  6159379         3\nready   \n";

    #[test]
    fn ready_server_is_read() {
        let expected = PidFile {
            pid: 4711,
            socket_folder: Some("/data/sockets".into()),
            status: Status::Ready,
        };
        assert_eq!(PidFile::parse(READY), Some(expected));
    }

    #[test]
    fn stopping_or_unfinished_files_are_not_ready() {
        for status in ["stopping", "starting", ""] {
            let text = READY.replace("ready   ", status);
            assert_eq!(PidFile::parse(&text).unwrap().status, Status::Changing, "{status}");
        }
        let begun = PidFile::parse("4711\n").unwrap();
        assert_eq!((begun.socket_folder, begun.status), (None, Status::Changing));
        assert_eq!(PidFile::parse(""), None);
    }
}
