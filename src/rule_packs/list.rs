//! `GET /v1/rule-packs`

use axum::{Json, extract::State};
use serde::Serialize;
use utoipa::ToSchema;

use super::{answer_out::RulePackOut, find_pack, store};
use crate::{
    access::{AnyRole, Permitted},
    database::TenantTx,
    http::{AppState, problem::Problem, responses::ListProblems},
    qualify::packs,
};

/// Most own packs in the list; `GET /v1/own-rule-packs` pages through all.
const MOST_OWN: i64 = 100;

/// All rule packs.
#[derive(Debug, Serialize, ToSchema)]
pub struct RulePacksOut {
    /// The packs.
    pub items: Vec<RulePackOut>,
}

/// List rule packs
///
/// Lists the codes, editions and levels that records and procedures can be judged by, built-in packs first, then
/// those of the organisation: how many rules, which clauses are
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
    let built_in = packs().iter().map(|pack| pack.key.clone());
    let own = store::own_keys(tx.connection(), MOST_OWN).await?;
    for key in built_in.chain(own) {
        if let Some(found) = find_pack(tx.connection(), &key).await? {
            items.push(RulePackOut::of(&found));
        }
    }
    Ok(Json(RulePacksOut { items }))
}
