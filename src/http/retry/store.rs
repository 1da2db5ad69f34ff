//! SQL of kept answers.

use axum::http::StatusCode;
use serde_json::{Map, Value};
use sqlx::FromRow;

use crate::database::TenantTx;

/// Where an answer is kept.
#[derive(Debug)]
pub(super) struct Slot {
    pub route: String,
    pub key: String,
    pub fingerprint: Vec<u8>,
}

/// A kept answer.
#[derive(Debug, FromRow)]
pub(super) struct Kept {
    pub fingerprint: Vec<u8>,
    pub status: i32,
    pub headers: Value,
    pub body: Vec<u8>,
}

/// Takes the slot; false while another request holds it.
pub(super) async fn lock(tx: &mut TenantTx, slot: &Slot) -> sqlx::Result<bool> {
    let actor = tx.actor();
    let name = format!("{}/{:?}/{}/{}", actor.organisation, actor.key, slot.route, slot.key);
    sqlx::query_scalar("select pg_try_advisory_xact_lock(hashtextextended($1, 0))")
        .bind(name)
        .fetch_one(tx.connection())
        .await
}

/// The answer kept in the slot within the last day.
pub(super) async fn kept(tx: &mut TenantTx, slot: &Slot) -> sqlx::Result<Option<Kept>> {
    let key = tx.actor().key;
    sqlx::query_as(
        "select fingerprint, status, headers, body from retry
         where key_id = $1 and route = $2 and retry_key = $3 and created_at > now() - interval '24 hours'",
    )
    .bind(key)
    .bind(&slot.route)
    .bind(&slot.key)
    .fetch_optional(tx.connection())
    .await
}

/// Keeps an answer, and drops the one before it in the slot with some others that are older than a day: each
/// answer kept drops more than one, so that none has to drop all.
pub(super) async fn keep(
    tx: &mut TenantTx,
    slot: &Slot,
    status: StatusCode,
    headers: &[(&'static str, String)],
    body: &Value,
) -> sqlx::Result<()> {
    let actor = tx.actor();
    let headers: Map<_, _> = headers
        .iter()
        .map(|(name, value)| ((*name).to_owned(), Value::from(value.as_str())))
        .collect();
    sqlx::query(
        "delete from retry
         where created_at <= now() - interval '24 hours'
           and ((key_id, route, retry_key) = ($1, $2, $3)
                or (key_id, route, retry_key) in (
                    select key_id, route, retry_key from retry order by created_at limit 20))",
    )
    .bind(actor.key)
    .bind(&slot.route)
    .bind(&slot.key)
    .execute(tx.connection())
    .await?;
    sqlx::query(
        "insert into retry (organisation_id, key_id, route, retry_key, fingerprint, status, headers, body)
         values ($1, $2, $3, $4, $5, $6, $7, $8)",
    )
    .bind(actor.organisation)
    .bind(actor.key)
    .bind(&slot.route)
    .bind(&slot.key)
    .bind(&slot.fingerprint)
    .bind(i32::from(status.as_u16()))
    .bind(Value::Object(headers))
    .bind(body.to_string().into_bytes())
    .execute(tx.connection())
    .await?;
    Ok(())
}
