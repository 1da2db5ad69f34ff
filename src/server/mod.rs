//! Running the service: opening the database, serving until asked to stop.

mod accept;

use std::{
    error::Error,
    io::Write,
    net::SocketAddr,
    sync::{Arc, OnceLock},
    time::Duration,
};

use metrics_exporter_prometheus::{PrometheusBuilder, PrometheusHandle};
use sqlx::PgPool;
use tokio::{
    net::{TcpListener, TcpSocket},
    sync::Semaphore,
};
use tracing_subscriber::EnvFilter;

use crate::{
    access::Limiter,
    config::{FoundArgs, HealthArgs, ListenArgs, MigrateArgs, ServeArgs},
    database,
    http::{AppState, Reach, router},
    organisation,
    rulebook::{Rulebooks, follow},
};

type Failure = Box<dyn Error + Send + Sync>;

/// Logs to standard error: one line a request at `info`, as the environment asks.
pub fn log_to_stderr() {
    let filter =
        EnvFilter::try_from_env("ARCBOUNDS_LOG").unwrap_or_else(|_| EnvFilter::new("warn"));
    let format = tracing_subscriber::fmt().with_env_filter(filter).with_writer(std::io::stderr);
    // A test binary may have installed one already.
    let _ = format.try_init();
}

/// Audit chains that are walked at once.
const WALKS: usize = 2;

/// Everything the handlers need, on this pool.
///
/// # Errors
/// When the rulebooks cannot be read.
pub async fn state(pool: PgPool, listen: &ListenArgs) -> sqlx::Result<AppState> {
    let rulebooks = Rulebooks::load(pool.clone()).await?;
    let reach = Reach {
        rulebooks,
        pool,
        limiter: Limiter::per_second(listen.rate_per_key),
        walks: Arc::new(Semaphore::new(WALKS)),
        metrics: metrics(),
    };
    Ok(reach.into())
}

/// One recorder for the process, however many services it runs.
fn metrics() -> PrometheusHandle {
    static HANDLE: OnceLock<PrometheusHandle> = OnceLock::new();
    HANDLE
        .get_or_init(|| {
            let recorder = PrometheusBuilder::new().build_recorder();
            let handle = recorder.handle();
            let _ = metrics::set_global_recorder(recorder);
            handle
        })
        .clone()
}

/// `arcbounds serve`
///
/// # Errors
/// When the database or the address cannot be had.
pub async fn serve(args: ServeArgs) -> Result<(), Failure> {
    let pool = database::open(&args.database_url, args.connections).await?;
    let state = state(pool, &args.listen).await?;
    let listener = listen(&args.listen)?;
    say(&format!("arcbounds listens on http://{}", listener.local_addr()?));
    until_stopped(listener, state).await;
    Ok(())
}

/// Takes the address.
///
/// # Errors
/// When it is taken or cannot be used; the text says so.
pub fn listen(args: &ListenArgs) -> Result<TcpListener, Failure> {
    bound(args.listen).map_err(|error| {
        format!(
            "cannot listen on {} ({error}); choose another address with --listen, such as 127.0.0.1:0",
            args.listen
        )
        .into()
    })
}

/// Connections that may wait to be accepted. The usual 128 would refuse a shift's worth of kiosks that come
/// back at once while the service is busy.
const WAITING: u32 = 4096;

fn bound(address: SocketAddr) -> std::io::Result<TcpListener> {
    let socket = if address.is_ipv6() { TcpSocket::new_v6()? } else { TcpSocket::new_v4()? };
    // As a plain listener does: a restart need not wait for old connections to time out.
    socket.set_reuseaddr(true)?;
    socket.bind(address)?;
    socket.listen(WAITING)
}

/// Serves until Ctrl-C or a request to terminate, then lets running requests finish, but not for ever.
pub async fn until_stopped(listener: TcpListener, state: AppState) {
    let followed = tokio::spawn(follow(Arc::clone(&state.rulebooks)));
    let counted = tokio::spawn(keep_counting(state.metrics.clone()));
    let (pool, rulebooks) = (state.pool.clone(), Arc::clone(&state.rulebooks));
    accept::serve(listener, router(state), stop_signal()).await;
    followed.abort();
    counted.abort();
    if let Err(error) = rulebooks.flush_last_use().await {
        tracing::warn!(%error, "last use of keys not written");
    }
    pool.close().await;
}

/// How often what was counted is drained.
const UPKEEP: Duration = Duration::from_secs(5);

/// Drains what was counted into the figures of the metrics, which else would pile up until somebody asks for them.
async fn keep_counting(metrics: PrometheusHandle) {
    loop {
        tokio::time::sleep(UPKEEP).await;
        metrics.run_upkeep();
    }
}

/// Resolves at Ctrl-C or a request to terminate.
async fn stop_signal() {
    use tokio::signal::unix::{SignalKind, signal};
    let terminate = async {
        match signal(SignalKind::terminate()) {
            Ok(mut signal) => drop(signal.recv().await),
            Err(_) => std::future::pending().await,
        }
    };
    tokio::select! {
        _ = tokio::signal::ctrl_c() => {}
        () = terminate => {}
    }
}

/// `arcbounds migrate`
///
/// # Errors
/// When a migration fails.
pub async fn migrate(args: &MigrateArgs) -> Result<(), Failure> {
    database::migrate(&args.owner_url).await?;
    say("The schema is up to date.");
    Ok(())
}

/// `arcbounds found`
///
/// # Errors
/// When the database fails.
pub async fn found(args: &FoundArgs) -> Result<(), Failure> {
    let pool = database::open(&args.database_url, 1).await?;
    let first = organisation::found(&pool, &args.name, &args.admin).await?;
    pool.close().await;
    say(&format!(
        "Founded organisation {}.\nKey of its administrator, shown this once:\n{}",
        first.organisation,
        first.secret.reveal()
    ));
    Ok(())
}

/// `arcbounds health`
///
/// # Errors
/// When the service does not answer, or is not ready.
pub async fn health(args: &HealthArgs) -> Result<(), Failure> {
    let client = crate::import::http_client(Duration::from_secs(3))?;
    let response = client.get(format!("{}/health/ready", args.address)).send().await?;
    let status = response.status();
    if status.is_success() { Ok(()) } else { Err(format!("not ready: {status}").into()) }
}

/// Prints a line for people, without minding a reader that has gone away.
pub(crate) fn say(line: &str) {
    let _ = writeln!(std::io::stdout(), "{line}");
}
