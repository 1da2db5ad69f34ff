//! A check against an echo of the same bytes, through the same middleware, in one run.
//!
//! Both services run in this process, each on a port of its own with the same layers; one client asks them in
//! turns over kept-open connections. The first answers `POST /v1/checks` on the demo's records, the second
//! gives the body back. Run with `cargo bench --bench check_against_echo`; print the last lines as they are.
//! Seconds are this machine's; the ratios are what is stated.

use std::{
    error::Error,
    num::NonZeroU32,
    time::{Duration, Instant},
};

use arcbounds::{
    access::Role,
    config::ListenArgs,
    database::{
        self,
        private::{Options, PrivatePostgres, roles},
    },
    http, import,
    organisation::{self, Member},
    server,
};
use axum::{Router, body::Bytes, routing::post};
use tokio::{
    io::{AsyncReadExt, AsyncWriteExt},
    net::{TcpListener, TcpStream},
};

type Failure = Box<dyn Error + Send + Sync>;

/// Connections kept open.
const CONNECTIONS: usize = 8;

/// Turns of each side; the first of each is not counted.
const TURNS: usize = 9;

/// Length of one turn.
const TURN: Duration = Duration::from_secs(2);

const DATABASE: &str = "bench";
const SCENARIO: &str = include_str!("../demo/scenario.ndjson");
const SETUP: &str = include_str!("../demo/setup-allowed.json");

/// As in the service.
#[global_allocator]
static ALLOCATOR: mimalloc::MiMalloc = mimalloc::MiMalloc;

fn main() -> Result<(), Failure> {
    let runtime = tokio::runtime::Builder::new_multi_thread().enable_all().build()?;
    runtime.block_on(run())
}

async fn run() -> Result<(), Failure> {
    let postgres = PrivatePostgres::start(Options::throwaway()).await?;
    let measured = measure(&postgres).await;
    postgres.stop().await?;
    let (check, echo) = measured?;
    let throughput = check.per_second() / echo.per_second();
    println!("check: {}", check.line());
    println!("echo:  {}", echo.line());
    println!("throughput ratio {throughput:.2}");
    println!(
        "p99 ratio {:.2}",
        check.percentile(0.99).as_secs_f64() / echo.percentile(0.99).as_secs_f64()
    );
    Ok(())
}

async fn measure(postgres: &PrivatePostgres) -> Result<(Side, Side), Failure> {
    let (service, key) = service(postgres).await?;
    let echo =
        serve(http::layered(Router::new().route("/echo", post(|body: Bytes| async { body }))))
            .await?;
    let check_request = request("/v1/checks?detail=summary", Some(&key));
    let echo_request = request("/echo", Some(&key));
    let (mut check, mut plain) = (Side::default(), Side::default());
    for turn in 0..TURNS {
        let counted = turn > 0;
        check.take(turn_of(&service, &check_request).await?, counted);
        plain.take(turn_of(&echo, &echo_request).await?, counted);
    }
    Ok((check, plain))
}

/// The service with the demo's records, and a reader's key.
async fn service(postgres: &PrivatePostgres) -> Result<(String, String), Failure> {
    roles::ensure(&postgres.url("postgres", "postgres"), DATABASE).await?;
    database::migrate(&postgres.url(DATABASE, roles::OWNER)).await?;
    let pool = database::open(&postgres.url(DATABASE, roles::APP), 4).await?;
    let listen = ListenArgs { listen: "127.0.0.1:0".parse()?, rate_per_key: NonZeroU32::MAX };
    let state = server::state(pool.clone(), &listen).await?;
    let first = organisation::found(&pool, "Bench", "Admin").await?;
    let member = |name, role| Member { name: Some(name), role, station: None, label: name };
    let author = organisation::enrol(&pool, first.organisation, member("A", Role::Author)).await?;
    let approver =
        organisation::enrol(&pool, first.organisation, member("B", Role::Approver)).await?;
    let reader = organisation::enrol(&pool, first.organisation, member("C", Role::Reader)).await?;
    state.rulebooks.refresh(first.organisation).await?;
    let address = serve(http::router(state)).await?;
    let keys = import::Keys {
        author: author.reveal().to_owned(),
        approver: Some(approver.reveal().to_owned()),
    };
    let report = import::load(&format!("http://{address}"), &keys, SCENARIO.lines()).await?;
    if !report.refused.is_empty() {
        return Err(format!("the scenario was refused: {:?}", report.refused).into());
    }
    Ok((address, reader.reveal().to_owned()))
}

async fn serve(router: Router) -> Result<String, Failure> {
    let listener = TcpListener::bind("127.0.0.1:0").await?;
    let address = listener.local_addr()?.to_string();
    tokio::spawn(async move { axum::serve(listener, router).await });
    Ok(address)
}

/// The bytes of one request.
fn request(path: &str, key: Option<&str>) -> Vec<u8> {
    let authorization =
        key.map(|key| format!("authorization: Bearer {key}\r\n")).unwrap_or_default();
    format!(
        "POST {path} HTTP/1.1\r\nhost: bench\r\n{authorization}content-type: application/json\r\n\
         content-length: {}\r\n\r\n{SETUP}",
        SETUP.len()
    )
    .into_bytes()
}

/// Asks one side from all connections for one turn.
async fn turn_of(address: &str, request: &[u8]) -> Result<Turn, Failure> {
    let end = Instant::now() + TURN;
    let mut tasks = Vec::new();
    for _ in 0..CONNECTIONS {
        let stream = TcpStream::connect(address).await?;
        stream.set_nodelay(true)?;
        tasks.push(tokio::spawn(ask(stream, request.to_vec(), end)));
    }
    let started = Instant::now();
    let mut times = Vec::new();
    for task in tasks {
        times.extend(task.await??);
    }
    Ok(Turn { times, took: started.elapsed() })
}

/// One request after the other, until the end.
async fn ask(
    mut stream: TcpStream,
    request: Vec<u8>,
    end: Instant,
) -> Result<Vec<Duration>, Failure> {
    let (mut times, mut buffer) = (Vec::new(), vec![0_u8; 256 * 1024]);
    while Instant::now() < end {
        let started = Instant::now();
        stream.write_all(&request).await?;
        answer(&mut stream, &mut buffer).await?;
        times.push(started.elapsed());
    }
    Ok(times)
}

/// Reads one whole answer of known length, and insists on 200.
async fn answer(stream: &mut TcpStream, buffer: &mut [u8]) -> Result<(), Failure> {
    let mut filled = 0;
    loop {
        let read = stream.read(&mut buffer[filled..]).await?;
        if read == 0 {
            return Err("the connection was closed".into());
        }
        filled += read;
        let text = &buffer[..filled];
        let Some(head) = text.windows(4).position(|bytes| bytes == b"\r\n\r\n") else { continue };
        let head = std::str::from_utf8(&text[..head])?;
        if !head.starts_with("HTTP/1.1 200") {
            return Err(format!("not answered: {}", String::from_utf8_lossy(text)).into());
        }
        let length = head.lines().find_map(|line| line.strip_prefix("content-length: "));
        let length: usize = length.ok_or("the answer has no length")?.parse()?;
        if filled >= head.len() + 4 + length {
            return Ok(());
        }
    }
}

struct Turn {
    times: Vec<Duration>,
    took: Duration,
}

/// All counted turns of one side.
#[derive(Default)]
struct Side {
    times: Vec<Duration>,
    took: Duration,
}

impl Side {
    fn take(&mut self, turn: Turn, counted: bool) {
        if counted {
            self.times.extend(turn.times);
            self.took += turn.took;
            self.times.sort_unstable();
        }
    }

    #[expect(clippy::cast_precision_loss, reason = "a count of requests")]
    fn per_second(&self) -> f64 {
        self.times.len() as f64 / self.took.as_secs_f64()
    }

    #[expect(
        clippy::cast_precision_loss,
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "an index from a share"
    )]
    fn percentile(&self, share: f64) -> Duration {
        let index = (self.times.len() as f64 * share) as usize;
        self.times.get(index.min(self.times.len().saturating_sub(1))).copied().unwrap_or_default()
    }

    fn line(&self) -> String {
        format!(
            "{:>7.0} a second, p50 {:>6.0} us, p99 {:>6.0} us",
            self.per_second(),
            self.percentile(0.5).as_secs_f64() * 1e6,
            self.percentile(0.99).as_secs_f64() * 1e6
        )
    }
}
