//! The account the server runs under: PostgreSQL refuses root.

use std::{
    fs, io,
    os::unix::{
        fs::{MetadataExt, PermissionsExt, chown},
        process::CommandExt,
    },
    path::Path,
    process::{Command, Stdio},
};

use super::error::PrivateError;

/// Who runs `initdb` and `postgres`.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum Account {
    /// Whoever runs this program.
    Own,
    /// Another account, dropped to from root.
    Other {
        /// Its name.
        name: String,
        /// Its user id.
        uid: u32,
        /// Its primary group id.
        gid: u32,
    },
}

impl Account {
    /// The account for a cluster: the present one unless that is root; then the owner of an
    /// existing cluster, else `postgres`, else `nobody`.
    ///
    /// # Errors
    /// [`PrivateError::NoAccount`] for root on a machine with neither account.
    pub(super) fn for_cluster(cluster: &Path) -> Result<Self, PrivateError> {
        if !rustix::process::geteuid().is_root() {
            return Ok(Self::Own);
        }
        // initdb looks its account up by name, so the account must be listed.
        let listed = fs::read_to_string("/etc/passwd").unwrap_or_default();
        let owner = fs::metadata(cluster).ok().map(|found| found.uid());
        choose(&listed, owner).ok_or(PrivateError::NoAccount)
    }

    /// Makes a command run under this account. Supplementary groups are dropped by the standard
    /// library when root changes user.
    pub(super) fn apply<'c>(&self, command: &'c mut Command) -> &'c mut Command {
        match self {
            Self::Own => command,
            Self::Other { uid, gid, .. } => command.uid(*uid).gid(*gid),
        }
    }

    /// The user id the server's files belong to.
    pub(super) fn uid(&self) -> u32 {
        match self {
            Self::Own => rustix::process::geteuid().as_raw(),
            Self::Other { uid, .. } => *uid,
        }
    }

    /// Gives a folder to this account and closes it to everyone else.
    pub(super) fn take(&self, folder: &Path) -> io::Result<()> {
        if let Self::Other { uid, gid, .. } = self {
            chown(folder, Some(*uid), Some(*gid))?;
        }
        fs::set_permissions(folder, fs::Permissions::from_mode(0o700))
    }

    /// Refuses a folder this account cannot enter, for which the only sure test is to try.
    pub(super) fn must_enter(&self, folder: &Path) -> Result<(), PrivateError> {
        let Self::Other { name, .. } = self else { return Ok(()) };
        let mut command = Command::new("/bin/sh");
        command.args(["-c", ":"]).env_clear().current_dir(folder).stdin(Stdio::null());
        match self.apply(&mut command).status() {
            Err(error) if error.kind() == io::ErrorKind::PermissionDenied => {
                Err(PrivateError::NotEnterable { folder: folder.into(), account: name.clone() })
            }
            outcome => outcome.map(drop).map_err(PrivateError::io("enter", folder)),
        }
    }
}

/// Picks from the text of `/etc/passwd`; never root.
fn choose(listed: &str, owner: Option<u32>) -> Option<Account> {
    let accounts = || listed.lines().filter_map(parse_line);
    let by_owner = accounts().find(|(_, uid, _)| Some(*uid) == owner);
    let by_name = |wanted: &str| accounts().find(|(name, _, _)| *name == wanted);
    by_owner
        .or_else(|| by_name("postgres"))
        .or_else(|| by_name("nobody"))
        .map(|(name, uid, gid)| Account::Other { name: name.to_owned(), uid, gid })
}

fn parse_line(line: &str) -> Option<(&str, u32, u32)> {
    let mut fields = line.split(':');
    let name = fields.next()?;
    let uid = fields.nth(1)?.parse().ok()?;
    let gid = fields.next()?.parse().ok()?;
    (uid != 0).then_some((name, uid, gid))
}

#[cfg(test)]
mod tests {
    use super::*;

    // Layout of the file: passwd(5), seven fields parted by colons.
    const LISTED: &str = "root:x:0:0:root:/root:/bin/bash\n\
        nobody:x:65534:65533:nobody:/nonexistent:/usr/sbin/nologin\n\
        postgres:x:101:104:PostgreSQL administrator,,,:/var/lib/postgresql:/bin/bash\n";

    fn chosen(listed: &str, owner: Option<u32>) -> Option<(String, u32, u32)> {
        match choose(listed, owner)? {
            Account::Own => None,
            Account::Other { name, uid, gid } => Some((name, uid, gid)),
        }
    }

    #[test]
    fn the_database_account_comes_before_nobody() {
        assert_eq!(chosen(LISTED, None), Some(("postgres".into(), 101, 104)));
    }

    #[test]
    fn an_existing_cluster_keeps_its_owner() {
        assert_eq!(chosen(LISTED, Some(65534)), Some(("nobody".into(), 65534, 65533)));
    }

    #[test]
    fn root_is_never_chosen_even_as_owner() {
        assert_eq!(chosen(LISTED, Some(0)), Some(("postgres".into(), 101, 104)));
        assert_eq!(
            chosen("root:x:0:0:root:/root:/bin/bash\npostgres:x:0:0::/:/bin/sh\n", None),
            None
        );
    }
}
