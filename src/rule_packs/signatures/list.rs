//! `GET /v1/rule-packs/{key}/signatures`

use axum::{Json, extract::State};
use serde::Serialize;
use sqlx::PgConnection;
use time::OffsetDateTime;
use utoipa::ToSchema;
use uuid::Uuid;

use super::{
    rule_hash,
    store::{self, SignatureRow, SignedRuleRow},
};
use crate::{
    access::{AnyRole, Permitted},
    database::TenantTx,
    http::{AppState, Path, problem::Problem, responses::ReadProblems},
    qualify::Pack,
    rule_packs::find::named,
};

/// A signature under rules of a pack.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct RuleSignatureOut {
    /// Id.
    pub signature: Uuid,
    /// Rules that it counts for.
    pub rules: Vec<String>,
    /// Rules that were signed and are written otherwise today, or are gone: it does not count for them.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub rules_changed_since: Vec<String>,
    /// Which copy of the code they were compared with.
    #[schema(example = "D1.1:2020, first printing, shelf mark W-12")]
    pub copy: String,
    /// What the signer adds.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub statement: Option<String>,
    /// Id of the person who signed.
    pub person: Uuid,
    /// Their name.
    pub name: String,
    /// When.
    #[serde(with = "time::serde::rfc3339")]
    pub at: OffsetDateTime,
    /// When it was taken back; it counts for nothing then.
    #[serde(with = "time::serde::rfc3339::option", skip_serializing_if = "Option::is_none")]
    pub withdrawn_at: Option<OffsetDateTime>,
    /// Who took it back.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub withdrawn_by: Option<Uuid>,
    /// Why.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub withdrawn_because: Option<String>,
}

/// Signatures under rules of a pack, oldest first.
#[derive(Debug, Serialize, ToSchema)]
pub struct RuleSignatures {
    /// The signatures.
    pub items: Vec<RuleSignatureOut>,
}

/// Read the signatures under a rule pack
///
/// Says who in the organisation compared which rules with which copy of the code, and what was taken back.
#[utoipa::path(
    get, path = "/v1/rule-packs/{key}/signatures", tag = "rule-packs",
    params(("key" = String, Path, description = "Key of the pack")),
    responses((status = 200, description = "The signatures", body = RuleSignatures), ReadProblems),
)]
pub(in crate::rule_packs) async fn list_rule_signatures(
    permitted: Permitted<AnyRole>,
    State(state): State<AppState>,
    Path(key): Path<String>,
) -> Result<Json<RuleSignatures>, Problem> {
    let mut tx = TenantTx::begin(&state.pool, permitted.caller.actor()).await?;
    let found = named(tx.connection(), &key).await?;
    Ok(Json(RuleSignatures { items: all(tx.connection(), &found.pack).await? }))
}

/// Every signature under a pack, as sent.
pub(super) async fn all(
    db: &mut PgConnection,
    pack: &Pack,
) -> Result<Vec<RuleSignatureOut>, Problem> {
    let rules = store::rules(db, &pack.key).await?;
    let rows = store::signatures(db, &pack.key).await?;
    Ok(rows.into_iter().map(|row| out(row, &rules, pack)).collect())
}

fn out(row: SignatureRow, rules: &[SignedRuleRow], pack: &Pack) -> RuleSignatureOut {
    let own = rules.iter().filter(|rule| rule.signature_id == row.signature_id);
    let (unchanged, changed): (Vec<_>, Vec<_>) =
        own.partition(|own| rule_hash(pack, &own.rule).is_some_and(|hash| hash == own.rule_hash));
    let names = |rows: Vec<&SignedRuleRow>| rows.iter().map(|own| own.rule.clone()).collect();
    RuleSignatureOut {
        signature: row.signature_id,
        rules: names(unchanged),
        rules_changed_since: names(changed),
        copy: row.copy,
        statement: row.statement,
        person: row.person_id,
        name: row.name,
        at: row.at,
        withdrawn_at: row.withdrawn_at,
        withdrawn_by: row.withdrawn_by,
        withdrawn_because: row.withdrawn_because,
    }
}
