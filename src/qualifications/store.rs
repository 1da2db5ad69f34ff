//! SQL of signatures under qualification records. No rules here.

use sqlx::{FromRow, PgConnection};
use time::OffsetDateTime;
use uuid::Uuid;

/// A signature under one revision.
#[derive(Debug, Clone, FromRow)]
pub(super) struct SignatureRow {
    pub code: String,
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

/// Everybody who wrote an edit of the revision.
pub(super) async fn authors(
    db: &mut PgConnection,
    code: &str,
    revision: i32,
) -> sqlx::Result<Vec<Option<Uuid>>> {
    sqlx::query_scalar(
        "select distinct author_id from record_revision
         where kind = 'qualification' and code = $1 and revision = $2",
    )
    .bind(code)
    .bind(revision)
    .fetch_all(db)
    .await
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

/// Signatures of these records, oldest first.
pub(super) async fn signatures(
    db: &mut PgConnection,
    codes: &[String],
) -> sqlx::Result<Vec<SignatureRow>> {
    sqlx::query_as(
        "select s.code, s.revision, s.document_hash, s.person_id, p.name, s.statement, s.at
         from qualification_signature s
         join person p on (p.organisation_id, p.person_id) = (s.organisation_id, s.person_id)
         where s.code = any($1)
         order by s.code, s.revision",
    )
    .bind(codes)
    .fetch_all(db)
    .await
}
