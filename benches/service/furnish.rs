//! The service with the demo's records.

use std::num::NonZeroU32;

use arcbounds::{
    access::Role,
    config::ListenArgs,
    database::{
        self,
        private::{PrivatePostgres, roles},
    },
    http, import,
    organisation::{self, Member},
    server,
};
use axum::Router;
use tokio::net::TcpListener;

use crate::{DATABASE, Failure, scenario::SCENARIO};

/// Address of the service, and a reader's key.
pub async fn service(postgres: &PrivatePostgres) -> Result<(String, String), Failure> {
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

/// Serves routes on a port of their own.
pub async fn serve(router: Router) -> Result<String, Failure> {
    let listener = TcpListener::bind("127.0.0.1:0").await?;
    let address = listener.local_addr()?.to_string();
    tokio::spawn(async move { axum::serve(listener, router).await });
    Ok(address)
}
