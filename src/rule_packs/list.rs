//! `GET /v1/rule-packs`

use axum::Json;
use serde::Serialize;
use utoipa::ToSchema;

use super::answer_out::RulePackOut;
use crate::{
    access::{AnyRole, Permitted},
    http::{problem::Problem, responses::ListProblems},
    qualify::packs,
};

/// All rule packs.
#[derive(Debug, Serialize, ToSchema)]
pub struct RulePacksOut {
    /// The packs.
    pub items: Vec<RulePackOut>,
}

/// List rule packs
///
/// Lists the codes, editions and levels that records can be judged by: how many rules, which clauses are
/// covered and which are not, and what share was only remembered.
#[utoipa::path(
    get, path = "/v1/rule-packs", tag = "rule-packs",
    responses((status = 200, description = "The packs", body = RulePacksOut), ListProblems),
)]
pub(super) async fn list_rule_packs(
    _permitted: Permitted<AnyRole>,
) -> Result<Json<RulePacksOut>, Problem> {
    Ok(Json(RulePacksOut { items: packs().iter().map(RulePackOut::of).collect() }))
}
