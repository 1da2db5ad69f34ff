//! One release among many procedures: how long until checks are held to it.
//!
//! The demo's records, with one of its procedures copied as often as the first argument says (100,000 without
//! one). All copies cover the same jobs, so the lists of the index are as long as they can be. Stated are the
//! start of a server on them, the release as its caller waits for it (the own server is held to it by then),
//! and what a second server takes after that. Run with `cargo bench --bench release_among_many -- 100000`.

#[path = "shared/furnish.rs"]
mod furnish;

use std::{
    error::Error,
    time::{Duration, Instant},
};

use arcbounds::{
    database::private::{Options, PrivatePostgres},
    http, rulebook,
};
use reqwest::{Client, Method, Response};
use sqlx::{Connection, PgConnection};
use tokio::net::TcpListener;

use furnish::{DATABASE, Keys};

type Failure = Box<dyn Error + Send + Sync>;

/// Releases that are timed.
const RELEASES: usize = 5;

const REVISION: &str = include_str!("../demo/wps-103-revision-2.json");
const COPIED: &str = "WPS-101";
const RELEASED: &str = "WPS-103";
const NAMED: &str = r#"{"procedure": "WPS-103"}"#;

fn main() -> Result<(), Failure> {
    let count = std::env::args().find_map(|argument| argument.parse().ok()).unwrap_or(100_000);
    let runtime = tokio::runtime::Builder::new_multi_thread().enable_all().build()?;
    runtime.block_on(async {
        let postgres = PrivatePostgres::start(Options::throwaway()).await?;
        let measured = measure(&postgres, count).await;
        postgres.stop().await?;
        measured
    })
}

async fn measure(postgres: &PrivatePostgres, count: i64) -> Result<(), Failure> {
    let keys = furnish::found(postgres).await?;
    furnish::load(&serve(postgres).await?, &keys).await?;
    copy(&postgres.url(DATABASE, "postgres"), count).await?;
    let started = Instant::now();
    let own = serve(postgres).await?;
    println!("{count} procedures: a server starts in {:.2?}", started.elapsed());
    let other = serve(postgres).await?;
    for _ in 0..RELEASES {
        let (released, followed) = release(&own, &other, &keys).await?;
        println!("release answered in {released:.2?}; the second server {followed:.2?} later");
    }
    Ok(())
}

/// Copies one procedure behind the service's back.
async fn copy(url: &str, count: i64) -> Result<(), Failure> {
    let mut db = PgConnection::connect(url).await?;
    // Without the triggers that let nobody write a revision but the next one.
    sqlx::query("set session_replication_role = replica").execute(&mut db).await?;
    for (table, columns) in [
        ("record", "kind, revision, edit, state, version, changed_at, rule_version"),
        (
            "record_revision",
            "kind, revision, edit, document, document_hash, reason, author_id, key_id, created_at",
        ),
        (
            "procedure_standing",
            "revision, state, events, effective_from, effective_until, signed_by",
        ),
    ] {
        let of_kind = if table == "procedure_standing" { "" } else { "and kind = 'procedure'" };
        let statement = format!(
            "insert into {table} (organisation_id, code, {columns})
             select organisation_id, code || '-' || n, {columns}
             from {table}, generate_series(1, $1) n where code = $2 {of_kind}"
        );
        sqlx::query(sqlx::AssertSqlSafe(statement))
            .bind(count)
            .bind(COPIED)
            .execute(&mut db)
            .await?;
    }
    sqlx::query("analyze").execute(&mut db).await?;
    db.close().await?;
    Ok(())
}

/// A server of its own, which follows the changes of the others.
async fn serve(postgres: &PrivatePostgres) -> Result<String, Failure> {
    let state = furnish::state(postgres).await?;
    tokio::spawn(rulebook::follow(state.rulebooks.clone()));
    let listener = TcpListener::bind("127.0.0.1:0").await?;
    let address = format!("http://{}", listener.local_addr()?);
    tokio::spawn(async move { axum::serve(listener, http::router(state)).await });
    Ok(address)
}

/// Revises, submits and releases one procedure; the time of the release, and of the second server after it.
async fn release(own: &str, other: &str, keys: &Keys) -> Result<(Duration, Duration), Failure> {
    let client = Client::new();
    let path = format!("{own}/v1/procedures/{RELEASED}");
    let (author, approver) = (&keys.author, &keys.approver);
    let read = call(&client, Method::GET, &path, author, "", None).await?;
    let written = call(&client, Method::PUT, &path, author, &tag(&read), Some(REVISION)).await?;
    let submission = format!("{path}/submission");
    let submitted =
        call(&client, Method::POST, &submission, author, &tag(&written), Some("{}")).await?;
    let started = Instant::now();
    let release = format!("{path}/release");
    let released =
        call(&client, Method::POST, &release, approver, &tag(&submitted), Some("{}")).await?;
    let took = started.elapsed();
    let version = header(&released, "rulebook-version");
    let started = Instant::now();
    loop {
        let asked = client.post(format!("{other}/v1/checks")).bearer_auth(&keys.reader);
        let asked =
            asked.header("rulebook-version", &version).header("content-type", "application/json");
        if asked.body(NAMED).send().await?.status().is_success() {
            return Ok((took, started.elapsed()));
        }
    }
}

async fn call(
    client: &Client,
    method: Method,
    url: &str,
    key: &str,
    tag: &str,
    body: Option<&'static str>,
) -> Result<Response, Failure> {
    let mut call = client.request(method, url).bearer_auth(key);
    if let Some(body) = body {
        call = call.header("if-match", tag).header("content-type", "application/json").body(body);
    }
    let answer = call.send().await?;
    if answer.status().is_success() {
        return Ok(answer);
    }
    Err(format!("{url}: {}", answer.text().await?).into())
}

fn header(answer: &Response, name: &str) -> String {
    answer.headers().get(name).and_then(|value| value.to_str().ok()).unwrap_or_default().to_owned()
}

fn tag(answer: &Response) -> String {
    header(answer, "etag")
}
