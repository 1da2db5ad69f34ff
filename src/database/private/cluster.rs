//! Makes the cluster on the first start.

use std::{fs, io, path::Path};

use super::{
    Durability,
    account::Account,
    binaries::Binaries,
    error::PrivateError,
    folders::Folders,
    programs::{command, tail_of},
};

/// Makes the cluster if there is none. It is made beside its place and moved there when complete,
/// so that a start broken off leaves nothing half made. Blocks for about a second.
///
/// # Errors
/// [`PrivateError::InitFailed`] with what `initdb` printed; a folder that cannot be made or moved.
pub(super) fn ensure(
    folders: &Folders,
    binaries: &Binaries,
    account: &Account,
    durability: Durability,
) -> Result<(), PrivateError> {
    if folders.cluster.exists() {
        return Ok(());
    }
    let unfinished = &folders.unfinished;
    remove(unfinished).map_err(PrivateError::io("remove", unfinished))?;
    fs::create_dir(unfinished).map_err(PrivateError::io("create", unfinished))?;
    account.take(unfinished).map_err(PrivateError::io("hand over", unfinished))?;

    let mut initdb = command(binaries, "initdb", account, &folders.root);
    // The C locale sorts alike on every system. Trust is safe: the socket's folder is private.
    initdb.args(["-U", "postgres", "-E", "UTF8", "--locale=C"]);
    initdb.args(["--auth-local=trust", "--auth-host=reject", "--data-checksums"]);
    if durability == Durability::Throwaway {
        initdb.arg("-N");
    }
    let output = initdb
        .arg("-D")
        .arg(unfinished)
        .output()
        .map_err(PrivateError::io("run initdb in", unfinished))?;
    if !output.status.success() {
        let output_text = tail_of(&[output.stdout, output.stderr].concat());
        return Err(PrivateError::InitFailed { status: output.status, output: output_text });
    }
    let moved = fs::rename(unfinished, &folders.cluster).and_then(|()| sync(&folders.root));
    moved.map_err(PrivateError::io("finish", &folders.cluster))
}

fn remove(folder: &Path) -> io::Result<()> {
    match fs::remove_dir_all(folder) {
        Err(error) if error.kind() == io::ErrorKind::NotFound => Ok(()),
        outcome => outcome,
    }
}

/// Makes the move outlast a loss of power.
fn sync(folder: &Path) -> io::Result<()> {
    fs::File::open(folder)?.sync_all()
}
