//! Other processes: this test program again as the holder of a server, and what the system tells
//! about a process.

use std::{
    env, fs,
    io::{BufRead, BufReader, Read},
    os::unix::{fs::MetadataExt, process::CommandExt},
    path::Path,
    process::{Child, ChildStdout, Command, Stdio},
};

use arcbounds::database::private::{Durability, Options, PrivatePostgres};

const MODE: &str = "ARCBOUNDS_TEST_HOLD_MODE";
const FOLDER: &str = "ARCBOUNDS_TEST_HOLD_FOLDER";

/// A program that has started a server and keeps it until its input ends.
pub struct Holder {
    child: Child,
    answer: String,
    /// Kept open, so that the rest of what it prints goes somewhere.
    _output: BufReader<ChildStdout>,
}

impl Holder {
    /// Starts the program with a server on a data folder, `durable` or `throwaway`.
    pub fn start(data_dir: &Path, mode: &str) -> Self {
        Self::spawn(Self::command(&env::current_exe().unwrap(), data_dir, mode))
    }

    /// The same, started in some folder.
    pub fn start_from(folder: &Path, data_dir: &Path) -> Self {
        let mut command = Self::command(&env::current_exe().unwrap(), data_dir, "durable");
        command.current_dir(folder);
        Self::spawn(command)
    }

    /// The same, from root under another account, with a copy of the program it can reach.
    pub fn start_as(account: &str, data_dir: &Path) -> Self {
        let copy = data_dir.with_file_name("program");
        // By another process, lest a child forked meanwhile keeps the copy open for writing.
        let mut install = Command::new("install");
        install.args(["-m", "755"]).arg(env::current_exe().unwrap()).arg(&copy);
        assert!(install.status().unwrap().success());
        let plain = Self::command(&copy, data_dir, "durable");
        let mut command = Command::new("setpriv");
        command.args(["--reuid", account, "--regid", &primary_group(account), "--clear-groups"]);
        command.arg(plain.get_program()).args(plain.get_args());
        for (name, value) in plain.get_envs() {
            command.env(name, value.unwrap());
        }
        command.env_remove("HOME").current_dir("/");
        Self::spawn(command)
    }

    /// What the program says when its server cannot start.
    pub fn refused(data_dir: &Path, environment: &[(&str, &str)]) -> String {
        let mut command = Self::command(&env::current_exe().unwrap(), data_dir, "durable");
        command.envs(environment.iter().copied());
        let mut holder = Self::spawn(command);
        holder.end();
        holder.answer.strip_prefix("refused ").unwrap().to_owned()
    }

    fn command(program: &Path, data_dir: &Path, mode: &str) -> Command {
        let mut command = Command::new(program);
        command.args(["--ignored", "--exact", "holder", "--nocapture"]);
        command.env(MODE, mode).env(FOLDER, data_dir);
        command
    }

    fn spawn(mut command: Command) -> Self {
        command.stdin(Stdio::piped()).stdout(Stdio::piped());
        let mut child = command.spawn().unwrap();
        let mut output = BufReader::new(child.stdout.take().unwrap());
        let marked = |line: String| line.strip_prefix("holder: ").map(str::to_owned);
        let mut lines = output.by_ref().lines().map(Result::unwrap);
        let answer = lines.find_map(marked).expect("the holder answers");
        Self { child, answer, _output: output }
    }

    /// The address of its server.
    pub fn url(&self) -> String {
        self.answer.strip_prefix("url ").expect("the server runs").to_owned()
    }

    /// Its process id.
    pub fn id(&self) -> u32 {
        self.child.id()
    }

    /// Ends it without giving it a chance to do anything.
    pub fn kill(&mut self) {
        self.child.kill().unwrap();
        self.child.wait().unwrap();
    }

    /// Lets it stop its server and end.
    pub fn end(&mut self) {
        drop(self.child.stdin.take());
        self.child.wait().unwrap();
    }
}

impl Drop for Holder {
    /// Nothing is left over when a test fails.
    fn drop(&mut self) {
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

/// The other side: starts the server the environment names, says so, waits for the input's end.
pub async fn hold() {
    let Some(data_dir) = env::var_os(FOLDER).map(Into::into) else { return };
    let durability = match env::var(MODE).unwrap().as_str() {
        "throwaway" => Durability::Throwaway,
        _ => Durability::Durable,
    };
    match PrivatePostgres::start(Options { data_dir, durability }).await {
        Ok(server) => {
            // A line of its own, after the test harness's unfinished one.
            println!("\nholder: url {}", server.url("postgres", "postgres"));
            let wait = || std::io::stdin().read_to_end(&mut Vec::new());
            tokio::task::spawn_blocking(wait).await.unwrap().unwrap();
            server.stop().await.unwrap();
        }
        Err(error) => println!("\nholder: refused {error}"),
    }
}

/// Starts a server on a cluster the way `pg_ctl` does: tied to nobody. Returns its process id.
pub fn start_orphan(data_dir: &Path) -> u32 {
    let cluster = data_dir.join("cluster");
    let options = fs::read_to_string(cluster.join("postmaster.opts")).unwrap();
    let program = Path::new(options.split_whitespace().next().unwrap()).with_file_name("pg_ctl");
    let server_options = format!("-c listen_addresses= -k {}", data_dir.join("sockets").display());
    let owner = fs::metadata(&cluster).unwrap();
    let mut pg_ctl = Command::new(program);
    pg_ctl.args(["start", "-w", "-o", &server_options, "-D"]).arg(&cluster);
    pg_ctl.arg("-l").arg(cluster.join("orphan.log"));
    pg_ctl.stdout(Stdio::null()).current_dir("/");
    if is_root() {
        pg_ctl.uid(owner.uid()).gid(owner.gid());
    }
    assert!(pg_ctl.status().unwrap().success());
    super::postmaster(data_dir)
}

/// Runs the script for a server of one's own, with one password for both roles, stored in the
/// form that can be worked out again.
pub fn create_roles(sockets: &str, password: &str) {
    let mut script = Command::new(concat!(env!("CARGO_MANIFEST_DIR"), "/scripts/create-roles.sh"));
    script.env("PGHOST", sockets.trim_matches('"')).env("PGPORT", "5432");
    script.env("PGOPTIONS", "-c password_encryption=md5");
    script.env("ARCBOUNDS_OWNER_PASSWORD", password).env("ARCBOUNDS_APP_PASSWORD", password);
    assert!(script.status().unwrap().success());
}

/// A process that has nothing to do with databases.
pub fn bystander() -> Child {
    Command::new("sleep").arg("600").spawn().unwrap()
}

/// Sends a signal by name.
pub fn signal(pid: u32, name: &str) {
    let mut kill = Command::new("sh");
    kill.args(["-c", "kill -s \"$1\" \"$2\"", "sh", name, &pid.to_string()]);
    assert!(kill.status().unwrap().success());
}

/// Whether this machine has the `setpriv` of util-linux.
pub fn setpriv_can_tie() -> bool {
    let trial = Command::new("setpriv").args(["--pdeathsig", "INT", "true"]).output();
    trial.is_ok_and(|output| output.status.success())
}

/// Whether this program is root.
pub fn is_root() -> bool {
    owner_of(std::process::id()) == 0
}

/// Whether a process runs; one that ended and was not waited for does not.
pub fn runs(pid: u32) -> bool {
    status_line(pid, "State:").is_some_and(|state| !state.starts_with(['Z', 'X']))
}

/// The real user id of a process.
pub fn owner_of(pid: u32) -> u32 {
    let line = status_line(pid, "Uid:").unwrap();
    line.split_whitespace().next().unwrap().parse().unwrap()
}

/// The supplementary groups of a process, as listed by the system.
pub fn supplementary_groups(pid: u32) -> String {
    status_line(pid, "Groups:").unwrap()
}

/// One line of `/proc/PID/status`, as in proc(5).
fn status_line(pid: u32, key: &str) -> Option<String> {
    let status = fs::read_to_string(format!("/proc/{pid}/status")).ok()?;
    status.lines().find_map(|line| line.strip_prefix(key)).map(|value| value.trim().to_owned())
}

fn primary_group(account: &str) -> String {
    let output = Command::new("id").args(["-g", account]).output().unwrap();
    String::from_utf8(output.stdout).unwrap().trim().to_owned()
}
