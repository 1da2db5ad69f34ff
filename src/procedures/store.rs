//! SQL of a procedure's life and projections. No rules here.

use sqlx::{FromRow, PgConnection, types::Json};
use time::{Date, OffsetDateTime};
use uuid::Uuid;

use super::{JudgedAtRelease, ProcedureDocument, limits};

/// Where one revision stands.
#[derive(Debug, Clone, FromRow)]
pub(super) struct StandingRow {
    pub revision: i32,
    pub state: String,
    pub events: i32,
    pub effective_from: Option<Date>,
    pub effective_until: Option<Date>,
    pub signed_by: Option<Uuid>,
}

/// Opens the standing of a new revision as a draft.
pub(super) async fn open_standing(
    db: &mut PgConnection,
    organisation: Uuid,
    code: &str,
    revision: i32,
) -> sqlx::Result<()> {
    sqlx::query(
        "insert into procedure_standing (organisation_id, code, revision, state, events)
         values ($1, $2, $3, 'draft', 0)
         on conflict do nothing",
    )
    .bind(organisation)
    .bind(code)
    .bind(revision)
    .execute(db)
    .await?;
    Ok(())
}

/// Replaces the range rows of a revision.
pub(super) async fn write_limits(
    db: &mut PgConnection,
    organisation: Uuid,
    document: &ProcedureDocument,
    revision: i32,
) -> sqlx::Result<()> {
    let code = document.number.as_str();
    sqlx::query(
        "delete from procedure_limit where organisation_id = $1 and code = $2 and revision = $3",
    )
    .bind(organisation)
    .bind(code)
    .bind(revision)
    .execute(&mut *db)
    .await?;
    for row in limits::rows(document) {
        sqlx::query(
            "insert into procedure_limit (organisation_id, code, revision, run_class, variable, allowed)
             values ($1, $2, $3, $4, $5, $6)",
        )
        .bind(organisation)
        .bind(code)
        .bind(revision)
        .bind(row.run_class)
        .bind(row.variable)
        .bind(row.allowed)
        .execute(&mut *db)
        .await?;
    }
    Ok(())
}

/// Standings of all revisions, oldest first.
pub(super) async fn standings(db: &mut PgConnection, code: &str) -> sqlx::Result<Vec<StandingRow>> {
    sqlx::query_as(
        "select revision, state, events, effective_from, effective_until, signed_by
         from procedure_standing where code = $1 order by revision",
    )
    .bind(code)
    .fetch_all(db)
    .await
}

/// One thing that happened to a revision.
#[derive(Debug, Clone, FromRow)]
pub(super) struct EventRow {
    pub revision: i32,
    pub event: String,
    pub person_id: Uuid,
    pub reason: Option<String>,
    pub effective_from: Option<Date>,
    pub effective_until: Option<Date>,
    pub at: OffsetDateTime,
}

/// An event to be written, with the standing it leads to.
#[derive(Debug, Clone, Copy)]
pub(super) struct NewEvent<'a> {
    pub code: &'a str,
    pub revision: i32,
    pub sequence: i32,
    pub event: &'a str,
    pub person: Uuid,
    pub key: Uuid,
    pub reason: Option<&'a str>,
    pub effective_from: Option<Date>,
    pub effective_until: Option<Date>,
    pub state: &'a str,
    pub signed_by: Option<Uuid>,
    /// Hash of the judgement that a signature is given for.
    pub judged: Option<&'a [u8]>,
}

/// Writes an event and the standing after it.
pub(super) async fn write_event(
    db: &mut PgConnection,
    organisation: Uuid,
    new: NewEvent<'_>,
) -> sqlx::Result<()> {
    sqlx::query(
        "insert into procedure_event (organisation_id, code, revision, sequence, event, person_id, key_id,
             reason, effective_from, effective_until, judged)
         values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11)",
    )
    .bind(organisation)
    .bind(new.code)
    .bind(new.revision)
    .bind(new.sequence)
    .bind(new.event)
    .bind(new.person)
    .bind(new.key)
    .bind(new.reason)
    .bind(new.effective_from)
    .bind(new.effective_until)
    .bind(new.judged)
    .execute(&mut *db)
    .await?;
    sqlx::query(
        "update procedure_standing
         set state = $4, events = $5, effective_from = $6, effective_until = $7, signed_by = $8
         where organisation_id = $1 and code = $2 and revision = $3",
    )
    .bind(organisation)
    .bind(new.code)
    .bind(new.revision)
    .bind(new.state)
    .bind(new.sequence)
    .bind(new.effective_from)
    .bind(new.effective_until)
    .bind(new.signed_by)
    .execute(db)
    .await?;
    Ok(())
}

/// Everything that happened to a procedure, in order.
pub(super) async fn events(db: &mut PgConnection, code: &str) -> sqlx::Result<Vec<EventRow>> {
    sqlx::query_as(
        "select revision, event, person_id, reason, effective_from, effective_until, at
         from procedure_event where code = $1 order by revision, sequence",
    )
    .bind(code)
    .fetch_all(db)
    .await
}

/// One written edit of a revision.
#[derive(Debug, Clone, FromRow)]
pub(super) struct EditRow {
    pub revision: i32,
    pub edit: i32,
    pub document_hash: Vec<u8>,
    pub reason: Option<String>,
    pub author_id: Option<Uuid>,
    pub created_at: OffsetDateTime,
}

/// Every edit of every revision, in order.
pub(super) async fn edits(db: &mut PgConnection, code: &str) -> sqlx::Result<Vec<EditRow>> {
    sqlx::query_as(
        "select revision, edit, document_hash, reason, author_id, created_at
         from record_revision where kind = 'procedure' and code = $1 order by revision, edit",
    )
    .bind(code)
    .fetch_all(db)
    .await
}

/// Keeps how a revision was judged when it was released.
pub(super) async fn write_judgement(
    db: &mut PgConnection,
    organisation: Uuid,
    (code, revision): (&str, i32),
    judged: &JudgedAtRelease,
) -> sqlx::Result<()> {
    sqlx::query(
        "insert into procedure_support (organisation_id, code, revision, judgement)
         values ($1, $2, $3, $4)",
    )
    .bind(organisation)
    .bind(code)
    .bind(revision)
    .bind(Json(judged))
    .execute(db)
    .await?;
    Ok(())
}

/// Hash of the judgement that the support of a revision was signed for last; `None` where nothing was judged then.
pub(super) async fn signed_judgement(
    db: &mut PgConnection,
    code: &str,
    revision: i32,
    signature: &str,
) -> sqlx::Result<Option<Vec<u8>>> {
    let last: Option<Option<Vec<u8>>> = sqlx::query_scalar(
        "select judged from procedure_event where code = $1 and revision = $2 and event = $3
         order by sequence desc limit 1",
    )
    .bind(code)
    .bind(revision)
    .bind(signature)
    .fetch_optional(db)
    .await?;
    Ok(last.flatten())
}

/// How a revision was judged when it was released; `None` for a draft or a declaration.
pub(super) async fn judgement(
    db: &mut PgConnection,
    code: &str,
    revision: i32,
) -> sqlx::Result<Option<JudgedAtRelease>> {
    let found: Option<Json<JudgedAtRelease>> = sqlx::query_scalar(
        "select judgement from procedure_support where code = $1 and revision = $2",
    )
    .bind(code)
    .bind(revision)
    .fetch_optional(db)
    .await?;
    Ok(found.map(|found| found.0))
}

/// Names of these people.
pub(super) async fn names(
    db: &mut PgConnection,
    people: &[Uuid],
) -> sqlx::Result<Vec<(Uuid, String)>> {
    sqlx::query_as("select person_id, name from person where person_id = any($1)")
        .bind(people)
        .fetch_all(db)
        .await
}

/// Revisions of one consumable, before and after a moment.
#[derive(Debug, FromRow)]
pub(super) struct ConsumableRevisions {
    pub code: String,
    /// The newest before the moment.
    pub then: Option<i32>,
    pub now: i32,
}

/// Those of the consumables that have a revision written after this moment.
pub(super) async fn consumables_since(
    db: &mut PgConnection,
    codes: &[String],
    moment: OffsetDateTime,
) -> sqlx::Result<Vec<ConsumableRevisions>> {
    sqlx::query_as(
        "select code, max(revision) filter (where created_at <= $2) as \"then\", max(revision) as now
         from record_revision
         where kind = 'consumable' and code = any($1)
         group by code
         having bool_or(created_at > $2)
         order by code",
    )
    .bind(codes)
    .bind(moment)
    .fetch_all(db)
    .await
}
