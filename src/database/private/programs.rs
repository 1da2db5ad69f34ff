//! How the server's programs are run: bare environment, own process group, not outliving us.

use std::{
    fs,
    os::unix::process::CommandExt,
    path::Path,
    process::{Command, Stdio},
    sync::LazyLock,
};

use super::{account::Account, binaries::Binaries};

/// Where helper programs are looked up, whatever the caller's `PATH` says.
pub(super) const PATH: &str = "/usr/local/bin:/usr/bin:/bin";

/// Bytes of a log shown in an error.
const TAIL: usize = 4000;

/// Whether util-linux's `setpriv` is here and can tie a program's life to ours. The one of small
/// systems lacks the option, and other systems lack the program.
static CAN_TIE: LazyLock<bool> = LazyLock::new(|| {
    let mut trial = Command::new("setpriv");
    trial.args(["--pdeathsig", "INT", "true"]).env("PATH", PATH);
    trial.stdin(Stdio::null()).stdout(Stdio::null()).stderr(Stdio::null());
    trial.status().is_ok_and(|status| status.success())
});

/// A command for one of the server's programs under the account, started in the data folder.
///
/// Its process group keeps a Ctrl-C in the terminal from it: the service stops it itself, after
/// its own work. Where `setpriv` allows, it is interrupted when the *thread* that starts it ends,
/// so that thread must live as long as the program should. `setpriv` becomes the program, so
/// the child's process id is the program's.
pub(super) fn command(
    binaries: &Binaries,
    name: &str,
    account: &Account,
    folder: &Path,
) -> Command {
    let program = binaries.folder.join(name);
    let mut command = if *CAN_TIE {
        let mut tied = Command::new("setpriv");
        tied.args(["--pdeathsig", "INT"]).arg(program);
        tied
    } else {
        Command::new(program)
    };
    command.env_clear().env("PATH", PATH).env("LC_ALL", "C").env("TZ", "UTC");
    command.current_dir(folder).process_group(0).stdin(Stdio::null());
    account.apply(&mut command);
    command
}

/// The end of a log, for an error message.
pub(super) fn tail(log: &Path) -> String {
    tail_of(&fs::read(log).unwrap_or_default())
}

/// The end of a program's output, for an error message.
pub(super) fn tail_of(output: &[u8]) -> String {
    let from = output.len().saturating_sub(TAIL);
    String::from_utf8_lossy(&output[from..]).trim().to_owned()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn tail_keeps_the_end() {
        let text = format!("first\n{}\nlast\n", "x".repeat(TAIL));
        let shown = tail_of(text.as_bytes());
        assert!(shown.ends_with("last") && !shown.contains("first"));
    }
}
