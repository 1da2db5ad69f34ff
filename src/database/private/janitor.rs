//! Removes a throw-away data folder when this program ends, however it ends.

use std::{
    io,
    os::unix::process::CommandExt,
    path::Path,
    process::{Child, Command, Stdio},
};

use super::programs::PATH;

/// Waits for its input to end, which the system brings about when this program ends; then stops
/// a server that may still run, waits until it has put its pid file away, and removes the folders.
const SCRIPT: &str = r#"
read -r _
pid_file="$1/cluster/postmaster.pid"
[ ! -e "$pid_file" ] || kill -INT "$(head -n 1 "$pid_file")" 2>/dev/null
rounds=0
while [ -e "$pid_file" ] && [ "$rounds" -lt 100 ]; do sleep 0.1; rounds=$((rounds + 1)); done
rm -rf -- "$1" "$2"
"#;

/// A shell that outlives this program by a moment. Tests keep their server in a static, which is
/// never dropped, and are killed at times: only another process can tidy up after them.
#[derive(Debug)]
pub(super) struct Janitor(Child);

impl Janitor {
    /// Sets a janitor over a data folder and a socket folder.
    pub(super) fn hire(data_dir: &Path, sockets: &Path) -> io::Result<Self> {
        let mut shell = Command::new("/bin/sh");
        shell.args(["-c", SCRIPT, "arcbounds-janitor"]).arg(data_dir).arg(sockets);
        shell.env_clear().env("PATH", PATH).current_dir("/").process_group(0);
        shell.stdin(Stdio::piped()).stdout(Stdio::null()).stderr(Stdio::null());
        shell.spawn().map(Self)
    }

    /// Lets the janitor do its work now and waits for it.
    pub(super) fn clean_up(mut self) {
        drop(self.0.stdin.take());
        match self.0.wait() {
            Ok(status) if status.success() => {}
            outcome => tracing::warn!(?outcome, "a throw-away data folder was not removed"),
        }
    }
}
