//! One PostgreSQL for the test program, and one database for each test.
//!
//! By default it is a private throw-away server. With `TEST_DATABASE_URL` it is the server at that
//! superuser's address; with the feature `container-tests` and `ARCBOUNDS_TEST_CONTAINER=1` it is a
//! container. The template database of such a server, and the container, stay after the run.

use std::{
    env,
    sync::atomic::{AtomicU32, Ordering},
};

use arcbounds::database::{
    self,
    private::{Options, PrivatePostgres, roles},
};
use sqlx::{AssertSqlSafe, Connection, PgConnection};
use tokio::sync::OnceCell;
use uuid::Uuid;

/// The server that all tests of this program share.
static SERVER: OnceCell<Server> = OnceCell::const_new();

/// Numbers the databases of this program.
static NEXT: AtomicU32 = AtomicU32::new(1);

enum Source {
    /// Started by this program.
    Private(PrivatePostgres),
    /// Address of a superuser on a server that runs elsewhere.
    Elsewhere(String),
    /// A container that this program started, and its superuser's address.
    #[cfg(feature = "container-tests")]
    #[expect(dead_code, reason = "the container lives as long as it is held")]
    Container(String, testcontainers::ContainerAsync<testcontainers_modules::postgres::Postgres>),
}

struct Server {
    source: Source,
    /// Name of the migrated database that is cloned, and first part of the clones' names.
    template: String,
}

/// A database of one test, as the service's roles reach it. Dropped with this value.
pub struct Database {
    name: String,
    superuser: String,
    /// Address for the service.
    pub app: String,
}

impl Database {
    /// Clones the migrated template.
    pub async fn clone_template() -> Self {
        let server = SERVER.get_or_init(Server::start).await;
        let number = NEXT.fetch_add(1, Ordering::Relaxed);
        let name = format!("{}_{number}", server.template);
        let superuser = server.url("postgres", None);
        execute(&superuser, &format!("create database {name} template {}", server.template)).await;
        roles::ensure(&superuser, &name).await.unwrap();
        let app = server.url(&name, Some(roles::APP));
        Self { name, superuser, app }
    }

    /// Address for a superuser, to look behind row-level security.
    pub fn superuser(&self) -> String {
        SERVER.get().unwrap().url(&self.name, None)
    }
}

impl Drop for Database {
    /// Dropping blocks; on a thread of its own it works in any test, also in one that has failed.
    fn drop(&mut self) {
        let (url, statement) =
            (self.superuser.clone(), format!("drop database {} with (force)", self.name));
        let dropped = std::thread::spawn(move || {
            let runtime = tokio::runtime::Builder::new_current_thread().enable_all().build();
            runtime.unwrap().block_on(execute(&url, &statement));
        });
        let gone = dropped.join();
        assert!(gone.is_ok() || std::thread::panicking(), "the test database was not dropped");
    }
}

impl Server {
    async fn start() -> Self {
        let template = format!("t{}", Uuid::now_v7().simple());
        let server = Self { source: Source::chosen().await, template };
        roles::ensure(&server.url("postgres", None), &server.template).await.unwrap();
        let owner = server.url(&server.template, Some(roles::OWNER));
        database::migrate(&owner).await.unwrap();
        server
    }

    /// Address of a database as a role; as the superuser where `None`.
    fn url(&self, database: &str, role: Option<&str>) -> String {
        match &self.source {
            Source::Private(server) => server.url(database, role.unwrap_or("postgres")),
            Source::Elsewhere(url) => elsewhere(url, database, role),
            #[cfg(feature = "container-tests")]
            Source::Container(url, _) => elsewhere(url, database, role),
        }
    }
}

impl Source {
    async fn chosen() -> Self {
        if let Ok(url) = env::var("TEST_DATABASE_URL") {
            return Self::Elsewhere(url);
        }
        if env::var("ARCBOUNDS_TEST_CONTAINER").is_ok_and(|value| value == "1") {
            let there = cfg!(feature = "container-tests");
            assert!(there, "ARCBOUNDS_TEST_CONTAINER=1 needs --features container-tests");
            #[cfg(feature = "container-tests")]
            return Self::container().await;
        }
        Self::Private(PrivatePostgres::start(Options::throwaway()).await.unwrap())
    }

    #[cfg(feature = "container-tests")]
    async fn container() -> Self {
        use testcontainers_modules::{postgres::Postgres, testcontainers::runners::AsyncRunner};

        let container = Postgres::default().start().await.unwrap();
        let host = container.get_host().await.unwrap();
        let port = container.get_host_port_ipv4(5432).await.unwrap();
        Self::Container(format!("postgres://postgres:postgres@{host}:{port}/postgres"), container)
    }
}

/// The superuser's address with another database. A role is taken on as the connection starts: the
/// service's roles have no password there, and need none.
fn elsewhere(url: &str, database: &str, role: Option<&str>) -> String {
    let (address, query) = url.split_once('?').unwrap_or((url, ""));
    let (server, _) = address.rsplit_once('/').unwrap();
    let role = role.map(|role| format!("options[role]={role}"));
    let parts: Vec<_> = [Some(query.to_owned()), role]
        .into_iter()
        .flatten()
        .filter(|part| !part.is_empty())
        .collect();
    format!("{server}/{database}?{}", parts.join("&"))
}

async fn execute(url: &str, statement: &str) {
    let mut connection = PgConnection::connect(url).await.unwrap();
    sqlx::query(AssertSqlSafe(statement)).execute(&mut connection).await.unwrap();
    connection.close().await.unwrap();
}
