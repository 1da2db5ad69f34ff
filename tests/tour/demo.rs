//! A demo of its own: the real program on a folder below the temporary one.

use std::{
    env, fs,
    io::{BufRead, BufReader, Read},
    os::unix::fs::PermissionsExt,
    path::{Path, PathBuf},
    process::{Child, Command, ExitStatus, Stdio},
    sync::mpsc,
    time::{Duration, Instant},
};

use reqwest::{Client, RequestBuilder};
use rustix::process::{Pid, Signal, kill_process};

use crate::curl::Variables;

/// Longest wait for the demo to be ready: it makes a database cluster first.
const PATIENCE: Duration = Duration::from_mins(2);

/// Last line of what the demo prints when it is ready.
const READY: &str = "Ctrl-C stops the service and its database.";

/// An HTTP client. Its TLS has to be named once a process, whichever test comes first.
pub fn client() -> Client {
    // A second installation fails and is harmless.
    let _ = rustls::crypto::ring::default_provider().install_default();
    Client::new()
}

/// A folder below the temporary one, removed at the end.
pub struct Scratch(PathBuf);

impl Scratch {
    pub fn new() -> Self {
        let folder = env::temp_dir().join(format!("arcbounds-tour-{}", uuid::Uuid::now_v7()));
        fs::create_dir(&folder).unwrap();
        // The account the database runs under has to pass through.
        fs::set_permissions(&folder, fs::Permissions::from_mode(0o711)).unwrap();
        Self(folder)
    }

    /// The demo's data folder in it.
    pub fn data(&self) -> PathBuf {
        self.0.join("data")
    }
}

impl Drop for Scratch {
    fn drop(&mut self) {
        // A failed test may have left a database that still writes.
        let _ = fs::remove_dir_all(&self.0);
    }
}

/// The demo as a command.
pub fn command(data: &Path, listen: &str) -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_arcbounds"));
    command.args(["demo", "--listen", listen, "--data-dir"]).arg(data);
    command.stdin(Stdio::null()).stdout(Stdio::piped()).stderr(Stdio::piped());
    command
}

/// What a demo says that cannot start.
pub fn refused(data: &Path, listen: &str) -> String {
    let output = command(data, listen).output().unwrap();
    assert!(!output.status.success());
    String::from_utf8(output.stderr).unwrap()
}

/// A running demo; killed at the end if the test has not stopped it.
pub struct Demo {
    child: Child,
    /// All it printed until it was ready.
    pub printed: String,
    /// What its `export` lines set.
    pub variables: Variables,
}

impl Demo {
    /// Starts a demo and waits until it is ready.
    pub fn start(data: &Path) -> Self {
        let mut command = command(data, "127.0.0.1:0");
        let mut child = command.stderr(Stdio::inherit()).spawn().unwrap();
        let output = BufReader::new(child.stdout.take().unwrap());
        let (lines, printed) = mpsc::channel();
        // Reads on after the demo is ready, so that its output never blocks it.
        std::thread::spawn(move || {
            output.lines().map_while(Result::ok).for_each(|line| drop(lines.send(line)));
        });
        let mut demo = Self { child, printed: String::new(), variables: Variables::new() };
        let deadline = Instant::now() + PATIENCE;
        while !demo.printed.contains(READY) {
            let left = deadline.saturating_duration_since(Instant::now());
            let line = printed.recv_timeout(left).unwrap_or_else(|_| {
                panic!("the demo did not get ready; it printed:\n{}", demo.printed)
            });
            if let Some((name, value)) =
                line.trim().strip_prefix("export ").and_then(|line| line.split_once('='))
            {
                demo.variables.insert(name.to_owned(), value.to_owned());
            }
            demo.printed.push_str(&line);
            demo.printed.push('\n');
        }
        demo
    }

    /// Where it listens.
    pub fn address(&self) -> &str {
        &self.variables["ARCBOUNDS_ADDRESS"]
    }

    /// The key of a role, such as `AUTHOR`.
    pub fn key(&self, role: &str) -> &str {
        &self.variables[&format!("ARCBOUNDS_{role}_KEY")]
    }

    /// A question with a role's key.
    pub fn get(&self, role: &str, path: &str) -> RequestBuilder {
        client().get(format!("{}{path}", self.address())).bearer_auth(self.key(role))
    }

    /// A body from a file of the repository, sent with a role's key.
    pub fn post(&self, role: &str, path: &str, file: &str) -> RequestBuilder {
        let body = fs::read_to_string(Path::new(env!("CARGO_MANIFEST_DIR")).join(file)).unwrap();
        self.post_text(role, path, body)
    }

    /// A body sent with a role's key.
    pub fn post_text(&self, role: &str, path: &str, body: String) -> RequestBuilder {
        let request = client().post(format!("{}{path}", self.address()));
        let request = request.bearer_auth(self.key(role));
        request.header("content-type", "application/json").body(body)
    }

    /// Process id of the service.
    pub fn process(&self) -> u32 {
        self.child.id()
    }

    /// Sends a signal and waits for the end.
    pub fn end(mut self, signal: Signal) -> ExitStatus {
        let process = Pid::from_raw(i32::try_from(self.child.id()).unwrap()).unwrap();
        kill_process(process, signal).unwrap();
        let deadline = Instant::now() + PATIENCE;
        loop {
            if let Some(status) = self.child.try_wait().unwrap() {
                return status;
            }
            assert!(Instant::now() < deadline, "the demo does not end");
            std::thread::sleep(Duration::from_millis(20));
        }
    }
}

impl Drop for Demo {
    fn drop(&mut self) {
        // Where the test has failed; the demo's database stops with it.
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

/// Processes that work in a folder or name it in their command line.
pub fn processes_on(folder: &Path) -> Vec<String> {
    let folder_text = folder.to_str().unwrap();
    let all = fs::read_dir("/proc").unwrap().filter_map(|entry| Some(entry.ok()?.path()));
    all.filter(|process| process.join("cmdline").exists())
        .filter_map(|process| {
            let mut line = Vec::new();
            // A process may end while it is looked at.
            fs::File::open(process.join("cmdline")).ok()?.read_to_end(&mut line).ok()?;
            let line = String::from_utf8_lossy(&line).replace('\0', " ");
            let works_there =
                fs::read_link(process.join("cwd")).is_ok_and(|cwd| cwd.starts_with(folder));
            (works_there || line.contains(folder_text))
                .then(|| format!("{}: {line}", process.display()))
        })
        .collect()
}
