//! `POST /v1/keys/{id}/rotation`

use axum::{extract::State, http::StatusCode, response::Response};
use serde_json::{Value, json};
use uuid::Uuid;

use super::{NewKeyOut, create::change, store};
use crate::{
    access::{AdministerKeys, Permitted, Secret},
    http::{
        AppState, Path, Retry, Writing, problem::Problem, responses::ReadProblems, retry::Begun,
    },
};

/// Rotate a key
///
/// Gives a key a new secret; the old one stops working at once.
#[utoipa::path(
    post, path = "/v1/keys/{id}/rotation", tag = "organisation",
    params(("id" = String, Path, description = "Id of the key")),
    responses((status = 200, description = "The new secret, shown once",
        headers(
            ("Rulebook-Version" = i64, description = "First rulebook that knows it; sent where checks need it"),
        ), body = NewKeyOut), ReadProblems),
)]
pub(in crate::organisation) async fn rotate_key(
    permitted: Permitted<AdministerKeys>,
    State(state): State<AppState>,
    Path(id): Path<String>,
) -> Result<Response, Problem> {
    let missing = || Problem::not_found("key that works", &id);
    let key = Uuid::parse_str(&id).map_err(|_| missing())?;
    let route = format!("POST /v1/keys/{key}/rotation");
    let begun = Writing::begin(&state, &permitted.caller, &route, &Retry::NONE, &Value::Null);
    let mut writing = match begun.await? {
        Begun::Fresh(writing) => writing,
        Begun::Replay(response) => return Ok(response),
    };
    let found = store::lock(writing.tx(), key).await?.ok_or_else(missing)?;
    let secret = Secret::random().map_err(|error| Problem::internal(error.to_string()))?;
    store::replace_secret(writing.tx(), key, secret.hash()).await?;
    writing.tx().note(change("rotated", key));
    let answer = json!(NewKeyOut { key: found, secret: secret.reveal().to_owned() });
    writing.finish(&state, StatusCode::OK, &[], answer).await
}
