//! From rows to a rulebook: only records that changed are compiled again.

use std::{
    collections::HashMap,
    hash::Hash,
    sync::{Arc, atomic::AtomicI64},
};

use serde_json::Value;
use sqlx::{PgConnection, PgPool};
use uuid::Uuid;

use super::{
    KeyHolder, Rulebook,
    store::{self, ChangedRecord, KeyRow, ReleasedRevision},
};
use crate::{
    access::{KeyHash, Role},
    check::{Book, BookSettings, ProcedureState, Procedures},
    consumables::ConsumableDocument,
    organisation::OrganisationSettings,
    procedures::{ProcedureDocument, Standing},
    stations::StationDocument,
    trade::Coded,
    wire::{self, FromWire},
    work_orders::WorkOrderDocument,
};

pub(super) type Keys = Vec<(KeyHash, KeyHolder)>;

/// Last uses that are not in the database yet, by key. A key that is read again goes on with its own.
pub(super) type LastUses = HashMap<Uuid, Arc<AtomicI64>>;

/// Reads one organisation's rulebook, starting from the one that is known.
pub(super) async fn load(
    pool: &PgPool,
    organisation: Uuid,
    known: Option<&Rulebook>,
    last_uses: &LastUses,
) -> sqlx::Result<(Rulebook, Keys)> {
    let mut tx = store::reader(pool, organisation).await?;
    let db = tx.connection();
    let (settings, version) = store::organisation(db).await?;
    // No defaults for settings that cannot be read: they may be more lenient. What is held stays, and ages.
    let settings = document::<OrganisationSettings>("organisation", "settings", &settings)
        .ok_or_else(|| sqlx::Error::Decode("settings of an organisation cannot be read".into()))?;
    let mut book = known.map(|known| known.book.clone()).unwrap_or_default();
    book.settings = BookSettings { decision_rule: settings.decision_rule, units: settings.units };
    let changed = store::changed_records(db, known.map_or(0, |known| known.version)).await?;
    take(db, &mut book, changed).await?;
    let rows = store::keys(db).await?;
    let keys = rows.into_iter().filter_map(|row| holder(organisation, row, last_uses)).collect();
    let confirmed = AtomicI64::new(0);
    Ok((Rulebook { organisation, version, settings, book, confirmed }, keys))
}

/// Puts changed records into the book.
async fn take(
    db: &mut PgConnection,
    book: &mut Book,
    changed: Vec<ChangedRecord>,
) -> sqlx::Result<()> {
    let mut procedures = Vec::new();
    for record in changed {
        let ChangedRecord { kind, code, state, document: body } = record;
        let gone = state == ProcedureState::Withdrawn.code();
        match kind.as_str() {
            "consumable" => {
                let new =
                    document::<ConsumableDocument>(&kind, &code, &body).map(|d| d.compile(&code));
                put(&mut book.consumables, code, new.filter(|_| !gone));
            }
            "station" => {
                let new =
                    document::<StationDocument>(&kind, &code, &body).map(|d| d.compile(&code));
                put(&mut book.stations, code, new.filter(|_| !gone));
            }
            "work-order" => {
                let new =
                    document::<WorkOrderDocument>(&kind, &code, &body).map(|d| d.compile(&code));
                put(&mut book.work_orders, code, new.filter(|_| !gone));
            }
            _ => {
                book.states
                    .extend(ProcedureState::from_code(&state).map(|state| (code.clone(), state)));
                procedures.push(code);
            }
        }
    }
    if !procedures.is_empty() {
        let released = store::released_revisions(db, &procedures).await?;
        let kept = book.procedures.all().filter(|p| !procedures.contains(&p.number)).cloned();
        let new = released.iter().filter_map(compile).map(Arc::new);
        book.procedures = Procedures::new(kept.chain(new).collect::<Vec<_>>());
    }
    Ok(())
}

fn compile(row: &ReleasedRevision) -> Option<crate::check::record::Procedure> {
    let standing = Standing {
        revision: u32::try_from(row.revision).ok()?,
        effective_from: row.effective_from,
        effective_until: row.effective_until,
        signed_by: row.signed_by.clone(),
    };
    document::<ProcedureDocument>("procedure", &row.code, &row.document)
        .map(|document| document.compile(&row.code, standing))
}

/// A stored document as its type. One that cannot be read is left out, loudly: a check that needs it
/// then has no record, and no record never means allowed.
fn document<T: FromWire>(kind: &str, code: &str, body: &Value) -> Option<T> {
    wire::read(body)
        .inspect_err(|problem| {
            tracing::error!(kind, code, ?problem, "stored document cannot be read");
        })
        .ok()
}

fn put<K: Hash + Eq, T>(map: &mut HashMap<K, Arc<T>>, key: K, value: Option<T>) {
    match value {
        Some(value) => map.insert(key, Arc::new(value)),
        None => map.remove(&key),
    };
}

fn holder(organisation: Uuid, row: KeyRow, last_uses: &LastUses) -> Option<(KeyHash, KeyHolder)> {
    let hash: KeyHash = row.secret_hash.try_into().ok()?;
    let roles = row.roles.iter().filter_map(|code| Role::from_code(code)).collect();
    let holder = KeyHolder {
        organisation,
        key: row.key_id,
        roles,
        person: row.person_id,
        station: row.station,
        expires_at: row.expires_at,
        hash,
        last_used: last_uses.get(&row.key_id).map(Arc::clone).unwrap_or_default(),
    };
    Some((hash, holder))
}
