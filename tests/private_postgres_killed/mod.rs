//! A thousand writes at once, with the service killed in the middle and its database after it: no entry of the
//! audit chain is missing, none is there twice, every write that was acknowledged is in it, and it is whole.
//!
//! What is expected is the service's own promise, so there is no outside source.

use std::{
    collections::BTreeSet,
    io::{BufRead, BufReader, Cursor},
    process::{Child, Command, Stdio},
    sync::{
        Arc, Mutex,
        atomic::{AtomicUsize, Ordering},
    },
    time::{Duration, Instant},
};

use arcbounds::{
    access::Role,
    audit,
    database::{
        self,
        private::{
            Durability, Options, PrivatePostgres,
            roles::{self, APP, OWNER},
        },
    },
    organisation::{self, Member},
};
use reqwest::StatusCode;
use serde_json::{Value, json};

use crate::private_postgres_support::{Scratch, ask, postmaster, signal};

const WRITES: usize = 1000;
/// Writers at once.
const WRITERS: usize = WRITES;
/// Acknowledged writes after which the service is killed, and the database.
const SERVICE_DIES: usize = 300;
const DATABASE_DIES: usize = 600;
/// Longest wait for something to come back.
const PATIENCE: Duration = Duration::from_mins(5);

const DATABASE: &str = "killed";

/// The real program, serving.
struct Service {
    child: Child,
    address: String,
}

impl Service {
    fn start(url: &str) -> Self {
        let mut command = Command::new(env!("CARGO_BIN_EXE_arcbounds"));
        command.args(["serve", "--listen", "127.0.0.1:0", "--rate-per-key", "1000000"]);
        command.args(["--connections", "40"]);
        command.args(["--database-url", url]).stdout(Stdio::piped()).stderr(Stdio::null());
        let mut child = command.spawn().unwrap();
        let mut line = String::new();
        BufReader::new(child.stdout.take().unwrap()).read_line(&mut line).unwrap();
        let address = line.trim().strip_prefix("arcbounds listens on ").unwrap().to_owned();
        Self { child, address }
    }

    /// Ends it without giving it a chance to do anything.
    fn kill(&mut self) {
        self.child.kill().unwrap();
        self.child.wait().unwrap();
    }
}

impl Drop for Service {
    fn drop(&mut self) {
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

/// What the writers share.
struct Writing {
    http: reqwest::Client,
    key: String,
    /// Where the service is now.
    address: Mutex<String>,
    acknowledged: AtomicUsize,
    /// Writes that were sent again.
    again: AtomicUsize,
}

impl Writing {
    /// Writes a station, again with the same retry key until it is acknowledged.
    async fn write(&self, number: usize) {
        let code = code(number);
        let body = json!({ "code": code, "name": format!("Station {number}") });
        let started = Instant::now();
        while !self.try_once(&code, &body).await {
            self.again.fetch_add(1, Ordering::Relaxed);
            assert!(started.elapsed() < PATIENCE, "{code} is not written");
            tokio::time::sleep(Duration::from_millis(100)).await;
        }
        self.acknowledged.fetch_add(1, Ordering::Relaxed);
    }

    async fn try_once(&self, code: &str, body: &Value) -> bool {
        let url = format!("{}/v1/stations", self.address.lock().unwrap());
        let call = self.http.post(url).bearer_auth(&self.key).json(body);
        let Ok(answer) = call.header("idempotency-key", code).send().await else { return false };
        let status = answer.status();
        let Ok(text) = answer.text().await else { return false };
        let running = status == StatusCode::CONFLICT && text.contains("/problems/still-running");
        assert!(status == StatusCode::CREATED || status.is_server_error() || running, "{text}");
        status == StatusCode::CREATED
    }

    /// Waits until so many writes are acknowledged.
    async fn reached(&self, count: usize) {
        let started = Instant::now();
        while self.acknowledged.load(Ordering::Relaxed) < count {
            assert!(started.elapsed() < PATIENCE, "{count} writes are not acknowledged");
            tokio::time::sleep(Duration::from_millis(5)).await;
        }
    }
}

fn code(number: usize) -> String {
    format!("ST-{number:04}")
}

/// A database with an organisation; the keys of its author and its reader.
async fn furnish(postgres: &PrivatePostgres) -> [String; 2] {
    // The HTTP client asks for a provider, as the program's does; a second one is harmless.
    let _ = rustls::crypto::ring::default_provider().install_default();
    roles::ensure(&postgres.url("postgres", "postgres"), DATABASE).await.unwrap();
    database::migrate(&postgres.url(DATABASE, OWNER)).await.unwrap();
    let pool = database::open(&postgres.url(DATABASE, APP), 1).await.unwrap();
    let first = organisation::found(&pool, "Killed", "Admin").await.unwrap();
    let mut keys = Vec::new();
    for (name, role) in [("A", Role::Author), ("B", Role::Reader)] {
        let member = Member { name: Some(name), role, station: None, label: name };
        let key = organisation::enrol(&pool, first.organisation, member).await.unwrap();
        keys.push(key.reveal().to_owned());
    }
    pool.close().await;
    keys.try_into().unwrap()
}

/// A server on the folder of one that was killed, whose last processes may still be ending.
async fn start_again(options: impl Fn() -> Options) -> PrivatePostgres {
    let started = Instant::now();
    loop {
        match PrivatePostgres::start(options()).await {
            Ok(postgres) => return postgres,
            Err(error) => assert!(started.elapsed() < PATIENCE, "{error}"),
        }
        tokio::time::sleep(Duration::from_millis(200)).await;
    }
}

async fn read(writing: &Writing, key: &str, body: Option<&Value>, path: &str) -> String {
    let url = format!("{}{path}", writing.address.lock().unwrap());
    let call = match body {
        Some(body) => writing.http.post(url).json(body),
        None => writing.http.get(url),
    };
    let answer = call.bearer_auth(key).send().await.unwrap();
    let status = answer.status();
    let text = answer.text().await.unwrap();
    assert_eq!(status, 200, "{text}");
    text
}

#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn a_thousand_writes_survive_the_death_of_the_service_and_of_its_database() {
    let scratch = Scratch::new();
    let options = || Options { data_dir: scratch.data(), durability: Durability::Durable };
    let mut postgres = PrivatePostgres::start(options()).await.unwrap();
    let [author, reader] = furnish(&postgres).await;
    let url = postgres.url(DATABASE, APP);
    let mut service = Service::start(&url);
    let writing = Arc::new(Writing {
        http: reqwest::Client::builder().timeout(Duration::from_secs(20)).build().unwrap(),
        key: author,
        address: Mutex::new(service.address.clone()),
        acknowledged: AtomicUsize::new(0),
        again: AtomicUsize::new(0),
    });
    let writers: Vec<_> = (0..WRITERS)
        .map(|writer| {
            let writing = Arc::clone(&writing);
            tokio::spawn(async move {
                for number in (writer..WRITES).step_by(WRITERS) {
                    writing.write(number).await;
                }
            })
        })
        .collect();

    writing.reached(SERVICE_DIES).await;
    service.kill();
    let at_first_death = writing.acknowledged.load(Ordering::Relaxed);
    service = Service::start(&url);
    writing.address.lock().unwrap().clone_from(&service.address);

    writing.reached(DATABASE_DIES).await;
    signal(postmaster(&scratch.data()), "KILL");
    drop(postgres);
    postgres = start_again(options).await;
    assert_eq!(postgres.url(DATABASE, APP), url, "the service finds it where it was");

    for writer in writers {
        writer.await.unwrap();
    }
    assert!(at_first_death < WRITES && writing.again.load(Ordering::Relaxed) > 0, "nothing died");

    // By the rows themselves: no gap, none twice, every acknowledged write.
    let superuser = postgres.url(DATABASE, "postgres");
    let gaps = "select (max(number) - count(*))::text || ' ' || min(number) from audit_entry";
    assert_eq!(ask(&superuser, gaps).await, "0 1");
    let created = "select count(*)::text || ' ' || count(distinct subject) from audit_entry
                   where action = 'created' and subject_kind = 'station'";
    assert_eq!(ask(&superuser, created).await, format!("{WRITES} {WRITES}"));

    // By the endpoint, and by an export without the database.
    let verified = read(&writing, &reader, Some(&json!({})), "/v1/audit/verify").await;
    let verified: Value = serde_json::from_str(&verified).unwrap();
    assert_eq!((&verified["whole"], &verified["faults"]), (&json!(true), &json!([])));
    let export = read(&writing, &reader, None, "/v1/audit/export").await;
    postgres.stop().await.unwrap();
    let outcome = audit::prove_file(Cursor::new(export.clone()), Vec::new()).unwrap();
    assert_eq!(outcome.proved.faults, []);
    let lines = export.lines().map(|line| serde_json::from_str::<Value>(line).unwrap());
    let written: BTreeSet<_> =
        lines.filter_map(|line| line["document"]["code"].as_str().map(str::to_owned)).collect();
    assert_eq!(written, (0..WRITES).map(code).collect());
}
