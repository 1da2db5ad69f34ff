//! The audit chain: one entry for each change, each hash over the one before.

use serde_json::{Value, json};
use sha2::{Digest, Sha256};
use sqlx::PgConnection;
use time::{OffsetDateTime, format_description::well_known::Rfc3339};
use uuid::Uuid;

use super::{Actor, Committed};

/// One change, before it has a number.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Change {
    /// What was done, such as `released`.
    pub action: &'static str,
    /// Kind of record.
    pub kind: &'static str,
    /// Code or id of the record.
    pub subject: String,
    /// Revision concerned.
    pub revision: Option<i32>,
    /// SHA-256 of the document's canonical bytes.
    pub document_hash: Option<Vec<u8>>,
    /// Whether checks may now answer otherwise.
    pub changes_rules: bool,
}

/// Last entry of a chain.
#[derive(Debug, Clone, PartialEq, Eq, sqlx::FromRow)]
pub struct Head {
    /// Number of the last entry; zero for an empty chain.
    pub number: i64,
    /// Its hash.
    pub hash: Vec<u8>,
    /// Number of the last rule-changing entry.
    pub rulebook_version: i64,
}

/// Format of new entries. Format 1 has no details; its entries keep their hash.
const FORMAT: i16 = 2;

/// What an entry's hash is taken over, as RFC 8785 canonical JSON.
#[derive(Debug, Clone, Copy)]
pub struct Hashed<'a> {
    /// Which members are covered: 1 or 2.
    pub format: i16,
    /// Number of the entry.
    pub number: i64,
    /// When, to the microsecond.
    pub at: OffsetDateTime,
    /// Who.
    pub person: Option<Uuid>,
    /// With which key.
    pub key: Option<Uuid>,
    /// What was done.
    pub action: &'a str,
    /// Kind of record.
    pub kind: &'a str,
    /// Code or id of the record.
    pub subject: &'a str,
    /// Revision concerned.
    pub revision: Option<i32>,
    /// Hash of the document.
    pub document_hash: Option<&'a [u8]>,
    /// Hash of the details; from format 2 on.
    pub details_hash: Option<&'a [u8]>,
    /// Whether the rules changed.
    pub changes_rules: bool,
    /// Hash of the entry before.
    pub previous: &'a [u8],
}

impl Hashed<'_> {
    /// The object whose canonical bytes are hashed.
    #[must_use]
    pub fn object(&self) -> Value {
        let mut entry = json!({
            "number": self.number,
            "at": self.at.format(&Rfc3339).unwrap_or_default(),
            "person": self.person.map(|id| id.to_string()),
            "key": self.key.map(|id| id.to_string()),
            "action": self.action,
            "kind": self.kind,
            "subject": self.subject,
            "revision": self.revision,
            "document": self.document_hash.map(hex::encode),
            "changes_rules": self.changes_rules,
            "previous": hex::encode(self.previous),
        });
        if self.format >= 2 {
            entry["format"] = json!(self.format);
            entry["details"] = json!(self.details_hash.map(hex::encode));
        }
        entry
    }

    /// SHA-256 over the canonical bytes.
    #[must_use]
    pub fn hash(&self) -> Vec<u8> {
        document_hash(&self.object())
    }
}

/// RFC 8785 canonical bytes of a JSON value.
#[must_use]
pub fn canonical_bytes(value: &Value) -> Vec<u8> {
    // Only a map with non-text keys or a failing writer could fail here; a `Value` has neither.
    serde_json_canonicalizer::to_vec(value).unwrap_or_default()
}

/// SHA-256 of a document's canonical bytes.
#[must_use]
pub fn document_hash(document: &Value) -> Vec<u8> {
    Sha256::digest(canonical_bytes(document)).to_vec()
}

/// Locks the head of an organisation's chain.
async fn lock_head(db: &mut PgConnection, organisation: Uuid) -> sqlx::Result<Head> {
    sqlx::query_as(
        "select number, hash, rulebook_version from audit_head where organisation_id = $1 for update",
    )
    .bind(organisation)
    .fetch_one(db)
    .await
}

/// Appends the changes and moves the head; tells other replicas when the rules changed.
pub(super) async fn append(
    db: &mut PgConnection,
    actor: Actor,
    changes: &[Change],
) -> sqlx::Result<Committed> {
    let rules_changed = changes.iter().any(|change| change.changes_rules);
    if changes.is_empty() {
        return Ok(Committed { rulebook_version: 0, rules_changed });
    }
    let mut told = Vec::with_capacity(changes.len());
    for change in changes {
        told.push(details(db, change).await?);
    }
    let mut head = lock_head(db, actor.organisation).await?;
    // Read with the head in hand, so that times come in the order of the numbers.
    let at = microseconds(OffsetDateTime::now_utc());
    for (change, details) in changes.iter().zip(&told) {
        head = append_one(db, actor, at, &head, (change, details.as_ref())).await?;
    }
    sqlx::query(
        "update audit_head set number = $2, hash = $3, rulebook_version = $4 where organisation_id = $1",
    )
    .bind(actor.organisation)
    .bind(head.number)
    .bind(&head.hash)
    .bind(head.rulebook_version)
    .execute(&mut *db)
    .await?;
    if rules_changed {
        sqlx::query("select pg_notify('arcbounds_rulebook', $1)")
            .bind(actor.organisation.to_string())
            .execute(db)
            .await?;
    }
    Ok(Committed { rulebook_version: head.rulebook_version, rules_changed })
}

/// What this transaction wrote about the subject beside its document, by kind of row; `None` where that is
/// nothing. A row's `xmin` is the transaction that wrote it, so no writer can forget to tell.
async fn details(db: &mut PgConnection, change: &Change) -> sqlx::Result<Option<Value>> {
    sqlx::query_scalar(
        "select jsonb_object_agg(source, rows) from (
             select source, jsonb_agg(told order by told) as rows from covered_row
             where kind = $1 and subject = $2 and written_by = pg_current_xact_id()::xid
             group by source) as by_source",
    )
    .bind(change.kind)
    .bind(&change.subject)
    .fetch_one(db)
    .await
}

async fn append_one(
    db: &mut PgConnection,
    actor: Actor,
    at: OffsetDateTime,
    head: &Head,
    (change, details): (&Change, Option<&Value>),
) -> sqlx::Result<Head> {
    let number = head.number + 1;
    let details_hash = details.map(document_hash);
    let hash = Hashed {
        format: FORMAT,
        number,
        at,
        person: actor.person,
        key: actor.key,
        action: change.action,
        kind: change.kind,
        subject: &change.subject,
        revision: change.revision,
        document_hash: change.document_hash.as_deref(),
        details_hash: details_hash.as_deref(),
        changes_rules: change.changes_rules,
        previous: &head.hash,
    }
    .hash();
    sqlx::query(
        "insert into audit_entry (organisation_id, number, at, person_id, key_id, action, subject_kind,
             subject, revision, document_hash, changes_rules, previous_hash, hash, format, details, details_hash)
         values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12, $13, $14, $15, $16)",
    )
    .bind(actor.organisation)
    .bind(number)
    .bind(at)
    .bind(actor.person)
    .bind(actor.key)
    .bind(change.action)
    .bind(change.kind)
    .bind(&change.subject)
    .bind(change.revision)
    .bind(&change.document_hash)
    .bind(change.changes_rules)
    .bind(&head.hash)
    .bind(&hash)
    .bind(FORMAT)
    .bind(details)
    .bind(details_hash)
    .execute(&mut *db)
    .await?;
    if change.changes_rules {
        stamp(db, actor.organisation, change, number).await?;
    }
    let rulebook_version = if change.changes_rules { number } else { head.rulebook_version };
    Ok(Head { number, hash, rulebook_version })
}

/// Marks the record with the number of its rule change, so that a rulebook reads only what is new.
async fn stamp(
    db: &mut PgConnection,
    organisation: Uuid,
    change: &Change,
    number: i64,
) -> sqlx::Result<()> {
    sqlx::query(
        "update record set rule_version = $4 where organisation_id = $1 and kind = $2 and code = $3",
    )
    .bind(organisation)
    .bind(change.kind)
    .bind(&change.subject)
    .bind(number)
    .execute(db)
    .await?;
    Ok(())
}

/// The precision PostgreSQL keeps, so that a hash can be taken again from the stored row.
fn microseconds(at: OffsetDateTime) -> OffsetDateTime {
    at.replace_nanosecond(at.nanosecond() / 1000 * 1000).unwrap_or(at)
}
