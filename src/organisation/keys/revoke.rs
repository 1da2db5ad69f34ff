//! `POST /v1/keys/{id}/revocation`

use axum::{extract::State, http::StatusCode, response::Response};
use serde_json::{Value, json};
use uuid::Uuid;

use super::{KeyOut, create::change, store};
use crate::{
    access::{AdministerKeys, Permitted},
    http::{
        AppState, Path, Retry, Writing, problem::Problem, responses::RevokeProblems, retry::Begun,
    },
    organisation::lockout,
};

/// Revoke a key
///
/// Revokes a key; it stops working at once, on other replicas within a second. Refused where nobody could
/// administer the organisation any more.
#[utoipa::path(
    post, path = "/v1/keys/{id}/revocation", tag = "organisation",
    params(("id" = String, Path, description = "Id of the key")),
    responses((status = 200, description = "Revoked",
        headers(
            ("Rulebook-Version" = i64, description = "First rulebook that knows it; sent where checks need it"),
        ), body = KeyOut), RevokeProblems),
)]
pub(in crate::organisation) async fn revoke_key(
    permitted: Permitted<AdministerKeys>,
    State(state): State<AppState>,
    Path(id): Path<String>,
) -> Result<Response, Problem> {
    let missing = || Problem::not_found("key that works", &id);
    let key = Uuid::parse_str(&id).map_err(|_| missing())?;
    let route = format!("POST /v1/keys/{key}/revocation");
    let begun = Writing::begin(&state, &permitted.caller, &route, &Retry::NONE, &Value::Null);
    let mut writing = match begun.await? {
        Begun::Fresh(writing) => writing,
        Begun::Replay(response) => return Ok(response),
    };
    lockout::take_turn(writing.tx()).await?;
    store::lock(writing.tx(), key).await?.ok_or_else(missing)?;
    let revoked = store::revoke(writing.tx(), key).await?;
    lockout::refuse(writing.tx(), "This key").await?;
    writing.tx().note(change("revoked", key));
    writing.finish(&state, StatusCode::OK, &[], json!(revoked)).await
}
