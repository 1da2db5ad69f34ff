//! Founding an organisation with its first administrator: what the command line does, once.

use sqlx::PgPool;
use uuid::Uuid;

use super::{OrganisationSettings, keys, people};
use crate::{
    access::{Role, Secret},
    database::{Actor, Change, TenantTx},
    wire::ToWire,
};

/// A founded organisation and the first key to it.
#[derive(Debug, Clone)]
pub struct FirstAdmin {
    /// Organisation.
    pub organisation: Uuid,
    /// The administrator.
    pub person: Uuid,
    /// The key; shown once.
    pub secret: Secret,
}

/// Founds an organisation.
///
/// # Errors
/// When the database or the random source fails.
pub async fn found(pool: &PgPool, name: &str, admin: &str) -> Result<FirstAdmin, Box<dyn std::error::Error + Send + Sync>> {
    let (organisation, person) = (Uuid::now_v7(), Uuid::now_v7());
    let secret = Secret::random()?;
    let mut tx = TenantTx::begin(pool, Actor { organisation, key: None, person: None }).await?;
    sqlx::query("insert into organisation (organisation_id, name, settings) values ($1, $2, $3)")
        .bind(organisation)
        .bind(name)
        .bind(OrganisationSettings::default().to_wire())
        .execute(tx.connection())
        .await?;
    sqlx::query("insert into audit_head (organisation_id) values ($1)")
        .bind(organisation)
        .execute(tx.connection())
        .await?;
    let new = people::NewPerson { person_id: person, name, roles: &[Role::Admin] };
    people::insert(&mut tx, people::NewPerson { name: admin, ..new }).await?;
    let key = keys::NewKey {
        key_id: Uuid::now_v7(),
        label: "first administrator",
        roles: &[Role::Admin],
        person: Some(person),
        station: None,
        expires_at: None,
        hash: secret.hash(),
    };
    keys::insert(&mut tx, &key).await?;
    tx.note(Change {
        action: "founded",
        kind: "organisation",
        subject: organisation.to_string(),
        revision: None,
        document_hash: None,
        changes_rules: true,
    });
    tx.commit().await?;
    Ok(FirstAdmin { organisation, person, secret })
}
