//! The real service on a database of its own, spoken to over HTTP.

mod call;
pub mod documents;
pub mod figures;
mod postgres;
mod shop;

pub use call::{Answer, Call};
pub use shop::Shop;

use std::{num::NonZeroU32, sync::Arc};

use arcbounds::{
    config::ListenArgs,
    database,
    http::{AppState, router},
    rulebook, server,
};
use reqwest::Method;
use serde_json::{Value, json};
use tokio::task::JoinHandle;

use postgres::Database;

/// Requests a second that a test may make with one key: more than any makes.
const RATE: u32 = 100_000;

/// A served database with two organisations that know nothing of each other.
///
/// Its parts go in the order they are written: first the service, then its database.
pub struct Api {
    /// The organisation of the tests.
    pub shop: Shop,
    /// Another organisation with the same roles, and nothing else.
    pub stranger: Shop,
    service: Service,
    database: Database,
}

/// One running service.
pub struct Service {
    address: String,
    client: reqwest::Client,
    state: AppState,
    tasks: Vec<JoinHandle<()>>,
}

impl Api {
    /// Starts the service on a fresh database.
    pub async fn start() -> Self {
        Self::with_rate(RATE).await
    }

    /// The same, with so many requests a second for each key.
    pub async fn with_rate(rate: u32) -> Self {
        let database = Database::clone_template().await;
        let service = Service::start(&database, rate).await;
        let shop = Shop::found(&service, "Shop under test").await;
        let stranger = Shop::found(&service, "Another shop").await;
        Self { shop, stranger, service, database }
    }

    /// The same, with the documents of [`documents`] written and their procedure released and signed.
    pub async fn furnished() -> Self {
        let api = Self::start().await;
        api.shop.furnish(&api.service).await;
        api
    }

    /// Another organisation, with the same roles and nothing else.
    pub async fn found(&self, name: &str) -> Shop {
        Shop::found(&self.service, name).await
    }

    /// Another service on the same database.
    pub async fn replica(&self) -> Service {
        Service::start(&self.database, RATE).await
    }

    /// Address of the database for a superuser.
    pub fn superuser_url(&self) -> String {
        self.database.superuser()
    }
}

impl std::ops::Deref for Api {
    type Target = Service;

    fn deref(&self) -> &Service {
        &self.service
    }
}

impl Service {
    async fn start(database: &Database, rate: u32) -> Self {
        // The HTTP client asks for a provider, as the program's does; a second one is harmless.
        let _ = rustls::crypto::ring::default_provider().install_default();
        let listen = ListenArgs {
            listen: ([127, 0, 0, 1], 0).into(),
            rate_per_key: NonZeroU32::new(rate).unwrap(),
        };
        let pool = database::open(&database.app, 4).await.unwrap();
        let state = server::state(pool, &listen).await.unwrap();
        let listener = server::listen(&listen).unwrap();
        let address = format!("http://{}", listener.local_addr().unwrap());
        let served = router(state.clone());
        let tasks = vec![
            tokio::spawn(async move { axum::serve(listener, served).await.unwrap() }),
            tokio::spawn(rulebook::follow(Arc::clone(&state.rulebooks))),
        ];
        Self { address, client: reqwest::Client::builder().build().unwrap(), state, tasks }
    }

    /// A request.
    pub fn call(&self, method: Method, path: &str) -> Call {
        Call::new(&self.client, method, format!("{}{path}", self.address))
    }

    /// Reads with a key.
    pub async fn get(&self, key: &str, path: &str) -> Answer {
        self.call(Method::GET, path).key(key).send().await
    }

    /// Sends a body with a key.
    pub async fn post(&self, key: &str, path: &str, body: &Value) -> Answer {
        self.call(Method::POST, path).key(key).json(body).send().await
    }

    /// Replaces the version of a record.
    pub async fn put(&self, key: &str, path: &str, etag: &str, body: &Value) -> Answer {
        self.call(Method::PUT, path).key(key).if_match(etag).json(body).send().await
    }

    /// Takes a step that has no body.
    pub async fn act(&self, key: &str, path: &str, etag: &str) -> Answer {
        self.call(Method::POST, path).key(key).if_match(etag).send().await
    }

    /// Takes a record out of use; the path is that of the step.
    pub async fn withdraw(&self, key: &str, path: &str, etag: &str) -> Answer {
        let call = self.call(Method::POST, path).key(key).if_match(etag);
        call.json(&json!({ "reason": "No longer used" })).send().await
    }

    /// Address without a slash at its end.
    pub fn address(&self) -> &str {
        &self.address
    }

    /// What the service holds: pool and rulebooks.
    pub fn state(&self) -> &AppState {
        &self.state
    }
}

impl Drop for Service {
    fn drop(&mut self) {
        for task in &self.tasks {
            task.abort();
        }
    }
}

/// The only finding of a check with an owner of this kind.
#[track_caller]
pub fn finding<'a>(answer: &'a Value, check: &str, owner: &str) -> &'a Value {
    let all = answer["findings"].as_array().unwrap().iter();
    let found: Vec<_> =
        all.filter(|one| one["check"] == check && one["owner"]["kind"] == owner).collect();
    assert_eq!(found.len(), 1, "{check} of {owner}: {answer:#}");
    found[0]
}
