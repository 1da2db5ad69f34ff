//! Many clients at once while the database goes away: every check is answered, says how old the records are,
//! and past the organisation's limit allows nothing.

use std::{num::NonZeroU32, sync::Arc, time::Duration};

use arcbounds::{
    access::Role,
    config::ListenArgs,
    database::{
        self,
        private::{
            Options, PrivatePostgres,
            roles::{self, APP, OWNER},
        },
    },
    http, import,
    organisation::{self, Member},
    rulebook, server,
};
use serde_json::{Value, json};
use tokio::sync::Barrier;

const CLIENTS: usize = 200;
/// Age from which nothing is allowed any more.
const STALE_AFTER: f64 = 12.0;
/// An age is told to a tenth of a second.
const TELLS: f64 = 0.1;
/// Between two questions of a client.
const PAUSE: Duration = Duration::from_secs(1);

const DATABASE: &str = "clients";
const SCENARIO: &str = include_str!("../../demo/scenario.ndjson");
const SETUP: &str = include_str!("../../demo/setup-allowed.json");

/// Address of a service on this server, with the demo's records; an administrator's and a reader's key.
async fn service(postgres: &PrivatePostgres) -> (String, String, String) {
    // The HTTP client asks for a provider, as the program's does; a second one is harmless.
    let _ = rustls::crypto::ring::default_provider().install_default();
    roles::ensure(&postgres.url("postgres", "postgres"), DATABASE).await.unwrap();
    database::migrate(&postgres.url(DATABASE, OWNER)).await.unwrap();
    let pool = database::open(&postgres.url(DATABASE, APP), 4).await.unwrap();
    let listen =
        ListenArgs { listen: "127.0.0.1:0".parse().unwrap(), rate_per_key: NonZeroU32::MAX };
    let state = server::state(pool.clone(), &listen).await.unwrap();
    let first = organisation::found(&pool, "Clients", "Admin").await.unwrap();
    let mut keys = Vec::new();
    for (name, role) in [("A", Role::Author), ("B", Role::Approver), ("C", Role::Reader)] {
        let member = Member { name: Some(name), role, station: None, label: name };
        let key = organisation::enrol(&pool, first.organisation, member).await.unwrap();
        keys.push(key.reveal().to_owned());
    }
    state.rulebooks.refresh(first.organisation).await.unwrap();
    tokio::spawn(rulebook::follow(Arc::clone(&state.rulebooks)));
    let listener = server::listen(&listen).unwrap();
    let address = format!("http://{}", listener.local_addr().unwrap());
    tokio::spawn(async move { axum::serve(listener, http::router(state)).await });
    let importing = import::Keys { author: keys[0].clone(), approver: Some(keys[1].clone()) };
    let report = import::load(&address, &importing, SCENARIO.lines()).await.unwrap();
    assert!(report.refused.is_empty(), "{:?}", report.refused);
    (address, first.secret.reveal().to_owned(), keys.pop().unwrap())
}

/// Sets the age from which nothing is allowed.
async fn limit_age(client: &reqwest::Client, address: &str, admin: &str) {
    let url = format!("{address}/v1/organisation");
    let read = client.get(&url).bearer_auth(admin).send().await.unwrap();
    let tag = read.headers()["etag"].clone();
    let read: Value = serde_json::from_str(&read.text().await.unwrap()).unwrap();
    let mut settings = read["settings"].clone();
    settings["stale_after"] = json!(format!("{STALE_AFTER} s"));
    let call = client.put(&url).bearer_auth(admin).header("content-type", "application/json");
    let call = call.header("if-match", tag);
    let answer = call.body(settings.to_string()).send().await.unwrap();
    assert_eq!(answer.status(), 200, "{}", answer.text().await.unwrap());
}

/// A client that every other one waits for: first each is answered once, then the database stops, and each
/// asks on until it is told that the records are too old.
struct Client {
    http: reqwest::Client,
    url: String,
    key: String,
    /// All have been answered.
    answered: Arc<Barrier>,
    /// The database has stopped.
    stopped: Arc<Barrier>,
}

/// An age, and the verdict that came with it.
type Told = (f64, String);

impl Client {
    async fn ask(&self) -> Told {
        let call = self.http.post(&self.url).bearer_auth(&self.key);
        let call = call.header("content-type", "application/json").body(SETUP);
        let answer = call.send().await.unwrap();
        let status = answer.status();
        let text = answer.text().await.unwrap();
        assert_eq!(status, 200, "{text}");
        let answer: Value = serde_json::from_str(&text).unwrap();
        let limit = &answer["rulebook"]["stale_after"];
        assert_eq!(
            (limit["value"].as_f64(), limit["unit"].as_str()),
            (Some(STALE_AFTER), Some("s"))
        );
        let verdict = answer["verdict"].as_str().unwrap().to_owned();
        let findings = answer["findings"].as_array().unwrap();
        let names_the_age = findings.iter().any(|f| f["check"] == "rulebook-age");
        assert_eq!(names_the_age, verdict == "undetermined", "{text}");
        (answer["rulebook"]["age"]["value"].as_f64().unwrap(), verdict)
    }

    async fn asks(self) -> Vec<Told> {
        let mut told = vec![self.ask().await];
        self.answered.wait().await;
        self.stopped.wait().await;
        while told.last().is_some_and(|(age, _)| *age <= STALE_AFTER + TELLS) {
            told.push(self.ask().await);
            tokio::time::sleep(PAUSE).await;
        }
        told
    }
}

#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn two_hundred_clients_are_answered_while_the_database_stops() {
    let postgres = PrivatePostgres::start(Options::throwaway()).await.unwrap();
    let (address, admin, reader) = service(&postgres).await;
    let http = reqwest::Client::new();
    limit_age(&http, &address, &admin).await;
    let answered = Arc::new(Barrier::new(CLIENTS + 1));
    let stopped = Arc::new(Barrier::new(CLIENTS + 1));
    let clients: Vec<_> = (0..CLIENTS)
        .map(|_| Client {
            http: http.clone(),
            url: format!("{address}/v1/checks?detail=summary"),
            key: reader.clone(),
            answered: Arc::clone(&answered),
            stopped: Arc::clone(&stopped),
        })
        .map(|client| tokio::spawn(client.asks()))
        .collect();
    answered.wait().await;
    // Half way: all ask on while it stops.
    let stopping = tokio::spawn(postgres.stop());
    stopped.wait().await;
    let (mut fresh, mut stale) = (0, 0);
    for asked in clients {
        for (age, verdict) in asked.await.unwrap() {
            if age <= STALE_AFTER - TELLS {
                assert!(verdict.starts_with("allowed"), "{verdict} at {age} s");
                fresh += 1;
            } else if age >= STALE_AFTER + TELLS {
                assert_eq!(verdict, "undetermined", "at {age} s");
                stale += 1;
            }
        }
    }
    stopping.await.unwrap().unwrap();
    assert!(fresh >= CLIENTS && stale >= CLIENTS, "{fresh} fresh and {stale} stale answers");
}
