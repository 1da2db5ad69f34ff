//! `GET /v1/rule-packs/{key}`

use axum::{Json, extract::State};
use serde::Serialize;
use utoipa::ToSchema;

use super::{answer_out::RulePackOut, find::named};
use crate::{
    access::{AnyRole, Permitted},
    database::TenantTx,
    http::{AppState, Path, problem::Problem, responses::ReadProblems},
    qualify::RuleSummary,
    trade::Coded,
};

/// One rule.
#[derive(Debug, Serialize, ToSchema)]
pub struct RuleOut {
    /// Id of the rule.
    pub id: String,
    /// Clause.
    pub clause: String,
    /// Variable.
    #[schema(example = "parent-thickness")]
    pub variable: &'static str,
    /// `essential`, `supplementary` (counts where impact tests are required) or `nonessential`.
    #[schema(example = "essential")]
    pub class: &'static str,
    /// How well its weakest cell was confirmed; `print-checked` where the organisation signed the rule.
    #[schema(example = "text-read")]
    pub confidence: &'static str,
    /// Number of its cells.
    pub cells: usize,
    /// What it is derived for.
    #[schema(example = "test-piece")]
    pub per: &'static str,
    /// Kind of rule.
    #[schema(example = "table")]
    pub kind: &'static str,
    /// What a person has to state, where the rule asks for it; answer under `job` / `stated`.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub question: Option<String>,
    /// What the rule adds in words.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub note: Option<String>,
}

/// A rule pack with its rules.
#[derive(Debug, Serialize, ToSchema)]
pub struct RulePackWithRules {
    /// The pack.
    #[serde(flatten)]
    pub pack: RulePackOut,
    /// Its rules, in the order of the pack.
    pub all_rules: Vec<RuleOut>,
    /// The pack itself as TOML, to be compared with the printed code line by line.
    pub text: String,
}

/// Read a rule pack
///
/// Gives the rules of a pack in outline, and the pack itself as TOML with every figure. A rule that the
/// organisation signed is `print-checked`.
#[utoipa::path(
    get, path = "/v1/rule-packs/{key}", tag = "rule-packs",
    params(("key" = String, Path, description = "Key of the pack, such as `iso-15614-1-2017-level-2`")),
    responses((status = 200, description = "The pack", body = RulePackWithRules), ReadProblems),
)]
pub(super) async fn read_rule_pack(
    permitted: Permitted<AnyRole>,
    State(state): State<AppState>,
    Path(key): Path<String>,
) -> Result<Json<RulePackWithRules>, Problem> {
    let mut tx = TenantTx::begin(&state.pool, permitted.caller.actor()).await?;
    let found = named(tx.connection(), &key).await?;
    let all_rules = found.pack.summaries().into_iter().map(rule).collect();
    let text = found.pack.text().to_owned();
    Ok(Json(RulePackWithRules { pack: RulePackOut::of(&found), all_rules, text }))
}

fn rule(rule: RuleSummary) -> RuleOut {
    RuleOut {
        id: rule.id,
        clause: rule.clause,
        variable: rule.variable.code(),
        class: rule.class.code(),
        confidence: rule.confidence.code(),
        cells: rule.cells,
        per: rule.per.code(),
        kind: rule.kind,
        question: rule.question,
        note: rule.note,
    }
}
