//! From rows to a rulebook: only records that changed are compiled again.

use std::{
    collections::HashMap,
    sync::{Arc, atomic::AtomicI64},
    time::Duration,
};

use serde_json::Value;
use sqlx::{PgConnection, PgPool};
use uuid::Uuid;

use super::{
    KeyHolder, Rulebook,
    store::{self, ChangedRecord, KeyRow, ReleasedRevision},
};
use crate::{
    access::{KeyHash, KeyUse, Role},
    batches::{self, BatchDocument},
    check::{Book, BookSettings, ProcedureState, Records},
    consumables::ConsumableDocument,
    organisation::OrganisationSettings,
    procedures::{ProcedureDocument, Standing},
    stations::StationDocument,
    trade::Coded,
    welders::{self, WelderDocument},
    wire::{self, FromWire},
    work_orders::WorkOrderDocument,
};

/// Keys that work.
pub(super) type Keys = Vec<KeyHolder>;

/// How keys are used, by key. A key that is read again goes on with its own.
pub(super) type KeyUses = HashMap<Uuid, Arc<KeyUse>>;

/// Records read at once: a large organisation needs neither all its documents in memory nor one answer
/// that takes longer than [`PATIENCE`].
const BATCH: usize = 500;

/// Longest wait for one answer of the database: a connection that hangs must not keep later changes from
/// being read.
const PATIENCE: Duration = Duration::from_secs(20);

/// The answer of the database, unless it takes too long.
pub(super) async fn in_time<T>(work: impl Future<Output = sqlx::Result<T>>) -> sqlx::Result<T> {
    tokio::time::timeout(PATIENCE, work).await.unwrap_or(Err(sqlx::Error::PoolTimedOut))
}

/// What was read.
pub(super) struct Loaded {
    pub rulebook: Rulebook,
    /// Keys that work; `None` where nothing about them changed.
    pub keys: Option<Keys>,
}

/// Reads one organisation's rulebook, starting from the one that is known: only what changed since is
/// read and compiled. `None` where nothing did.
pub(super) async fn load(
    pool: &PgPool,
    organisation: Uuid,
    known: Option<&Rulebook>,
    uses: &KeyUses,
) -> sqlx::Result<Option<Loaded>> {
    let mut tx = in_time(store::reader(pool, organisation)).await?;
    let db = tx.connection();
    let (settings, version) = in_time(store::organisation(db)).await?;
    if known.is_some_and(|known| known.version == version) {
        return Ok(None);
    }
    // No defaults for settings that cannot be read: they may be more lenient. What is held stays, and ages.
    let settings = document::<OrganisationSettings>("organisation", "settings", &settings)
        .ok_or_else(|| sqlx::Error::Decode("settings of an organisation cannot be read".into()))?;
    let after = known.map_or(0, |known| known.version);
    let mut book = known.map(|known| known.book.clone()).unwrap_or_default();
    book.settings = BookSettings {
        decision_rule: settings.decision_rule,
        guard_factor: settings.guard_factor.unwrap_or_default(),
        units: settings.units,
    };
    let changed = in_time(store::changed_records(db, after)).await?;
    let people = match known {
        Some(_) => in_time(store::changes_of_people(db, after)).await?,
        None => Vec::new(),
    };
    let signed = signed_by(db, &people).await?;
    take(db, &mut book, changed, signed).await?;
    let keys = if known.is_none() || !people.is_empty() {
        let rows = in_time(store::keys(db)).await?;
        Some(rows.into_iter().filter_map(|row| holder(organisation, row, uses)).collect())
    } else {
        None
    };
    let confirmed = AtomicI64::new(0);
    let rulebook = Rulebook { organisation, version, settings, book, confirmed };
    Ok(Some(Loaded { rulebook, keys }))
}

/// Procedures signed by the people among these subjects.
async fn signed_by(
    db: &mut PgConnection,
    changed: &[(String, String)],
) -> sqlx::Result<Vec<String>> {
    let people = changed.iter().filter(|(kind, _)| kind == "person");
    let people: Vec<Uuid> = people.filter_map(|(_, subject)| subject.parse().ok()).collect();
    if people.is_empty() { Ok(Vec::new()) } else { in_time(store::signed_by(db, &people)).await }
}

/// Puts changed records into the book, and procedures of which only the signer changed.
async fn take(
    db: &mut PgConnection,
    book: &mut Book,
    changed: Vec<ChangedRecord>,
    signed: Vec<String>,
) -> sqlx::Result<()> {
    let mut by_kind: HashMap<String, Vec<String>> = HashMap::new();
    by_kind.insert(PROCEDURE.to_owned(), signed);
    for ChangedRecord { kind, code, state } in changed {
        if kind == PROCEDURE {
            if let Some(state) = ProcedureState::from_code(&state) {
                book.states.insert_mut(code.clone(), state);
            }
        } else if state == ProcedureState::Withdrawn.code() {
            remove(book, &kind, &code);
            continue;
        }
        by_kind.entry(kind).or_default().push(code);
    }
    let mut procedures = by_kind.remove(PROCEDURE).unwrap_or_default();
    procedures.sort_unstable();
    procedures.dedup();
    for (kind, codes) in by_kind {
        for codes in codes.chunks(BATCH) {
            for (code, body) in in_time(store::documents(db, &kind, codes)).await? {
                if kind == welders::KIND.column {
                    let new = document::<WelderDocument>(&kind, &code, &body);
                    let events = in_time(welders::events(db, &code)).await?;
                    let new = new.map(|document| document.compile(&code, &events));
                    keep(&mut book.welders, code, new);
                } else if kind == batches::KIND.column {
                    let new = document::<BatchDocument>(&kind, &code, &body);
                    let events = in_time(batches::events(db, &code)).await?;
                    let new = new.map(|document| document.compile(&code, &events));
                    keep(&mut book.batches, code, new);
                } else {
                    put(book, &kind, code, &body);
                }
            }
        }
    }
    let mut compiled = Vec::new();
    for numbers in procedures.chunks(BATCH) {
        let released = in_time(store::released_revisions(db, numbers)).await?;
        compiled.extend(released.iter().filter_map(compile).map(Arc::new));
    }
    if !procedures.is_empty() {
        book.procedures.replace(&procedures, compiled);
    }
    Ok(())
}

const PROCEDURE: &str = "procedure";

/// Puts one record that is in force into the book.
fn put(book: &mut Book, kind: &str, code: String, body: &Value) {
    match kind {
        "consumable" => {
            let new = document::<ConsumableDocument>(kind, &code, body).map(|d| d.compile(&code));
            keep(&mut book.consumables, code, new);
        }
        "station" => {
            let new = document::<StationDocument>(kind, &code, body).map(|d| d.compile(&code));
            keep(&mut book.stations, code, new);
        }
        "work-order" => {
            let new = document::<WorkOrderDocument>(kind, &code, body).map(|d| d.compile(&code));
            keep(&mut book.work_orders, code, new);
        }
        // Other kinds are not part of what a check reads.
        _ => {}
    }
}

fn keep<T>(records: &mut Records<T>, code: String, record: Option<T>) {
    match record {
        Some(record) => records.insert_mut(code, Arc::new(record)),
        None => {
            records.remove_mut(&code);
        }
    }
}

/// Takes out a record that was withdrawn.
fn remove(book: &mut Book, kind: &str, code: &str) {
    match kind {
        "consumable" => book.consumables.remove_mut(code),
        "station" => book.stations.remove_mut(code),
        "work-order" => book.work_orders.remove_mut(code),
        "welder" => book.welders.remove_mut(code),
        "consumable-batch" => book.batches.remove_mut(code),
        _ => false,
    };
}

fn compile(row: &ReleasedRevision) -> Option<crate::check::record::Procedure> {
    let standing = Standing {
        revision: u32::try_from(row.revision).ok()?,
        effective_from: row.effective_from,
        effective_until: row.effective_until,
        signed_by: row.signed_by.clone(),
        judged: row.judgement.as_ref().map(|judged| judged.0.clone()),
    };
    document::<ProcedureDocument>("procedure", &row.code, &row.document)
        .map(|document| document.compile(&row.code, standing))
}

/// A stored document as its type. One that cannot be read is left out, loudly: a check that needs it
/// then has no record, and no record never means allowed.
fn document<T: FromWire>(kind: &str, code: &str, body: &Value) -> Option<T> {
    wire::read_stored(body)
        .inspect_err(|problem| {
            tracing::error!(kind, code, ?problem, "stored document cannot be read");
        })
        .ok()
}

fn holder(organisation: Uuid, row: KeyRow, uses: &KeyUses) -> Option<KeyHolder> {
    let hash: KeyHash = row.secret_hash.try_into().ok()?;
    let roles = row.roles.iter().filter_map(|code| Role::from_code(code)).collect();
    Some(KeyHolder {
        organisation,
        key: row.key_id,
        roles,
        person: row.person_id,
        station: row.station,
        expires_at: row.expires_at,
        hash,
        used: uses.get(&row.key_id).map(Arc::clone).unwrap_or_default(),
    })
}
