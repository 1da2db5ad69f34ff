//! The running server and the thread that looks after it.

use std::{
    path::{Path, PathBuf},
    process::Child,
    sync::mpsc::{self, RecvTimeoutError},
    thread::{self, JoinHandle},
    time::Duration,
};

use tokio::sync::oneshot;

use super::{
    Durability,
    account::Account,
    binaries::Binaries,
    error::PrivateError,
    folders::Folders,
    janitor::Janitor,
    lock::FolderLock,
    postmaster::{await_ready, server_command, shut_down},
    programs::tail,
};

/// How often the thread looks whether the server still runs.
const WATCH: Duration = Duration::from_secs(1);

/// Everything one server needs; owned by its thread.
#[derive(Debug)]
pub(super) struct Site {
    /// Where its data and log are.
    pub(super) folders: Folders,
    /// The folder of its socket.
    pub(super) sockets: PathBuf,
    /// The programs.
    pub(super) binaries: Binaries,
    /// Who runs them.
    pub(super) account: Account,
    /// What a loss of power may cost.
    pub(super) durability: Durability,
    /// Who removes the folders at the end, if they are to be removed.
    pub(super) janitor: Option<Janitor>,
    /// Held to the very end.
    pub(super) lock: FolderLock,
}

/// A server that accepts connections. Dropping it stops the server and waits for its end.
#[derive(Debug)]
pub(super) struct Server {
    stop: Option<mpsc::Sender<()>>,
    thread: Option<JoinHandle<Result<(), PrivateError>>>,
}

impl Server {
    /// Starts the server from a thread of its own, because its life is tied to the thread that
    /// starts it, and returns once it accepts connections.
    pub(super) async fn start(site: Site) -> Result<Self, PrivateError> {
        let (stop, stopped) = mpsc::channel();
        let (ready, becomes_ready) = oneshot::channel();
        let log = site.folders.log.clone();
        let thread = thread::Builder::new()
            .name("private-postgres".into())
            .spawn(move || look_after(site, ready, &stopped))
            .map_err(PrivateError::io("start the thread that writes", &log))?;
        // If this future is dropped here, so is `stop`, and the thread stops the server.
        let server = Self { stop: Some(stop), thread: Some(thread) };
        match becomes_ready.await {
            Ok(()) => Ok(server),
            Err(_) => Err(server.stop().await.err().unwrap_or(PrivateError::Interrupted)),
        }
    }

    /// Stops the server and waits for its end.
    pub(super) async fn stop(mut self) -> Result<(), PrivateError> {
        tokio::task::spawn_blocking(move || self.join())
            .await
            .unwrap_or(Err(PrivateError::Interrupted))
    }

    fn join(&mut self) -> Result<(), PrivateError> {
        drop(self.stop.take());
        match self.thread.take() {
            Some(thread) => thread.join().unwrap_or(Err(PrivateError::Interrupted)),
            None => Ok(()),
        }
    }
}

impl Drop for Server {
    fn drop(&mut self) {
        if let Err(error) = self.join() {
            tracing::error!(%error, "the private PostgreSQL did not stop as it should");
        }
    }
}

/// The body of the thread: start, report, watch, stop, clean up.
fn look_after(
    mut site: Site,
    ready: oneshot::Sender<()>,
    stopped: &mpsc::Receiver<()>,
) -> Result<(), PrivateError> {
    let outcome = run(&site, ready, stopped);
    if let Some(janitor) = site.janitor.take() {
        janitor.clean_up();
    }
    drop(site.lock);
    outcome
}

fn run(
    site: &Site,
    ready: oneshot::Sender<()>,
    stopped: &mpsc::Receiver<()>,
) -> Result<(), PrivateError> {
    let log = &site.folders.log;
    let mut child = server_command(site)
        .and_then(|mut command| command.spawn())
        .map_err(PrivateError::io("start PostgreSQL with the log", log))?;
    let started = await_ready(&mut child, site);
    if started.is_ok() && ready.send(()).is_ok() {
        watch(&mut child, log, stopped);
    }
    let already = child.try_wait().ok().flatten();
    shut_down(&mut child).map_err(PrivateError::io("stop PostgreSQL with the log", log))?;
    started?;
    already.map_or(Ok(()), |status| Err(PrivateError::Ended { status, log: tail(log) }))
}

/// Returns when asked to stop; says so at once if the server ends before that.
fn watch(child: &mut Child, log: &Path, stopped: &mpsc::Receiver<()>) {
    while stopped.recv_timeout(WATCH) == Err(RecvTimeoutError::Timeout) {
        if let Ok(Some(status)) = child.try_wait() {
            tracing::error!(%status, log = %tail(log), "the private PostgreSQL ended by itself");
            let _ = stopped.recv();
            return;
        }
    }
}
