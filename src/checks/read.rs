//! `GET /v1/checks/{id}`

use axum::{Json, extract::State};
use serde::Serialize;
use serde_json::Value;
use time::OffsetDateTime;
use utoipa::ToSchema;
use uuid::Uuid;

use super::{SetupIn, answer_out::CheckAnswer, store};
use crate::{
    access::{AnyRole, Permitted},
    database::TenantTx,
    http::{AppState, Path, problem::Problem, responses::ReadProblems},
};

/// A kept check: what was asked, what was answered, by which rulebook.
#[derive(Debug, Serialize, ToSchema)]
pub struct KeptCheckOut {
    /// Id of the evidence.
    pub check_id: Uuid,
    /// When it was answered.
    #[serde(with = "time::serde::rfc3339")]
    pub at: OffsetDateTime,
    /// Version of the rulebook it was answered by.
    pub rulebook_version: i64,
    /// The setup.
    #[schema(value_type = SetupIn)]
    pub setup: Value,
    /// The whole answer of then, also where only its summary was sent.
    #[schema(value_type = CheckAnswer)]
    pub answer: Value,
}

/// Read a kept check
///
/// Reads a check that was kept as evidence.
#[utoipa::path(
    get, path = "/v1/checks/{id}", tag = "checks",
    params(("id" = String, Path, description = "Id the check gave")),
    responses((status = 200, description = "The kept check", body = KeptCheckOut), ReadProblems),
)]
pub(super) async fn read_check(
    permitted: Permitted<AnyRole>,
    State(state): State<AppState>,
    Path(id): Path<String>,
) -> Result<Json<KeptCheckOut>, Problem> {
    let missing = || Problem::not_found("kept check", &id);
    let check_id = Uuid::parse_str(&id).map_err(|_| missing())?;
    let mut tx = TenantTx::begin(&state.pool, permitted.caller.actor()).await?;
    let kept = store::find(&mut tx, check_id).await?.ok_or_else(missing)?;
    Ok(Json(KeptCheckOut {
        check_id: kept.check_id,
        at: kept.at,
        rulebook_version: kept.rulebook_version,
        setup: kept.setup,
        answer: kept.answer,
    }))
}
