//! A database with the demo's people, and with its records through the service's own API.

use std::{error::Error, num::NonZeroU32};

use arcbounds::{
    access::{Role, Secret},
    config::ListenArgs,
    database::{
        self,
        private::{PrivatePostgres, roles},
    },
    http::AppState,
    import,
    organisation::{self, Member},
    server,
};

type Failure = Box<dyn Error + Send + Sync>;

/// Name of the database.
pub const DATABASE: &str = "bench";

const SCENARIO: &str = include_str!("../../demo/scenario.ndjson");

/// Keys of the people.
pub struct Keys {
    pub author: String,
    pub approver: String,
    pub reader: String,
}

/// An organisation with one person for each role.
pub async fn found(postgres: &PrivatePostgres) -> Result<Keys, Failure> {
    roles::ensure(&postgres.url("postgres", "postgres"), DATABASE).await?;
    database::migrate(&postgres.url(DATABASE, roles::OWNER)).await?;
    let pool = database::open(&postgres.url(DATABASE, roles::APP), 4).await?;
    let first = organisation::found(&pool, "Bench", "Admin").await?;
    let enrol = async |name, role| -> Result<String, Failure> {
        let member = Member { name: Some(name), role, station: None, label: name };
        let key: Secret = organisation::enrol(&pool, first.organisation, member).await?;
        Ok(key.reveal().to_owned())
    };
    Ok(Keys {
        author: enrol("A", Role::Author).await?,
        approver: enrol("B", Role::Approver).await?,
        reader: enrol("C", Role::Reader).await?,
    })
}

/// A server's state on that database.
pub async fn state(postgres: &PrivatePostgres) -> Result<AppState, Failure> {
    let pool = database::open(&postgres.url(DATABASE, roles::APP), 4).await?;
    let listen = ListenArgs { listen: "127.0.0.1:0".parse()?, rate_per_key: NonZeroU32::MAX };
    Ok(server::state(pool, &listen).await?)
}

/// Loads the demo's records through the service at this address.
pub async fn load(address: &str, keys: &Keys) -> Result<(), Failure> {
    let keys = import::Keys { author: keys.author.clone(), approver: Some(keys.approver.clone()) };
    let report = import::load(address, &keys, SCENARIO.lines()).await?;
    if report.refused.is_empty() {
        Ok(())
    } else {
        Err(format!("the scenario was refused: {:?}", report.refused).into())
    }
}
