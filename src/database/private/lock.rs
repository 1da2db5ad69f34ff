//! One program per data folder.

use std::{
    fs::{File, OpenOptions, TryLockError},
    io::{Read as _, Seek as _, Write as _},
    os::unix::fs::OpenOptionsExt,
    path::Path,
};

use super::error::PrivateError;

/// Holds the data folder for this program. The system releases it when the program ends, however
/// it ends, so a stale lock cannot exist.
#[derive(Debug)]
pub(super) struct FolderLock {
    /// Never read again: the lock lives as long as the open file.
    _file: File,
}

impl FolderLock {
    /// Takes the lock and writes the own process id into the file, for the message of whoever
    /// comes second.
    ///
    /// # Errors
    /// [`PrivateError::Locked`] with the holder's process id.
    pub(super) fn take(path: &Path, data_dir: &Path) -> Result<Self, PrivateError> {
        let mut options = OpenOptions::new();
        options.read(true).write(true).create(true).truncate(false).mode(0o600);
        let mut file = options.open(path).map_err(PrivateError::io("open", path))?;
        match file.try_lock() {
            Ok(()) => {}
            Err(TryLockError::WouldBlock) => {
                let mut text = String::new();
                let pid =
                    file.read_to_string(&mut text).ok().and_then(|_| text.trim().parse().ok());
                return Err(PrivateError::Locked { data_dir: data_dir.to_owned(), pid });
            }
            Err(TryLockError::Error(error)) => return Err(PrivateError::io("lock", path)(error)),
        }
        let mut write_pid = || {
            file.set_len(0)?;
            file.rewind()?;
            writeln!(file, "{}", std::process::id())
        };
        write_pid().map_err(PrivateError::io("write", path))?;
        Ok(Self { _file: file })
    }
}
