//! The chain of an organisation as lines, page by page: whatever its length, one page is in memory.

use std::collections::{HashMap, HashSet};

use serde_json::Value;
use sqlx::PgConnection;
use uuid::Uuid;

use super::{
    chain::{EntryLine, Named, mention},
    store::{self, EntryRow},
};

/// Entries of a page. A document has at most a mebibyte.
const PAGE: i64 = 50;

/// A revision whose document an entry wants to show.
#[derive(Debug, Clone, Copy)]
pub(super) struct Wanted<'a> {
    /// Number of the entry.
    pub number: i64,
    pub kind: &'a str,
    pub code: &'a str,
    pub revision: Option<i32>,
    /// The edit, where the entry tells.
    pub edit: Option<i32>,
    /// The hash it names.
    pub hash: &'a [u8],
}

/// A walk along the chain, within one snapshot.
#[derive(Debug)]
pub(super) struct Walk {
    /// Number of the last entry walked.
    at: i64,
    /// Number of the last entry to walk.
    until: i64,
    /// Number of the last entry that names settings: what it names is there still.
    last_settings: Option<i64>,
    /// Revisions that were shown.
    mentioned: HashSet<[u8; 32]>,
}

impl Walk {
    /// A walk over the entries after one number, up to another.
    ///
    /// # Errors
    /// When the database fails.
    pub(super) async fn between(
        db: &mut PgConnection,
        after: i64,
        until: i64,
    ) -> sqlx::Result<Self> {
        let last_settings = store::last_settings(db).await?;
        Ok(Self { at: after, until, last_settings, mentioned: HashSet::new() })
    }

    /// The next lines; none at the end.
    ///
    /// # Errors
    /// When the database fails.
    pub(super) async fn next(&mut self, db: &mut PgConnection) -> sqlx::Result<Vec<EntryLine>> {
        let mut rows = store::page(db, self.at, None, PAGE).await?;
        rows.retain(|row| row.number <= self.until);
        let Some(last) = rows.last() else { return Ok(Vec::new()) };
        self.at = last.number;
        let mut documents = self.documents(db, &rows).await?;
        let line = |row: EntryRow| EntryLine {
            entry: row.object(),
            hash: hex::encode(&row.hash),
            document: documents.remove(&row.number),
            details: row.details,
        };
        Ok(rows.into_iter().map(line).collect())
    }

    /// Documents that the entries are the first to name, by number.
    async fn documents(
        &mut self,
        db: &mut PgConnection,
        rows: &[EntryRow],
    ) -> sqlx::Result<HashMap<i64, Value>> {
        let (mut revisions, mut checks) = (Vec::new(), HashMap::new());
        let mut found = HashMap::new();
        for row in rows {
            let Some(hash) = row.document_hash.as_deref() else { continue };
            match Named::of(&row.action, &row.subject_kind, true) {
                Named::Revision if self.is_new(row, hash) => revisions.push(wanted(row, hash)),
                Named::Check => {
                    if let Ok(id) = Uuid::parse_str(&row.subject) {
                        checks.insert(id, row.number);
                    }
                }
                Named::Settings if Some(row.number) == self.last_settings => {
                    found.extend(store::settings(db).await?.map(|now| (row.number, now)));
                }
                _ => {}
            }
        }
        if !revisions.is_empty() {
            found.extend(store::revisions(db, &revisions).await?);
        }
        if !checks.is_empty() {
            let ids: Vec<_> = checks.keys().copied().collect();
            let kept = store::checks(db, &ids).await?;
            found.extend(kept.into_iter().map(|(id, whole)| (checks[&id], whole)));
        }
        Ok(found)
    }

    fn is_new(&mut self, row: &EntryRow, hash: &[u8]) -> bool {
        let revision = row.revision.map(i64::from);
        let name = mention(&row.subject_kind, &row.subject, revision, &hex::encode(hash));
        self.mentioned.insert(name)
    }
}

fn wanted<'a>(row: &'a EntryRow, hash: &'a [u8]) -> Wanted<'a> {
    let edit = row.details.as_ref().and_then(|details| details.pointer("/revision/0/edit"));
    Wanted {
        number: row.number,
        kind: &row.subject_kind,
        code: &row.subject,
        revision: row.revision,
        edit: edit.and_then(Value::as_i64).and_then(|edit| i32::try_from(edit).ok()),
        hash,
    }
}
