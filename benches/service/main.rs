//! The service over HTTP: a check against an echo of the same bytes, against as many bytes as its answer has, against
//! one indexed query, and in a stream.
//!
//! All services run in this process, each on a port of its own behind the same layers, on a throwaway PostgreSQL;
//! one client asks them in turns over kept-open connections, so that a busy machine slows all alike. Run with
//! `cargo bench --bench service`; `-- 1000000` says how many lines the stream has. Rates are this machine's; the
//! ratios are what is stated, each the median of all turns, of which a quarter lay below the first number in brackets and
//! a quarter above the second. `-- train` measures nothing: it is the work that `scripts/trained` trains a
//! build on.

mod client;
#[path = "../shared/furnish.rs"]
mod furnish;
#[path = "../shared/memory.rs"]
mod memory;
mod query;
#[path = "../shared/scenario.rs"]
mod scenario;
mod stream;
mod training;

use std::{error::Error, future::ready};

use arcbounds::{
    access::{AnyRole, Permitted},
    database::private::{Options, PrivatePostgres},
    http::{self, JsonText, json_answer},
};
use axum::{Router, body::Bytes, routing::post};
use tokio::net::TcpListener;

use client::{Side, Turn, request};

type Failure = Box<dyn Error + Send + Sync>;

/// As in the service.
#[global_allocator]
static ALLOCATOR: mimalloc::MiMalloc = mimalloc::MiMalloc;

/// Connections kept open: a shop's front ends at a busy moment, a few, and one alone.
const CONNECTIONS: [usize; 3] = [64, 8, 1];

/// Turns of each side; the first of each is not counted.
const TURNS: usize = 41;

/// Turns of single checks before a stream, and as many after it.
const BESIDE_STREAM: usize = 5;

fn main() -> Result<(), Failure> {
    let is_training = std::env::args().any(|word| word == "train");
    let lines = std::env::args().find_map(|word| word.parse().ok()).unwrap_or(100_000);
    let runtime = tokio::runtime::Builder::new_multi_thread().enable_all().build()?;
    runtime.block_on(async {
        let postgres = PrivatePostgres::start(Options::throwaway()).await?;
        let measured = measure(&postgres, (!is_training).then_some(lines)).await;
        postgres.stop().await?;
        measured
    })
}

/// Measures, with so many lines in the stream; without, trains.
async fn measure(postgres: &PrivatePostgres, lines: Option<usize>) -> Result<(), Failure> {
    let keys = furnish::found(postgres).await?;
    let state = furnish::state(postgres).await?;
    let service = serve(http::router(state.clone())).await?;
    furnish::load(&format!("http://{service}"), &keys).await?;
    let key = keys.reader;
    let check = |body: &str| request("/v1/checks?detail=summary", &key, body);
    let answer = Bytes::from(client::body(&service, &check(scenario::SETUP)).await?);
    let routes = Router::new()
        .route("/echo", post(|body: Bytes| async { body }))
        .route("/answer", post(move |_: Bytes| ready(answer.clone())));
    // Who may ask is looked at in the handlers of the service, and is no part of the check.
    let keyed = |_: Permitted<AnyRole>, JsonText(body): JsonText| ready(json_answer(body));
    let keyed = Router::new().route("/keyed", post(keyed)).with_state(state);
    let echo = serve(http::layered(routes.merge(keyed))).await?;
    let query = query::service(postgres).await?;
    let Some(lines) = lines else {
        return training::run([&service, &echo, &query], &key).await;
    };
    let unnamed = scenario::SETUP.replace("\"procedure\": \"WPS-101\",\n  \"revision\": 2,", "");
    let in_full = request("/v1/checks?detail=full", &key, scenario::SETUP);
    let sides = || {
        [
            Side::new("echo", &echo, request("/echo", &key, scenario::SETUP)),
            Side::new("echo to a key", &echo, request("/keyed", &key, scenario::SETUP)),
            Side::new("the answer, ready", &echo, request("/answer", &key, scenario::SETUP)),
            Side::new("check", &service, check(scenario::SETUP)),
            Side::new("check, procedure open", &service, check(&unnamed)),
            Side::new("check, answered in full", &service, in_full.clone()),
            Side::new("one query", &query, request("/decision", &key, scenario::SETUP)),
        ]
    };
    for connections in CONNECTIONS {
        let mut sides = sides();
        for turn in 0..TURNS {
            for at in 0..sides.len() {
                // Nobody is always asked right after the same one.
                let at = (at + turn) % sides.len();
                sides[at].turn(connections).await?;
            }
        }
        sides.iter_mut().for_each(Side::forget_first);
        compare(connections, &sides);
    }
    streamed(&service, &key, lines).await
}

/// A stream beside single checks.
async fn streamed(service: &str, key: &str, lines: usize) -> Result<(), Failure> {
    let body = request("/v1/checks?detail=summary", key, scenario::SETUP);
    let mut single = Side::new("check", service, body);
    single.turns(BESIDE_STREAM, CONNECTIONS[0]).await?;
    let (rate, at_a_tenth, at_the_end) =
        stream::run((service, key), scenario::SETUP, lines).await?;
    single.turns(BESIDE_STREAM, CONNECTIONS[0]).await?;
    println!(
        "stream of {lines}: {rate:.0} lines a second, {:.1} times single checks; {} MiB resident at a tenth, {} \
         MiB at the end",
        rate / single.all(|turn| turn.per_second).middle,
        at_a_tenth >> 20,
        at_the_end >> 20
    );
    Ok(())
}

fn compare(connections: usize, sides: &[Side; 7]) {
    println!("{connections} connections");
    sides.iter().for_each(Side::print);
    let [echo, keyed, answer, check, _, _, query] = sides;
    let per_second = |turn: &Turn| turn.per_second;
    println!(
        "check against echo: {} of the throughput, {} of the one to a key, {} of its answer, ready; {} times the \
         processor time, p99 {} times",
        check.against(echo, per_second),
        check.against(keyed, per_second),
        check.against(answer, per_second),
        check.against(echo, |turn| turn.busy),
        check.against(echo, |turn| turn.p99)
    );
    println!(
        "check against one query: {} times the throughput (echo: {})",
        check.against(query, per_second),
        echo.against(query, per_second)
    );
}

/// Serves routes on a port of their own.
async fn serve(router: Router) -> Result<String, Failure> {
    let listener = TcpListener::bind("127.0.0.1:0").await?;
    let address = listener.local_addr()?.to_string();
    tokio::spawn(async move { axum::serve(listener, router.into_make_service()).await });
    Ok(address)
}
