//! `PUT /v1/people/{id}`

use axum::{extract::State, http::StatusCode, response::Response};
use serde_json::json;
use uuid::Uuid;

use super::{PersonIn, PersonOut, entry, store};
use crate::{
    access::{AdministerKeys, Permitted},
    http::{
        AppState, IfMatch, JsonBody, Path, Retry, Writing, problem::Problem,
        responses::PersonProblems, retry::Begun,
    },
    organisation::lockout,
    records::etag,
};

/// Change a person
///
/// Changes a person's name, roles or activity. The keys of somebody who is not active stop working at
/// once. Refused where nobody could administer the organisation any more.
#[utoipa::path(
    put, path = "/v1/people/{id}", tag = "organisation",
    request_body = PersonIn,
    params(
        ("id" = String, Path, description = "Id of the person"),
        ("If-Match" = String, Header, description = "ETag of the version you read"),
    ),
    responses(
        (status = 200, description = "Changed, with the new `ETag`",
            headers(
                ("ETag" = String, description = "Version of the person"),
                ("Rulebook-Version" = i64, description = "First rulebook that knows it; sent where checks need it"),
            ), body = PersonOut),
        PersonProblems,
    ),
)]
pub(in crate::organisation) async fn change_person(
    permitted: Permitted<AdministerKeys>,
    State(state): State<AppState>,
    if_match: IfMatch,
    Path(id): Path<String>,
    JsonBody(body): JsonBody,
) -> Result<Response, Problem> {
    let sent = PersonIn::read(&body)?;
    let missing = || Problem::not_found("person", &id);
    let person = Uuid::parse_str(&id).map_err(|_| missing())?;
    let route = format!("PUT /v1/people/{person}");
    let mut writing =
        match Writing::begin(&state, &permitted.caller, &route, &Retry::NONE, &body).await? {
            Begun::Fresh(writing) => writing,
            Begun::Replay(response) => return Ok(response),
        };
    let tx = writing.tx();
    lockout::take_turn(tx).await?;
    let found = store::find(tx, person).await?.ok_or_else(missing)?;
    if_match.holds(found.version)?;
    let changed = store::update(tx, person, &sent).await?.ok_or_else(missing)?;
    lockout::refuse(tx, "This person").await?;
    tx.note(entry("changed", person, true));
    let tag = ("etag", etag(changed.version));
    writing.finish(&state, StatusCode::OK, &[tag], json!(changed)).await
}
