//! SQL of records. No rules here.

use serde_json::Value;
use sqlx::{FromRow, PgConnection, types::Json};
use time::{Date, OffsetDateTime};
use uuid::Uuid;

use super::{Kind, RevisionInForce};
use crate::database::{Actor, document_hash};

/// Head row of a record.
#[derive(Debug, Clone, FromRow)]
pub struct Head {
    /// Newest revision.
    pub revision: i32,
    /// Newest edit of that revision.
    pub edit: i32,
    /// State of the newest revision.
    pub state: String,
    /// Counts every change; the ETag.
    pub version: i32,
}

/// One revision with its document.
#[derive(Debug, Clone, FromRow)]
pub struct Stored {
    /// Code of the record.
    pub code: String,
    /// Revision.
    pub revision: i32,
    /// Edit of the revision.
    pub edit: i32,
    /// State of this revision.
    pub state: String,
    /// Version of the record.
    pub version: i32,
    /// Canonical document.
    pub document: Value,
    /// SHA-256 of its canonical bytes.
    pub document_hash: Vec<u8>,
    /// Why the revision was made.
    pub reason: Option<String>,
    /// Person who wrote it.
    pub author_id: Option<Uuid>,
    /// When it was written.
    pub created_at: OffsetDateTime,
    /// First day in force of a procedure's revision, where its release named one.
    pub effective_from: Option<Date>,
    /// Last day in force of a procedure's revision, where one is planned.
    pub effective_until: Option<Date>,
    /// Revisions of a procedure in force today or later; `None` for other kinds.
    pub in_force: Option<Json<Vec<RevisionInForce>>>,
    /// Why the record was taken out of use.
    pub withdrawn_because: Option<String>,
}

/// Which rows of `procedure_standing`, under this name, checks are held to between their days: as the rulebook
/// loads them.
macro_rules! binds {
    ($row:literal) => {
        concat!(
            "(",
            $row,
            ".state = 'released' or (",
            $row,
            ".state = 'superseded' and ",
            $row,
            ".effective_until is not null))"
        )
    };
}

/// The columns of [`Stored`], newest edit of a revision.
macro_rules! stored_columns {
    () => {
        concat!(
            "select v.code, v.revision, v.edit, r.version,
                v.document, v.document_hash, v.reason, v.author_id, v.created_at,
                w.reason as withdrawn_because,
                case when s.state is not null then s.state
                     when r.state = 'withdrawn' or q.newest is null then r.state
                     when v.revision > q.newest then 'draft'
                     when v.revision = q.newest then 'signed'
                     else 'superseded' end as state,
                s.effective_from, s.effective_until,
                case when r.kind = 'procedure' then coalesce(f.in_force, '[]') end as in_force
         from record r
         join record_revision v
           on (v.organisation_id, v.kind, v.code) = (r.organisation_id, r.kind, r.code)
         left join record_withdrawal w
           on (w.organisation_id, w.kind, w.code) = (r.organisation_id, r.kind, r.code)
         left join procedure_standing s
           on r.kind = 'procedure'
          and (s.organisation_id, s.code, s.revision) = (v.organisation_id, v.code, v.revision)
         left join lateral (
             select max(g.revision) as newest from qualification_signature g
             where r.kind = 'qualification'
               and (g.organisation_id, g.code) = (r.organisation_id, r.code)
         ) q on true
         left join lateral (
             select jsonb_agg(jsonb_build_object(
                        'revision', p.revision, 'released_at', e.at, 'effective_from', p.effective_from,
                        'effective_until', p.effective_until, 'support_signed', p.signed_by is not null)
                    order by p.revision) as in_force
             from procedure_standing p
             join procedure_event e
               on e.event = 'released'
              and (e.organisation_id, e.code, e.revision) = (p.organisation_id, p.code, p.revision)
             where r.kind = 'procedure'
               and (p.organisation_id, p.code) = (r.organisation_id, r.code)
               and ",
            binds!("p"),
            " and (p.effective_until is null or p.effective_until >= current_setting('arcbounds.today')::date)
         ) f on true "
        )
    };
}

/// Newest revision of a record.
///
/// # Errors
/// When the database fails.
pub async fn find(db: &mut PgConnection, kind: Kind, code: &str) -> sqlx::Result<Option<Stored>> {
    sqlx::query_as(concat!(
        stored_columns!(),
        "where r.kind = $1 and r.code = $2 and v.revision = r.revision and v.edit = r.edit"
    ))
    .bind(kind.column)
    .bind(code)
    .fetch_optional(db)
    .await
}

/// One revision of a record, as last edited.
///
/// # Errors
/// When the database fails.
pub async fn find_revision(
    db: &mut PgConnection,
    kind: Kind,
    code: &str,
    revision: i32,
) -> sqlx::Result<Option<Stored>> {
    sqlx::query_as(concat!(
        stored_columns!(),
        "where r.kind = $1 and r.code = $2 and v.revision = $3 order by v.edit desc limit 1"
    ))
    .bind(kind.column)
    .bind(code)
    .bind(revision)
    .fetch_optional(db)
    .await
}

/// Which records a page holds.
#[derive(Debug, Clone, Copy)]
pub(super) struct Wanted<'a> {
    /// After this code, and this revision of it where revisions are listed.
    pub after: Option<(&'a str, i32)>,
    /// In this state.
    pub state: Option<&'a str>,
    /// Whose document contains one of these.
    pub filter: &'a [Value],
    /// Among these, where not all come into question.
    pub only: Option<&'a [String]>,
    /// Procedures only: the revisions in force on this day, in the place of the newest ones.
    pub in_force_on: Option<Date>,
    /// At most so many.
    pub limit: i64,
}

/// One page, by code and revision: of newest revisions, or of those in force on a day.
pub(super) async fn page(
    db: &mut PgConnection,
    kind: Kind,
    wanted: Wanted<'_>,
) -> sqlx::Result<Vec<Stored>> {
    if let Some(day) = wanted.in_force_on {
        return page_in_force(db, kind, wanted, day).await;
    }
    sqlx::query_as(concat!(
        stored_columns!(),
        "where r.kind = $1 and v.revision = r.revision and v.edit = r.edit
           and ($2::text is null or r.code > $2)
           and ($3::text is null or r.state = $3)
           and v.document @> any($4)
           and ($5::text[] is null or r.code = any($5))
         order by r.code
         limit $6"
    ))
    .bind(kind.column)
    .bind(wanted.after.map(|(code, _)| code))
    .bind(wanted.state)
    .bind(wanted.filter)
    .bind(wanted.only)
    .bind(wanted.limit)
    .fetch_all(db)
    .await
}

async fn page_in_force(
    db: &mut PgConnection,
    kind: Kind,
    wanted: Wanted<'_>,
    day: Date,
) -> sqlx::Result<Vec<Stored>> {
    sqlx::query_as(concat!(
        stored_columns!(),
        "where r.kind = $1 and ",
        binds!("s"),
        " and (s.effective_from is null or s.effective_from <= $2)
           and (s.effective_until is null or s.effective_until >= $2)
           and v.edit = (select max(w.edit) from record_revision w
                         where (w.organisation_id, w.kind, w.code, w.revision)
                             = (v.organisation_id, v.kind, v.code, v.revision))
           and ($3::text is null or (v.code, v.revision) > ($3, $4))
           and v.document @> any($5)
           and ($6::text[] is null or v.code = any($6))
         order by v.code, v.revision
         limit $7"
    ))
    .bind(kind.column)
    .bind(day)
    .bind(wanted.after.map(|(code, _)| code))
    .bind(wanted.after.map(|(_, revision)| revision))
    .bind(wanted.filter)
    .bind(wanted.only)
    .bind(wanted.limit)
    .fetch_all(db)
    .await
}

/// Locks the head row, so that two writers take turns.
///
/// # Errors
/// When the database fails.
pub async fn lock(db: &mut PgConnection, kind: Kind, code: &str) -> sqlx::Result<Option<Head>> {
    sqlx::query_as(
        "select revision, edit, state, version from record
         where kind = $1 and code = $2 for update",
    )
    .bind(kind.column)
    .bind(code)
    .fetch_optional(db)
    .await
}

/// Who wrote a part of a revision, or of any where `None`. Nobody is named for what a key without a person wrote.
pub(super) async fn authors(
    db: &mut PgConnection,
    kind: Kind,
    code: &str,
    revision: Option<i32>,
) -> sqlx::Result<Vec<Option<Uuid>>> {
    sqlx::query_scalar(
        "select distinct author_id from record_revision
         where kind = $1 and code = $2 and ($3::int is null or revision = $3)",
    )
    .bind(kind.column)
    .bind(code)
    .bind(revision)
    .fetch_all(db)
    .await
}

/// Inserts the head row of a new record; false when the code is taken.
pub(super) async fn insert_head(
    db: &mut PgConnection,
    actor: Actor,
    kind: Kind,
    code: &str,
    state: &str,
) -> sqlx::Result<bool> {
    let done = sqlx::query(
        "insert into record (organisation_id, kind, code, revision, edit, state, version, rule_version)
         values ($1, $2, $3, 1, 1, $4, 1, 0)
         on conflict do nothing",
    )
    .bind(actor.organisation)
    .bind(kind.column)
    .bind(code)
    .bind(state)
    .execute(db)
    .await?;
    Ok(done.rows_affected() == 1)
}

/// Moves the head to a revision, edit and state, and counts the change.
///
/// # Errors
/// When the database fails.
pub async fn move_head(
    db: &mut PgConnection,
    kind: Kind,
    code: &str,
    (revision, edit): (i32, i32),
    state: &str,
) -> sqlx::Result<i32> {
    sqlx::query_scalar(
        "update record
         set revision = $3, edit = $4, state = $5, version = version + 1, changed_at = now()
         where kind = $1 and code = $2
         returning version",
    )
    .bind(kind.column)
    .bind(code)
    .bind(revision)
    .bind(edit)
    .bind(state)
    .fetch_one(db)
    .await
}

/// Notes why a record was taken out of use.
pub(super) async fn withdraw(
    db: &mut PgConnection,
    actor: Actor,
    kind: Kind,
    code: &str,
    reason: &str,
) -> sqlx::Result<()> {
    sqlx::query(
        "insert into record_withdrawal (organisation_id, kind, code, reason, person_id, key_id)
         values ($1, $2, $3, $4, $5, $6)",
    )
    .bind(actor.organisation)
    .bind(kind.column)
    .bind(code)
    .bind(reason)
    .bind(actor.person)
    .bind(actor.key.unwrap_or_default())
    .execute(db)
    .await?;
    Ok(())
}

/// A document to be inserted.
#[derive(Debug, Clone, Copy)]
pub struct NewDocument<'a> {
    /// Kind of record.
    pub kind: Kind,
    /// Code of the record.
    pub code: &'a str,
    /// Revision and edit.
    pub revision: (i32, i32),
    /// Canonical document.
    pub document: &'a Value,
    /// Why.
    pub reason: Option<&'a str>,
}

/// Inserts one document and gives its hash.
///
/// # Errors
/// When the database fails.
pub async fn write_document(
    db: &mut PgConnection,
    actor: Actor,
    new: NewDocument<'_>,
) -> sqlx::Result<Vec<u8>> {
    let hash = document_hash(new.document);
    sqlx::query(
        "insert into record_revision (organisation_id, kind, code, revision, edit, document,
             document_hash, reason, author_id, key_id)
         values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10)",
    )
    .bind(actor.organisation)
    .bind(new.kind.column)
    .bind(new.code)
    .bind(new.revision.0)
    .bind(new.revision.1)
    .bind(new.document)
    .bind(&hash)
    .bind(new.reason)
    .bind(actor.person)
    .bind(actor.key.unwrap_or_default())
    .execute(db)
    .await?;
    Ok(hash)
}

/// Which of these records exist and are not withdrawn.
pub(super) async fn existing(
    db: &mut PgConnection,
    kinds: &[String],
    codes: &[String],
) -> sqlx::Result<Vec<(String, String)>> {
    sqlx::query_as(
        "select r.kind, r.code from record r
         join unnest($1::text[], $2::text[]) as wanted (kind, code)
           on (wanted.kind, wanted.code) = (r.kind, r.code)
         where r.state <> 'withdrawn'",
    )
    .bind(kinds)
    .bind(codes)
    .fetch_all(db)
    .await
}
