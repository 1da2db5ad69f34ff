//! `GET /v1/rule-packs/{key}`

use axum::Json;
use serde::Serialize;
use utoipa::ToSchema;

use super::answer_out::RulePackOut;
use crate::{
    access::{AnyRole, Permitted},
    http::{Path, problem::Problem, responses::ReadProblems},
    qualify::{RuleSummary, packs},
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
    /// How well its weakest cell was confirmed.
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
    pub text: Option<&'static str>,
}

/// Read a rule pack
///
/// Gives the rules of a pack in outline, and the pack itself as TOML with every figure.
#[utoipa::path(
    get, path = "/v1/rule-packs/{key}", tag = "rule-packs",
    params(("key" = String, Path, description = "Key of the pack, such as `iso-15614-1-2017-level-2`")),
    responses((status = 200, description = "The pack", body = RulePackWithRules), ReadProblems),
)]
pub(super) async fn read_rule_pack(
    _permitted: Permitted<AnyRole>,
    Path(key): Path<String>,
) -> Result<Json<RulePackWithRules>, Problem> {
    let pack = packs().iter().find(|pack| pack.key == key);
    let pack = pack.ok_or_else(|| Problem::not_found("rule pack", &key))?;
    let all_rules = pack.summaries().into_iter().map(rule).collect();
    Ok(Json(RulePackWithRules { pack: RulePackOut::of(pack), all_rules, text: pack.text() }))
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
