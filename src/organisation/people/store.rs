//! SQL of people.

use uuid::Uuid;

use super::{PersonIn, PersonOut};
use crate::{access::Role, database::TenantTx, trade::Coded};

/// A person to be inserted.
#[derive(Debug, Clone, Copy)]
pub(in crate::organisation) struct NewPerson<'a> {
    pub person_id: Uuid,
    pub name: &'a str,
    pub roles: &'a [Role],
}

pub(in crate::organisation) async fn insert(
    tx: &mut TenantTx,
    new: NewPerson<'_>,
) -> sqlx::Result<PersonOut> {
    let organisation = tx.actor().organisation;
    sqlx::query_as(
        "insert into person (organisation_id, person_id, name, roles) values ($1, $2, $3, $4)
         returning person_id, name, roles, active, version",
    )
    .bind(organisation)
    .bind(new.person_id)
    .bind(new.name)
    .bind(codes(new.roles))
    .fetch_one(tx.connection())
    .await
}

pub(super) async fn all(tx: &mut TenantTx) -> sqlx::Result<Vec<PersonOut>> {
    sqlx::query_as("select person_id, name, roles, active, version from person order by person_id")
        .fetch_all(tx.connection())
        .await
}

/// One person.
pub(super) async fn find(tx: &mut TenantTx, person: Uuid) -> sqlx::Result<Option<PersonOut>> {
    sqlx::query_as(
        "select person_id, name, roles, active, version from person where person_id = $1",
    )
    .bind(person)
    .fetch_optional(tx.connection())
    .await
}

/// Changes a person; `None` when there is none with this id.
pub(super) async fn update(
    tx: &mut TenantTx,
    person: Uuid,
    sent: &PersonIn,
) -> sqlx::Result<Option<PersonOut>> {
    sqlx::query_as(
        "update person set name = $2, roles = $3, active = $4, version = version + 1
         where person_id = $1 returning person_id, name, roles, active, version",
    )
    .bind(person)
    .bind(&sent.name)
    .bind(codes(&sent.roles))
    .bind(sent.active.unwrap_or(true))
    .fetch_optional(tx.connection())
    .await
}

fn codes(roles: &[Role]) -> Vec<&'static str> {
    roles.iter().map(|role| role.code()).collect()
}

/// The first person of this name.
pub(in crate::organisation) async fn named(
    tx: &mut TenantTx,
    name: &str,
) -> sqlx::Result<Option<Uuid>> {
    sqlx::query_scalar("select person_id from person where name = $1 order by person_id limit 1")
        .bind(name)
        .fetch_optional(tx.connection())
        .await
}
