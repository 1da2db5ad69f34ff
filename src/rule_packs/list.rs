//! `GET /v1/rule-packs`

use axum::{Json, extract::State};
use serde::Serialize;
use utoipa::ToSchema;

use super::{answer_out::RulePackOut, signatures::as_signed};
use crate::{
    access::{AnyRole, Permitted},
    database::TenantTx,
    http::{AppState, problem::Problem, responses::ListProblems},
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
/// covered and which are not, and what share was only remembered and is not signed by the organisation.
#[utoipa::path(
    get, path = "/v1/rule-packs", tag = "rule-packs",
    responses((status = 200, description = "The packs", body = RulePacksOut), ListProblems),
)]
pub(super) async fn list_rule_packs(
    permitted: Permitted<AnyRole>,
    State(state): State<AppState>,
) -> Result<Json<RulePacksOut>, Problem> {
    let mut tx = TenantTx::begin(&state.pool, permitted.caller.actor()).await?;
    let mut items = Vec::new();
    for pack in packs() {
        let pack = as_signed(tx.connection(), pack).await?;
        items.push(RulePackOut::of(&pack));
    }
    Ok(Json(RulePacksOut { items }))
}
