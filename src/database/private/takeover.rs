//! A server left over by a program that was killed.
//!
//! It is stopped cleanly and a new one started on its data, rather than used as it is: where it
//! was tied to the killed program it is about to stop anyway, and a new one has our settings and
//! is tied to us.

use std::{path::Path, time::Instant};

use rustix::process::{Pid, Signal, kill_process, test_kill_process};
use tokio::net::UnixStream;

use super::{
    error::PrivateError,
    folders::SOCKET_NAME,
    pid_file::{PidFile, Status},
    postmaster::{POLL, READY_LIMIT},
};

/// Stops the server that runs on the cluster, if one does. Only to be called under the lock of
/// the data folder, so that it can be nobody's.
///
/// # Errors
/// [`PrivateError::OrphanStuck`] if it does not stop in time.
pub(super) async fn stop_orphan(cluster: &Path) -> Result<(), PrivateError> {
    let deadline = Instant::now() + READY_LIMIT;
    let mut asked = false;
    while let Some(file) = PidFile::read(cluster) {
        let Some(pid) = live(file.pid) else { return Ok(()) };
        let answers = answering_process(&file).await == Some(file.pid);
        if answers && !asked {
            tracing::info!(pid = file.pid, "stopping a PostgreSQL left over from an earlier run");
            // It may end by itself in between; the next round sees that.
            asked = kill_process(pid, Signal::INT).is_ok();
        } else if !answers && !asked && file.status == Status::Ready {
            // A stale file whose process id another program has by now.
            return Ok(());
        }
        if Instant::now() >= deadline {
            return Err(PrivateError::OrphanStuck { pid: file.pid });
        }
        tokio::time::sleep(POLL).await;
    }
    Ok(())
}

/// The process, if it exists; one of another user exists too.
fn live(pid: u32) -> Option<Pid> {
    let pid = i32::try_from(pid).ok().and_then(Pid::from_raw)?;
    (test_kill_process(pid) != Err(rustix::io::Errno::SRCH)).then_some(pid)
}

/// The process that listens on the socket the file names, as the system tells it. A process id
/// from a file alone is not enough to send a signal to.
async fn answering_process(file: &PidFile) -> Option<u32> {
    let socket = file.socket_folder.as_ref()?.join(SOCKET_NAME);
    let peer = UnixStream::connect(socket).await.ok()?.peer_cred().ok()?;
    peer.pid().and_then(|pid| u32::try_from(pid).ok())
}
