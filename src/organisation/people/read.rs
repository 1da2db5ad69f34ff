//! `GET /v1/people/{id}`

use axum::{
    Json,
    extract::State,
    http::{StatusCode, header},
    response::{IntoResponse, Response},
};
use uuid::Uuid;

use super::{PersonOut, store};
use crate::{
    access::{AdministerKeys, Permitted},
    database::TenantTx,
    http::{AppState, Path, problem::Problem, responses::ReadProblems},
    records::etag,
};

/// Read a person
///
/// Reads a person, with the `ETag` that a change has to name. Names are personal data: administrators only.
#[utoipa::path(
    get, path = "/v1/people/{id}", tag = "organisation",
    params(("id" = String, Path, description = "Id of the person")),
    responses(
        (status = 200, description = "The person, with its `ETag`",
            headers(
                ("ETag" = String, description = "Version of the person"),
            ), body = PersonOut),
        ReadProblems,
    ),
)]
pub(in crate::organisation) async fn read_person(
    permitted: Permitted<AdministerKeys>,
    State(state): State<AppState>,
    Path(id): Path<String>,
) -> Result<Response, Problem> {
    let missing = || Problem::not_found("person", &id);
    let person = Uuid::parse_str(&id).map_err(|_| missing())?;
    let mut tx = TenantTx::begin(&state.pool, permitted.caller.actor()).await?;
    let found = store::find(&mut tx, person).await?.ok_or_else(missing)?;
    let tag = etag(found.version);
    Ok((StatusCode::OK, [(header::ETAG, tag)], Json(found)).into_response())
}
