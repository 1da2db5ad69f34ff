//! Extractors whose refusals are problems.

use axum::{
    body::to_bytes,
    extract::{FromRequest, FromRequestParts, Request, rejection::PathRejection},
    http::{header, request::Parts},
};
use serde::{Deserialize, de::DeserializeOwned};
use serde_json::Value;
use utoipa::IntoParams;

use super::{
    AppState,
    problem::{MEDIA_TYPE, Problem, TOO_LARGE, UNREADABLE},
};
use crate::{
    access::Caller,
    quantity::UnitSystem,
    trade::Coded,
    wire::{Code, Units},
};

/// Largest body that is read.
pub const LARGEST_BODY: usize = 1024 * 1024;

/// A JSON body of at most [`LARGEST_BODY`] bytes.
#[derive(Debug)]
pub struct JsonBody(pub Value);

impl FromRequest<AppState> for JsonBody {
    type Rejection = Problem;

    async fn from_request(request: Request, _: &AppState) -> Result<Self, Problem> {
        let media =
            request.headers().get(header::CONTENT_TYPE).and_then(|value| value.to_str().ok());
        let media =
            media.and_then(|value| value.split(';').next()).map(str::trim).unwrap_or_default();
        if !(media.eq_ignore_ascii_case("application/json") || media.ends_with("+json")) {
            let detail = format!("The body came as \"{media}\"; it is read as application/json.");
            return Err(Problem::new(&MEDIA_TYPE, detail));
        }
        let bytes = to_bytes(request.into_body(), LARGEST_BODY).await.map_err(|_| {
            Problem::new(&TOO_LARGE, format!("A body has at most {LARGEST_BODY} bytes."))
        })?;
        serde_json::from_slice(&bytes)
            .map(Self)
            .map_err(|error| Problem::new(&UNREADABLE, format!("The body is no JSON: {error}.")))
    }
}

/// Query parameters.
#[derive(Debug)]
pub struct Query<T>(pub T);

impl<T: DeserializeOwned> FromRequestParts<AppState> for Query<T> {
    type Rejection = Problem;

    async fn from_request_parts(parts: &mut Parts, _: &AppState) -> Result<Self, Problem> {
        axum::extract::Query::<T>::try_from_uri(&parts.uri)
            .map(|axum::extract::Query(query)| Self(query))
            .map_err(|error| Problem::parameter("?", error.body_text()))
    }
}

/// Path parameters.
#[derive(Debug)]
pub struct Path<T>(pub T);

impl<T: DeserializeOwned + Send> FromRequestParts<AppState> for Path<T> {
    type Rejection = Problem;

    async fn from_request_parts(parts: &mut Parts, state: &AppState) -> Result<Self, Problem> {
        axum::extract::Path::<T>::from_request_parts(parts, state)
            .await
            .map(|axum::extract::Path(path)| Self(path))
            .map_err(|error: PathRejection| Problem::not_found("path", &error.body_text()))
    }
}

/// The code of a record in the path. A text that cannot be a code names nothing.
#[derive(Debug)]
pub struct CodePath(pub String);

impl FromRequestParts<AppState> for CodePath {
    type Rejection = Problem;

    async fn from_request_parts(parts: &mut Parts, state: &AppState) -> Result<Self, Problem> {
        let Path(text) = Path::<String>::from_request_parts(parts, state).await?;
        match Code::parse(&text) {
            Some(_) => Ok(Self(text)),
            None => Err(Problem::not_found("record", &text)),
        }
    }
}

/// Units of the answer.
#[derive(Debug, Default, Clone, Deserialize, IntoParams)]
#[into_params(parameter_in = Query)]
pub struct UnitsQuery {
    /// `metric` or `us`; the organisation's choice where left out.
    pub units: Option<String>,
}

impl UnitsQuery {
    /// The units of an answer to this caller.
    ///
    /// # Errors
    /// A name that is no system of units.
    pub fn of(&self, caller: &Caller) -> Result<Units, Problem> {
        match self.units.as_deref() {
            None => Ok(Some(caller.rulebook.settings.units)),
            Some(name) => UnitSystem::from_code(name)
                .map(Some)
                .ok_or_else(|| Problem::parameter("?units", "units are \"metric\" or \"us\"")),
        }
    }
}
