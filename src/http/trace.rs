//! Request ids: one per request, in the answer's header, the problem body and every log line.

use axum::{
    extract::Request,
    http::{HeaderName, HeaderValue},
    middleware::Next,
    response::Response,
};
use tracing::Instrument;
use uuid::Uuid;

/// Header that carries the id, both ways.
pub static REQUEST_ID: HeaderName = HeaderName::from_static("x-request-id");

tokio::task_local! {
    static CURRENT: String;
}

/// Id of the request being answered; `None` outside a request.
#[must_use]
pub fn current_request_id() -> Option<String> {
    CURRENT.try_with(Clone::clone).ok()
}

/// Takes the caller's id, or makes one, and answers with it.
pub async fn with_request_id(request: Request, next: Next) -> Response {
    let given = request.headers().get(&REQUEST_ID).and_then(|id| id.to_str().ok());
    let id = match given {
        Some(id) if is_sound(id) => id.to_owned(),
        _ => Uuid::now_v7().to_string(),
    };
    let span = tracing::info_span!(
        "request",
        id = %id,
        method = %request.method(),
        path = %request.uri().path(),
        traceparent = request.headers().get("traceparent").and_then(|v| v.to_str().ok()),
    );
    let header = HeaderValue::from_str(&id);
    let mut response = CURRENT.scope(id, next.run(request)).instrument(span).await;
    if let Ok(header) = header {
        response.headers_mut().insert(REQUEST_ID.clone(), header);
    }
    response
}

fn is_sound(id: &str) -> bool {
    (8..=128).contains(&id.len())
        && id.bytes().all(|b| b.is_ascii_alphanumeric() || b"-_.".contains(&b))
}
