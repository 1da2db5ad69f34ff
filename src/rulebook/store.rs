//! SQL of the rulebook loader. It reads; the only thing it writes is the last use of keys.

use sqlx::{FromRow, PgConnection, PgPool, types::Json};
use time::{Date, OffsetDateTime};
use uuid::Uuid;

use crate::{
    database::{Actor, TenantTx},
    procedures::JudgedAtRelease,
};

/// Version of every organisation's rules.
pub(super) async fn versions(pool: &PgPool) -> sqlx::Result<Vec<(Uuid, i64)>> {
    sqlx::query_as("select organisation_id, rulebook_version from organisation_versions()")
        .fetch_all(pool)
        .await
}

/// A transaction that only reads one organisation, as of one moment.
pub(super) async fn reader(pool: &PgPool, organisation: Uuid) -> sqlx::Result<TenantTx> {
    TenantTx::snapshot(pool, Actor::service(organisation)).await
}

/// Settings document and rule version of the organisation.
pub(super) async fn organisation(db: &mut PgConnection) -> sqlx::Result<(serde_json::Value, i64)> {
    sqlx::query_as(
        "select o.settings, h.rulebook_version
         from organisation o join audit_head h using (organisation_id)",
    )
    .fetch_one(db)
    .await
}

/// A record that changed, and where it stands.
#[derive(Debug, FromRow)]
pub(super) struct ChangedRecord {
    pub kind: String,
    pub code: String,
    pub state: String,
}

/// Records whose rules changed after this version.
pub(super) async fn changed_records(
    db: &mut PgConnection,
    after: i64,
) -> sqlx::Result<Vec<ChangedRecord>> {
    sqlx::query_as(
        "select kind, code, state from record where rule_version > $1 order by kind, code",
    )
    .bind(after)
    .fetch_all(db)
    .await
}

/// Changes after this version that concern whom keys stand for: kind of the subject and the subject.
pub(super) async fn changes_of_people(
    db: &mut PgConnection,
    after: i64,
) -> sqlx::Result<Vec<(String, String)>> {
    sqlx::query_as(
        "select subject_kind, subject from audit_entry
         where number > $1 and changes_rules and subject_kind in ('person', 'key', 'organisation')",
    )
    .bind(after)
    .fetch_all(db)
    .await
}

/// Procedures signed by these people: the signer's name is part of what a check says.
pub(super) async fn signed_by(db: &mut PgConnection, people: &[Uuid]) -> sqlx::Result<Vec<String>> {
    sqlx::query_scalar("select distinct code from procedure_standing where signed_by = any($1)")
        .bind(people)
        .fetch_all(db)
        .await
}

/// Newest documents of these records of one kind.
pub(super) async fn documents(
    db: &mut PgConnection,
    kind: &str,
    codes: &[String],
) -> sqlx::Result<Vec<(String, serde_json::Value)>> {
    sqlx::query_as(
        "select r.code, v.document
         from record r
         join record_revision v
           on (v.organisation_id, v.kind, v.code, v.revision, v.edit)
            = (r.organisation_id, r.kind, r.code, r.revision, r.edit)
         where r.kind = $1 and r.code = any($2)",
    )
    .bind(kind)
    .bind(codes)
    .fetch_all(db)
    .await
}

/// A procedure revision that may be welded to.
#[derive(Debug, FromRow)]
pub(super) struct ReleasedRevision {
    pub code: String,
    pub revision: i32,
    pub document: serde_json::Value,
    pub effective_from: Option<Date>,
    pub effective_until: Option<Date>,
    pub signed_by: Option<String>,
    pub judgement: Option<Json<JudgedAtRelease>>,
}

/// Released revisions, and superseded ones with a planned end, of these procedures.
pub(super) async fn released_revisions(
    db: &mut PgConnection,
    codes: &[String],
) -> sqlx::Result<Vec<ReleasedRevision>> {
    sqlx::query_as(
        "select s.code, s.revision, v.document, s.effective_from, s.effective_until,
                p.name as signed_by, j.judgement
         from procedure_standing s
         join lateral (
             select document from record_revision v
             where v.organisation_id = s.organisation_id and v.kind = 'procedure'
               and v.code = s.code and v.revision = s.revision
             order by v.edit desc limit 1
         ) v on true
         left join person p on (p.organisation_id, p.person_id) = (s.organisation_id, s.signed_by)
         left join procedure_support j
           on (j.organisation_id, j.code, j.revision) = (s.organisation_id, s.code, s.revision)
         where s.code = any($1)
           and (s.state = 'released' or (s.state = 'superseded' and s.effective_until is not null))",
    )
    .bind(codes)
    .fetch_all(db)
    .await
}

/// A key that works.
#[derive(Debug, FromRow)]
pub(super) struct KeyRow {
    pub key_id: Uuid,
    pub secret_hash: Vec<u8>,
    pub roles: Vec<String>,
    pub person_id: Option<Uuid>,
    pub station: Option<String>,
    pub expires_at: Option<OffsetDateTime>,
}

/// Keys that are not revoked, of people who are active, with the roles that the person still has.
pub(super) async fn keys(db: &mut PgConnection) -> sqlx::Result<Vec<KeyRow>> {
    sqlx::query_as(
        "select k.key_id, k.secret_hash, k.person_id, k.station, k.expires_at,
                array(select role from unnest(k.roles) role
                      where p.person_id is null or role = any(p.roles)) as roles
         from api_key k
         left join person p on (p.organisation_id, p.person_id) = (k.organisation_id, k.person_id)
         where k.revoked_at is null and coalesce(p.active, true)",
    )
    .fetch_all(db)
    .await
}

/// Writes when keys were last used, as Unix seconds.
pub(super) async fn write_last_use(
    pool: &PgPool,
    organisation: Uuid,
    used: &[(Uuid, i64)],
) -> sqlx::Result<()> {
    let (ids, seconds): (Vec<_>, Vec<_>) = used.iter().copied().unzip();
    let mut tx = TenantTx::begin(pool, Actor::service(organisation)).await?;
    sqlx::query(
        "update api_key k set last_used_at = greatest(k.last_used_at, to_timestamp(u.seconds))
         from unnest($1::uuid[], $2::bigint[]) as u (key_id, seconds)
         where k.key_id = u.key_id",
    )
    .bind(&ids)
    .bind(&seconds)
    .execute(tx.connection())
    .await?;
    tx.commit().await?;
    Ok(())
}
