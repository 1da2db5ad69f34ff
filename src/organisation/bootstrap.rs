//! Founding an organisation with its first administrator: what the command line does, once.

use sqlx::PgPool;
use uuid::Uuid;

use super::{OrganisationSettings, keys, people, store};
use crate::{
    access::{Role, Secret},
    database::{Actor, Change, TenantTx, document_hash},
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
pub async fn found(
    pool: &PgPool,
    name: &str,
    admin: &str,
) -> Result<FirstAdmin, Box<dyn std::error::Error + Send + Sync>> {
    let (organisation, person) = (Uuid::now_v7(), Uuid::now_v7());
    let secret = Secret::random()?;
    let mut tx = TenantTx::begin(pool, Actor::service(organisation)).await?;
    let settings = OrganisationSettings::default().to_wire();
    store::insert(tx.connection(), organisation, name, &settings).await?;
    let new = people::NewPerson { person_id: person, name: admin, roles: &[Role::Admin] };
    people::insert(&mut tx, new).await?;
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
        document_hash: Some(document_hash(&settings)),
        changes_rules: true,
    });
    tx.note(people::entry("added", person, false));
    tx.note(keys::change("made", key.key_id));
    tx.commit().await?;
    Ok(FirstAdmin { organisation, person, secret })
}

/// Somebody, or some software, that gets a key.
#[derive(Debug, Clone, Copy)]
pub struct Member<'a> {
    /// Name of the person; `None` for software and kiosks.
    pub name: Option<&'a str>,
    /// Role of person and key.
    pub role: Role,
    /// Station of a kiosk.
    pub station: Option<&'a str>,
    /// What the key is for; an older key of the same label is revoked.
    pub label: &'a str,
}

/// Gives a member a new key; the person is added where the organisation does not have one of that name.
///
/// # Errors
/// When the database or the random source fails.
pub async fn enrol(
    pool: &PgPool,
    organisation: Uuid,
    member: Member<'_>,
) -> Result<Secret, Box<dyn std::error::Error + Send + Sync>> {
    let secret = Secret::random()?;
    let mut tx = TenantTx::begin(pool, Actor::service(organisation)).await?;
    let roles = [member.role];
    let person = match member.name {
        None => None,
        Some(name) => {
            let known = people::named(&mut tx, name).await?;
            let new = people::NewPerson { person_id: Uuid::now_v7(), name, roles: &roles };
            Some(if let Some(person) = known {
                person
            } else {
                let person = people::insert(&mut tx, new).await?.person_id;
                tx.note(people::entry("added", person, false));
                person
            })
        }
    };
    for key in keys::labelled(&mut tx, member.label).await? {
        keys::revoke(&mut tx, key).await?;
        tx.note(keys::change("revoked", key));
    }
    let key = keys::NewKey {
        key_id: Uuid::now_v7(),
        label: member.label,
        roles: &roles,
        person,
        station: member.station,
        expires_at: None,
        hash: secret.hash(),
    };
    let made = keys::insert(&mut tx, &key).await?;
    tx.note(keys::change("made", made.key_id));
    tx.commit().await?;
    Ok(secret)
}
