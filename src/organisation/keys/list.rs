//! `GET /v1/keys`

use axum::{Json, extract::State};
use serde::Serialize;
use utoipa::ToSchema;

use super::{KeyOut, store};
use crate::{
    access::{AdministerKeys, Permitted},
    database::TenantTx,
    http::{AppState, problem::Problem, responses::ListProblems},
};

/// All keys.
#[derive(Debug, Serialize, ToSchema)]
pub struct KeysOut {
    /// The keys, in the order they were made.
    pub items: Vec<KeyOut>,
}

/// List keys
///
/// Lists the organisation's keys, without their secrets.
#[utoipa::path(
    get, path = "/v1/keys", tag = "organisation",
    responses((status = 200, description = "All keys", body = KeysOut), ListProblems),
)]
pub(in crate::organisation) async fn list_keys(
    permitted: Permitted<AdministerKeys>,
    State(state): State<AppState>,
) -> Result<Json<KeysOut>, Problem> {
    let mut tx = TenantTx::begin(&state.pool, permitted.caller.actor()).await?;
    Ok(Json(KeysOut { items: store::all(&mut tx).await? }))
}
