//! `GET /v1/people`

use axum::{Json, extract::State};
use serde::Serialize;
use utoipa::ToSchema;

use super::{PersonOut, store};
use crate::{
    access::{AdministerKeys, Permitted},
    database::TenantTx,
    http::{AppState, problem::Problem, responses::ListProblems},
};

/// All people.
#[derive(Debug, Serialize, ToSchema)]
pub struct PeopleOut {
    /// The people, in the order they were added.
    pub items: Vec<PersonOut>,
}

/// List people
///
/// Lists the organisation's people. Names are personal data: administrators only.
#[utoipa::path(
    get, path = "/v1/people", tag = "organisation",
    responses((status = 200, description = "All people", body = PeopleOut), ListProblems),
)]
pub(in crate::organisation) async fn list_people(
    permitted: Permitted<AdministerKeys>,
    State(state): State<AppState>,
) -> Result<Json<PeopleOut>, Problem> {
    let mut tx = TenantTx::begin(&state.pool, permitted.caller.actor()).await?;
    Ok(Json(PeopleOut { items: store::all(&mut tx).await? }))
}
