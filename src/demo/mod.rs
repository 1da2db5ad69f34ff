//! `arcbounds demo`: a private PostgreSQL, an invented fabricator, a key for each role.

mod cast;

use std::error::Error;

use tokio::net::TcpListener;

use self::cast::Cast;
use crate::{
    config::{DemoArgs, ListenArgs},
    database::{
        self,
        private::{Durability, Options, PrivatePostgres, default_data_dir, roles},
    },
    http::AppState,
    import,
    server::{self, say},
};

type Failure = Box<dyn Error + Send + Sync>;

/// Name of the database in the private PostgreSQL.
const DATABASE: &str = "arcbounds";

/// The scenario, in the documented import form. Everything in it is invented.
const SCENARIO: &str = include_str!("../../demo/scenario.ndjson");

/// Runs the demo until it is stopped; the database stops with it.
///
/// # Errors
/// When PostgreSQL's server programs, the folder or the address cannot be had; the text says what to do.
pub async fn run(args: DemoArgs) -> Result<(), Failure> {
    // The address first: a taken port must not start a database.
    let listener = server::listen(&args.listen)?;
    let data_dir = match args.data_dir {
        Some(folder) => folder,
        None => default_data_dir()?,
    };
    say(&format!("Starting a private PostgreSQL in {} …", data_dir.display()));
    let options = Options { data_dir, durability: Durability::Durable };
    let postgres = PrivatePostgres::start(options).await?;
    let served = on_database(&postgres, listener, &args.listen).await;
    let stopped = postgres.stop().await;
    served?;
    stopped?;
    say("Stopped.");
    Ok(())
}

async fn on_database(
    postgres: &PrivatePostgres,
    listener: TcpListener,
    listen: &ListenArgs,
) -> Result<(), Failure> {
    roles::ensure(&postgres.url("postgres", "postgres"), DATABASE).await?;
    database::migrate(&postgres.url(DATABASE, roles::OWNER)).await?;
    let pool = database::open(&postgres.url(DATABASE, roles::APP), 10).await?;
    let state = server::state(pool, listen).await?;
    let address = format!("http://{}", listener.local_addr()?);
    // The scenario is loaded over HTTP, like any import, so serving starts first.
    let prepared = tokio::spawn(prepare(state.clone(), address));
    server::until_stopped(listener, state).await;
    prepared.abort();
    Ok(())
}

/// Prepares the demo; a failure is told, and the service goes on.
async fn prepare(state: AppState, address: String) {
    if let Err(error) = try_prepare(&state, &address).await {
        say(&format!("The demo scenario could not be prepared: {error}"));
    }
}

/// The last record of the scenario: where it is, the whole scenario is.
const LAST_RECORD: &str = "WO-2104";

/// Founds the demo organisation once, gives out new keys each time, prints what to try.
async fn try_prepare(state: &AppState, address: &str) -> Result<(), Failure> {
    let fresh = state.rulebooks.organisations().is_empty();
    let mut cast = Cast::assemble(state).await?;
    if fresh {
        say("Loading the demo scenario (all of it invented) …");
        let report = import::load(address, &cast.import_keys(), SCENARIO.lines()).await?;
        say(&report.to_string());
        for line in &report.refused {
            say(&format!("  line {}: {}", line.number, line.reason));
        }
    } else if !cast.has_work_order(state, LAST_RECORD) {
        say("The scenario was not loaded to its end last time; remove the folder to start afresh.");
    }
    cast.bind_kiosk(state).await?;
    say(&cast.introduction(address));
    Ok(())
}
