//! `GET` and `PUT /v1/welders/{code}/name`

use axum::{
    Json,
    extract::State,
    http::{StatusCode, header},
    response::{IntoResponse, Response},
};
use serde::Serialize;
use serde_json::json;
use utoipa::ToSchema;

use super::{
    KIND,
    store::{self, NameRow},
};
use crate::{
    access::{Permitted, WelderNames},
    database::{Change, TenantTx},
    http::{
        AppState, CodePath, IfMatch, JsonBody, Retry, Writing,
        problem::Problem,
        responses::{ChangeProblems, ReadProblems},
        retry::Begun,
    },
    records::{self, etag},
    wire::{self, wire_object},
};

wire_object! {
    /// Who stands behind a welder's code.
    pub struct WelderNameIn {
        /// The name; left out or null, it is taken out for good.
        pub name: Option<String>,
        /// Until when, and for what, the name is kept.
        pub retention: String,
    }
}

/// Who stands behind a welder's code.
#[derive(Debug, Serialize, ToSchema)]
pub struct WelderNameOut {
    /// Code of the welder.
    pub code: String,
    /// The name; left out where it was never given or was taken out.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub name: Option<String>,
    /// Until when, and for what, the name is kept.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub retention: Option<String>,
    /// Version, as the `ETag` says it; 0 where none was given yet.
    pub version: i32,
}

impl WelderNameOut {
    fn of(code: String, row: Option<NameRow>) -> Self {
        match row {
            Some(NameRow { name, retention, version }) => {
                Self { code, name, retention: Some(retention), version }
            }
            None => Self { code, name: None, retention: None, version: 0 },
        }
    }
}

/// Read a welder's name
///
/// Personal data: for authors, approvers and administrators. Everything else of the service knows the code
/// only.
#[utoipa::path(
    get, path = "/v1/welders/{code}/name", tag = "welders",
    params(("code" = String, Path, description = "Code of the welder")),
    responses(
        (status = 200, description = "The name, with the `ETag` that a change asks for",
            headers(
                ("ETag" = String, description = "Version of the name"),
            ), body = WelderNameOut),
        ReadProblems,
    ),
)]
pub(super) async fn read_welder_name(
    permitted: Permitted<WelderNames>,
    State(state): State<AppState>,
    CodePath(code): CodePath,
) -> Result<Response, Problem> {
    let mut tx = TenantTx::begin(&state.pool, permitted.caller.actor()).await?;
    if records::find(tx.connection(), KIND, &code).await?.is_none() {
        return Err(Problem::not_found(KIND.name, &code));
    }
    let found = WelderNameOut::of(code.clone(), store::name(tx.connection(), &code).await?);
    Ok(([(header::ETAG, etag(found.version))], Json(found)).into_response())
}

/// Change or take out a welder's name
///
/// Writes the name behind a code, with a note of how long and for what it is kept. Without a name the one
/// that is there is taken out for good: qualifications and checks keep the code. The audit chain notes that it
/// changed, not what it was.
#[utoipa::path(
    put, path = "/v1/welders/{code}/name", tag = "welders",
    request_body = WelderNameIn,
    params(
        ("code" = String, Path, description = "Code of the welder"),
        ("If-Match" = String, Header, description = "ETag of the version you read"),
    ),
    responses(
        (status = 200, description = "Written, with the new `ETag`",
            headers(
                ("ETag" = String, description = "Version of the name"),
            ), body = WelderNameOut),
        ChangeProblems,
    ),
)]
pub(super) async fn change_welder_name(
    permitted: Permitted<WelderNames>,
    State(state): State<AppState>,
    if_match: IfMatch,
    CodePath(code): CodePath,
    JsonBody(body): JsonBody,
) -> Result<Response, Problem> {
    let sent: WelderNameIn = wire::read(&body)?;
    let route = format!("PUT /v1/welders/{code}/name");
    let begun = Writing::begin(&state, &permitted.caller, &route, &Retry::NONE, &body).await?;
    let mut writing = match begun {
        Begun::Fresh(writing) => writing,
        Begun::Replay(response) => return Ok(response),
    };
    let tx = writing.tx();
    if records::lock(tx.connection(), KIND, &code).await?.is_none() {
        return Err(Problem::not_found(KIND.name, &code));
    }
    let found = WelderNameOut::of(code.clone(), store::name(tx.connection(), &code).await?);
    if_match.holds(found.version)?;
    let organisation = tx.actor().organisation;
    let WelderNameIn { name, retention } = sent;
    let new = NameRow { name, retention, version: found.version + 1 };
    store::write_name(tx.connection(), organisation, &code, &new).await?;
    tx.note(Change {
        action: "name-changed",
        kind: KIND.column,
        subject: code.clone(),
        revision: None,
        document_hash: None,
        changes_rules: false,
    });
    let answer = WelderNameOut::of(code, Some(new));
    let tag = ("etag", etag(answer.version));
    writing.finish(&state, StatusCode::OK, &[tag], json!(answer)).await
}
