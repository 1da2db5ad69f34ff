//! Extractors whose refusals are problems.

use axum::{
    body::{Body, Bytes, to_bytes},
    extract::{FromRequest, FromRequestParts, Request},
    http::{HeaderMap, HeaderValue, header, request::Parts},
    response::{IntoResponse, Response},
};
use futures_util::{Stream, StreamExt};
use serde::de::DeserializeOwned;
use serde_json::Value;

use super::{
    AppState,
    problem::{CODING, MEDIA_TYPE, NOT_FOUND, Problem, TOO_LARGE},
};
use crate::wire::{Code, FromWire, Node, read_node, read_plain, read_text};

/// Largest body that is read.
pub const LARGEST_BODY: usize = 1024 * 1024;

/// Media type of one JSON value a line.
const NDJSON: &str = "application/x-ndjson";

/// An answer that is JSON text already.
pub fn json_answer(text: impl Into<Body>) -> Response {
    let mut answer = Response::new(text.into());
    answer.headers_mut().insert(header::CONTENT_TYPE, HeaderValue::from_static("application/json"));
    answer
}

/// An answer of one JSON value a line, sent as it is made. Compression asks a body that has ended once more whether it
/// has trailers, which `stream::unfold` does not bear.
pub fn ndjson_answer<E: Into<axum::BoxError> + 'static>(
    lines: impl Stream<Item = Result<Bytes, E>> + Send + 'static,
) -> Response {
    ([(header::CONTENT_TYPE, NDJSON)], Body::from_stream(lines.fuse())).into_response()
}

/// The bytes of a JSON body, at most `LARGEST_BODY` of them, not read yet.
#[derive(Debug)]
pub struct JsonText(pub Bytes);

impl JsonText {
    /// The body as JSON, without copies.
    ///
    /// # Errors
    /// Where it is no JSON, or has a member more than once.
    pub fn node(&self) -> Result<Node<'_>, Problem> {
        read_text(&self.0).map_err(|unread| unread.problem("The body"))
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
        let media = media_of(request.headers())?;
        if !(media.eq_ignore_ascii_case("application/json") || media.ends_with("+json")) {
            let detail = format!("The body came as \"{media}\"; it is read as application/json.");
            return Err(Problem::new(&MEDIA_TYPE, detail));
        }
        to_bytes(request.into_body(), LARGEST_BODY).await.map(Self).map_err(|_| {
            Problem::new(&TOO_LARGE, format!("A body has at most {LARGEST_BODY} bytes."))
        })
    }
}

/// Media type of a body, without its parameters; empty where none is stated.
///
/// # Errors
/// A body that is compressed.
pub fn media_of(headers: &HeaderMap) -> Result<&str, Problem> {
    let stated = |name| headers.get(name).and_then(|value| value.to_str().ok()).map(str::trim);
    let coding = stated(header::CONTENT_ENCODING).unwrap_or_default();
    if !(coding.is_empty() || coding.eq_ignore_ascii_case("identity")) {
        let detail = format!("The body came with the coding \"{coding}\"; send it as it is.");
        return Err(Problem::new(&CODING, detail));
    }
    let media = stated(header::CONTENT_TYPE).and_then(|value| value.split(';').next());
    Ok(media.map(str::trim).unwrap_or_default())
}

/// A body of one JSON value a line, which is read as it arrives.
#[derive(Debug)]
pub struct NdjsonBody(pub Body);

impl FromRequest<AppState> for NdjsonBody {
    type Rejection = Problem;

    async fn from_request(request: Request, _: &AppState) -> Result<Self, Problem> {
        let media = media_of(request.headers())?;
        if !media.eq_ignore_ascii_case(NDJSON) {
            let detail = format!("The body came as \"{media}\"; it is read as {NDJSON}.");
            return Err(Problem::new(&MEDIA_TYPE, detail));
        }
        Ok(Self(request.into_body()))
    }
}

/// A JSON body of at most `LARGEST_BODY` bytes.
#[derive(Debug)]
pub struct JsonBody(pub Value);

impl FromRequest<AppState> for JsonBody {
    type Rejection = Problem;

    async fn from_request(request: Request, state: &AppState) -> Result<Self, Problem> {
        let text = JsonText::from_request(request, state).await?;
        Ok(Self(text.node()?.to_value()))
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
            .map_err(|_| {
                let detail = "The path has bytes that are no UTF-8 text, so it names nothing.";
                Problem::new(&NOT_FOUND, detail)
            })
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
