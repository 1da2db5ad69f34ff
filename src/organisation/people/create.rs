//! `POST /v1/people`

use axum::{extract::State, http::StatusCode, response::Response};
use serde_json::json;
use uuid::Uuid;

use super::{NewPerson, PersonIn, PersonOut, entry, store};
use crate::{
    access::{AdministerKeys, Permitted},
    http::{
        AppState, JsonBody, Retry, Writing, problem::Problem, responses::CreateProblems,
        retry::Begun,
    },
    records::etag,
};

/// Add a person
///
/// Adds a person.
#[utoipa::path(
    post, path = "/v1/people", tag = "organisation",
    request_body = PersonIn,
    params(("Idempotency-Key" = Option<String>, Header, description = "For a safe retry")),
    responses(
        (status = 201, description = "Added; `Location` and `ETag` say where and which version",
            headers(
                ("Location" = String, description = "Path of what was made"),
                ("ETag" = String, description = "Version of the person"),
            ), body = PersonOut),
        CreateProblems,
    ),
)]
pub(in crate::organisation) async fn create_person(
    permitted: Permitted<AdministerKeys>,
    State(state): State<AppState>,
    retry: Retry,
    JsonBody(body): JsonBody,
) -> Result<Response, Problem> {
    let sent = PersonIn::read(&body)?;
    let mut writing =
        match Writing::begin(&state, &permitted.caller, "POST /v1/people", &retry, &body).await? {
            Begun::Fresh(writing) => writing,
            Begun::Replay(response) => return Ok(response),
        };
    let tx = writing.tx();
    let new = NewPerson { person_id: Uuid::now_v7(), name: &sent.name, roles: &sent.roles };
    let person = store::insert(tx, new).await?;
    tx.note(entry("added", person.person_id, false));
    let headers =
        [("location", format!("/v1/people/{}", person.person_id)), ("etag", etag(person.version))];
    writing.finish(&state, StatusCode::CREATED, &headers, json!(person)).await
}
