//! The server process itself: its command line, its readiness, its end.

use std::{
    fs::{self, OpenOptions},
    io,
    os::unix::{fs::OpenOptionsExt, net::UnixStream},
    path::Path,
    process::{Child, Command, ExitStatus},
    thread,
    time::{Duration, Instant},
};

use rustix::process::{Pid, Signal, kill_process};

use super::{
    error::PrivateError,
    folders::SOCKET_NAME,
    pid_file::{PidFile, Status},
    programs::{command, tail},
    server::Site,
};

/// Longest wait for the server to accept connections.
pub(super) const READY_LIMIT: Duration = Duration::from_secs(30);
/// Pause between two looks at a server that is starting or stopping.
pub(super) const POLL: Duration = Duration::from_millis(15);
/// Longest wait for each way of stopping before the next harsher one.
const STOP_LIMIT: Duration = Duration::from_secs(20);

/// The server's command line. The options win over the cluster's configuration files.
pub(super) fn server_command(site: &Site) -> io::Result<Command> {
    let log = &site.folders.log;
    if log.exists() {
        fs::rename(log, log.with_extension("previous.log"))?;
    }
    let output = OpenOptions::new().append(true).create(true).mode(0o600).open(log)?;
    let mut postgres = command(&site.binaries, "postgres", &site.account, &site.folders.root);
    postgres.arg("-D").arg(&site.folders.cluster);
    postgres.arg("-k").arg(quoted(&site.sockets));
    let always = ["listen_addresses=", "port=5432", "unix_socket_permissions=0700"];
    for setting in always.iter().chain(["logging_collector=off", "shared_buffers=64MB"].iter()) {
        postgres.args(["-c", setting]);
    }
    for setting in site.durability.settings() {
        postgres.args(["-c", setting]);
    }
    postgres.stdout(output.try_clone()?).stderr(output);
    Ok(postgres)
}

/// The socket folder as one item of the list the option takes. The path is valid UTF-8 by choice
/// of the folder.
fn quoted(folder: &Path) -> String {
    format!("\"{}\"", folder.display().to_string().replace('"', "\"\""))
}

/// Waits until the server, and no other, accepts connections: it names itself ready in its pid
/// file under the process id of our own child.
pub(super) fn await_ready(child: &mut Child, site: &Site) -> Result<(), PrivateError> {
    let deadline = Instant::now() + READY_LIMIT;
    let log = &site.folders.log;
    loop {
        let ended =
            child.try_wait().map_err(PrivateError::io("watch PostgreSQL with the log", log))?;
        if let Some(status) = ended {
            return Err(PrivateError::Ended { status, log: tail(log) });
        }
        let ready = PidFile::read(&site.folders.cluster)
            .is_some_and(|file| file.pid == child.id() && file.status == Status::Ready);
        if ready && UnixStream::connect(site.sockets.join(SOCKET_NAME)).is_ok() {
            return Ok(());
        }
        if Instant::now() >= deadline {
            return Err(PrivateError::NotReady { seconds: READY_LIMIT.as_secs(), log: tail(log) });
        }
        thread::sleep(POLL);
    }
}

/// Stops the server: fast shutdown, then immediate shutdown, then kill. Source: PostgreSQL 15
/// manual, 19.5.
pub(super) fn shut_down(child: &mut Child) -> io::Result<()> {
    for signal in [Signal::INT, Signal::QUIT] {
        // Not reaped yet, so the process id is still our child's.
        if child.try_wait()?.is_none() {
            kill_process(Pid::from_child(child), signal)?;
        }
        if wait(child)?.is_some() {
            return Ok(());
        }
        tracing::warn!(?signal, "the private PostgreSQL does not stop, using a harsher way");
    }
    child.kill()?;
    child.wait().map(drop)
}

fn wait(child: &mut Child) -> io::Result<Option<ExitStatus>> {
    let deadline = Instant::now() + STOP_LIMIT;
    loop {
        let status = child.try_wait()?;
        if status.is_some() || Instant::now() >= deadline {
            return Ok(status);
        }
        thread::sleep(POLL);
    }
}
