//! SQL of signatures under qualification records, and of the records that can support a job. No rules here.

use serde_json::{Value, json};
use sqlx::{FromRow, PgConnection};
use time::OffsetDateTime;
use uuid::Uuid;

use crate::trade::CodeEdition;

/// A signature under one revision.
#[derive(Debug, Clone, FromRow)]
pub(super) struct SignatureRow {
    pub revision: i32,
    pub document_hash: Vec<u8>,
    pub person_id: Uuid,
    pub name: String,
    pub statement: String,
    pub at: OffsetDateTime,
}

/// A signature to be written.
#[derive(Debug, Clone, Copy)]
pub(super) struct NewSignature<'a> {
    pub code: &'a str,
    pub revision: (i32, i32),
    pub document_hash: &'a [u8],
    pub person: Uuid,
    pub key: Uuid,
    pub statement: &'a str,
}

/// Writes a signature.
pub(super) async fn write_signature(
    db: &mut PgConnection,
    organisation: Uuid,
    new: NewSignature<'_>,
) -> sqlx::Result<()> {
    sqlx::query(
        "insert into qualification_signature (organisation_id, code, revision, edit, document_hash,
             person_id, key_id, statement)
         values ($1, $2, $3, $4, $5, $6, $7, $8)",
    )
    .bind(organisation)
    .bind(new.code)
    .bind(new.revision.0)
    .bind(new.revision.1)
    .bind(new.document_hash)
    .bind(new.person)
    .bind(new.key)
    .bind(new.statement)
    .execute(db)
    .await?;
    Ok(())
}

/// Signatures of a record, oldest first.
pub(super) async fn signatures(
    db: &mut PgConnection,
    code: &str,
) -> sqlx::Result<Vec<SignatureRow>> {
    sqlx::query_as(
        "select s.revision, s.document_hash, s.person_id, p.name, s.statement, s.at
         from qualification_signature s
         join person p on (p.organisation_id, p.person_id) = (s.organisation_id, s.person_id)
         where s.code = $1
         order by s.revision",
    )
    .bind(code)
    .fetch_all(db)
    .await
}

/// A record in use: its newest signed revision, or its draft where nobody has signed any.
#[derive(Debug, Clone, FromRow)]
pub(super) struct CandidateRow {
    pub code: String,
    pub is_signed: bool,
    pub revision: i32,
    pub document: Value,
    pub document_hash: Vec<u8>,
}

/// Records of a code and edition that are in use, by their codes; only the wanted ones where any are.
pub(super) async fn candidates(
    db: &mut PgConnection,
    by: &CodeEdition,
    wanted: &[String],
    limit: i64,
) -> sqlx::Result<Vec<CandidateRow>> {
    let contained = json!({ "code": { "name": by.name, "edition": by.edition } });
    sqlx::query_as(
        "select r.code, q.newest is not null as is_signed, v.revision, v.document, v.document_hash
         from record r
         left join lateral (
             select max(s.revision) as newest from qualification_signature s
             where (s.organisation_id, s.code) = (r.organisation_id, r.code)
         ) q on true
         join lateral (
             select n.revision, n.document, n.document_hash from record_revision n
             where (n.organisation_id, n.kind, n.code) = (r.organisation_id, r.kind, r.code)
               and n.revision = coalesce(q.newest, r.revision)
             order by n.edit desc limit 1
         ) v on true
         where r.kind = 'qualification' and r.state <> 'withdrawn'
           and (cardinality($1::text[]) = 0 or r.code = any($1))
           and v.document @> $2
         order by r.code
         limit $3",
    )
    .bind(wanted)
    .bind(contained)
    .bind(limit)
    .fetch_all(db)
    .await
}

/// Procedure revisions that may be welded to and were released on this record.
pub(super) async fn rests_on(
    db: &mut PgConnection,
    code: &str,
) -> sqlx::Result<Vec<(String, i32)>> {
    sqlx::query_as(
        "select p.code, p.revision from procedure_support p
         join procedure_standing s
           on (s.organisation_id, s.code, s.revision) = (p.organisation_id, p.code, p.revision)
         where p.judgement @> $1
           and (s.state = 'released' or (s.state = 'superseded' and s.effective_until >= current_setting('arcbounds.today')::date))
         order by p.code, p.revision",
    )
    .bind(json!({ "records": [{ "record": code }] }))
    .fetch_all(db)
    .await
}
