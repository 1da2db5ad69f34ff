//! Extractors whose refusals are problems.

use axum::{
    body::{Bytes, to_bytes},
    extract::{FromRequest, FromRequestParts, Request, rejection::PathRejection},
    http::{header, request::Parts},
    response::{IntoResponse, Response},
};
use serde::{Deserialize, de::DeserializeOwned};
use serde_json::Value;

use super::{
    AppState,
    problem::{MEDIA_TYPE, Problem, TOO_LARGE, UNREADABLE},
};
use crate::wire::{Code, FromWire, Node, read_node, read_plain, read_text};

/// Largest body that is read.
pub const LARGEST_BODY: usize = 1024 * 1024;

/// Media type of one JSON value a line.
pub const NDJSON: &str = "application/x-ndjson";

/// An answer that is JSON text already.
pub fn json_answer(text: impl Into<Bytes>) -> Response {
    ([(header::CONTENT_TYPE, "application/json")], text.into()).into_response()
}

/// The bytes of a JSON body, at most `LARGEST_BODY` of them, not read yet.
#[derive(Debug, Clone)]
pub struct JsonText(pub Bytes);

impl JsonText {
    /// The body as JSON, without copies.
    ///
    /// # Errors
    /// Where it is no JSON.
    pub fn node(&self) -> Result<Node<'_>, Problem> {
        read_text(&self.0).map_err(no_json)
    }

    /// The body as a value.
    ///
    /// # Errors
    /// Where it is no JSON; all field errors at once.
    pub fn read<T: FromWire>(&self) -> Result<T, Problem> {
        read_plain(&self.0).map_or_else(|| read_node(&self.node()?), Ok)
    }
}

impl FromRequest<AppState> for JsonText {
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
        to_bytes(request.into_body(), LARGEST_BODY).await.map(Self).map_err(|_| {
            Problem::new(&TOO_LARGE, format!("A body has at most {LARGEST_BODY} bytes."))
        })
    }
}

/// A JSON body of at most `LARGEST_BODY` bytes.
#[derive(Debug)]
pub struct JsonBody(pub Value);

impl FromRequest<AppState> for JsonBody {
    type Rejection = Problem;

    async fn from_request(request: Request, state: &AppState) -> Result<Self, Problem> {
        let JsonText(bytes) = JsonText::from_request(request, state).await?;
        read(&bytes).map(Self)
    }
}

fn read<'a, T: Deserialize<'a>>(bytes: &'a [u8]) -> Result<T, Problem> {
    serde_json::from_slice(bytes).map_err(no_json)
}

fn no_json(error: impl std::fmt::Display) -> Problem {
    Problem::new(&UNREADABLE, format!("The body is no JSON: {error}."))
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
