//! SQL of signatures under rules. No rules here.

use sqlx::{FromRow, PgConnection};
use time::OffsetDateTime;
use uuid::Uuid;

use crate::database::Actor;

/// A signature, with its withdrawal if there is one.
#[derive(Debug, Clone, FromRow)]
pub(super) struct SignatureRow {
    pub signature_id: Uuid,
    pub copy: String,
    pub statement: Option<String>,
    pub person_id: Uuid,
    pub name: String,
    pub at: OffsetDateTime,
    pub withdrawn_at: Option<OffsetDateTime>,
    pub withdrawn_by: Option<Uuid>,
    pub withdrawn_because: Option<String>,
}

/// A rule of a signature that stands.
#[derive(Debug, Clone, FromRow)]
pub(super) struct SignedRuleRow {
    pub signature_id: Uuid,
    pub rule: String,
    pub rule_hash: Vec<u8>,
}

/// A signature to be written.
#[derive(Debug, Clone, Copy)]
pub(super) struct NewSignature<'a> {
    pub id: Uuid,
    pub pack: &'a str,
    pub copy: &'a str,
    pub statement: Option<&'a str>,
    pub person: Uuid,
}

/// Writes a signature under rules, each with the hash of its text.
pub(super) async fn insert(
    db: &mut PgConnection,
    actor: Actor,
    new: NewSignature<'_>,
    rules: &[(String, Vec<u8>)],
) -> sqlx::Result<()> {
    sqlx::query(
        "insert into rule_signature (organisation_id, signature_id, pack, copy, statement, person_id, key_id)
         values ($1, $2, $3, $4, $5, $6, $7)",
    )
    .bind(actor.organisation)
    .bind(new.id)
    .bind(new.pack)
    .bind(new.copy)
    .bind(new.statement)
    .bind(new.person)
    .bind(actor.key.unwrap_or_default())
    .execute(&mut *db)
    .await?;
    let (names, hashes): (Vec<_>, Vec<_>) = rules.iter().cloned().unzip();
    sqlx::query(
        "insert into signed_rule (organisation_id, signature_id, rule, rule_hash)
         select $1, $2, own.rule, own.hash from unnest($3::text[], $4::bytea[]) as own (rule, hash)",
    )
    .bind(actor.organisation)
    .bind(new.id)
    .bind(names)
    .bind(hashes)
    .execute(db)
    .await?;
    Ok(())
}

/// Takes a signature back.
pub(super) async fn withdraw(
    db: &mut PgConnection,
    actor: Actor,
    (id, person): (Uuid, Uuid),
    reason: &str,
) -> sqlx::Result<bool> {
    let done = sqlx::query(
        "insert into rule_signature_withdrawal (organisation_id, signature_id, reason, person_id, key_id)
         values ($1, $2, $3, $4, $5)
         on conflict do nothing",
    )
    .bind(actor.organisation)
    .bind(id)
    .bind(reason)
    .bind(person)
    .bind(actor.key.unwrap_or_default())
    .execute(db)
    .await?;
    Ok(done.rows_affected() == 1)
}

/// Rules of the signatures under a pack that were not withdrawn.
pub(super) async fn standing(
    db: &mut PgConnection,
    pack: &str,
) -> sqlx::Result<Vec<SignedRuleRow>> {
    sqlx::query_as(
        "select r.signature_id, r.rule, r.rule_hash
         from rule_signature s
         join signed_rule r using (organisation_id, signature_id)
         left join rule_signature_withdrawal w using (organisation_id, signature_id)
         where s.pack = $1 and w.signature_id is null",
    )
    .bind(pack)
    .fetch_all(db)
    .await
}

/// Rules of every signature under a pack.
pub(super) async fn rules(db: &mut PgConnection, pack: &str) -> sqlx::Result<Vec<SignedRuleRow>> {
    sqlx::query_as(
        "select r.signature_id, r.rule, r.rule_hash
         from rule_signature s
         join signed_rule r using (organisation_id, signature_id)
         where s.pack = $1 order by r.rule",
    )
    .bind(pack)
    .fetch_all(db)
    .await
}

/// Signatures under a pack, oldest first.
pub(super) async fn signatures(
    db: &mut PgConnection,
    pack: &str,
) -> sqlx::Result<Vec<SignatureRow>> {
    sqlx::query_as(
        "select s.signature_id, s.copy, s.statement, s.person_id, p.name, s.at,
                w.at as withdrawn_at, w.person_id as withdrawn_by, w.reason as withdrawn_because
         from rule_signature s
         join person p using (organisation_id, person_id)
         left join rule_signature_withdrawal w using (organisation_id, signature_id)
         where s.pack = $1
         order by s.at, s.signature_id",
    )
    .bind(pack)
    .fetch_all(db)
    .await
}
