//! Whether the service lives and is ready; its metrics.

use axum::{Json, extract::State, http::header, response::IntoResponse};
use serde::Serialize;
use utoipa::ToSchema;
use utoipa_axum::{router::OpenApiRouter, routes};

use crate::http::{
    AppState,
    problem::{Problem, ProblemBody, UNAVAILABLE},
};

/// Longest wait for the database.
const PATIENCE: std::time::Duration = std::time::Duration::from_secs(1);

/// A sign of life.
#[derive(Debug, Serialize, ToSchema)]
pub struct Alive {
    /// Always `alive`.
    pub status: &'static str,
    /// Version of the service.
    pub version: &'static str,
}

/// Does the process live?
///
/// Says that the process lives; asks nobody else.
#[utoipa::path(
    get, path = "/health/live", tag = "health", security(()),
    responses((status = 200, description = "It lives", body = Alive)),
)]
async fn live() -> Json<Alive> {
    Json(Alive { status: "alive", version: env!("CARGO_PKG_VERSION") })
}

/// Is the service ready?
///
/// Says whether the database answers.
#[utoipa::path(
    get, path = "/health/ready", tag = "health", security(()),
    responses(
        (status = 200, description = "The database answers", body = Alive),
        (status = 503, description = "The database does not answer", body = ProblemBody,
            content_type = "application/problem+json"),
    ),
)]
async fn ready(State(state): State<AppState>) -> Result<Json<Alive>, Problem> {
    let unready = || Problem::new(&UNAVAILABLE, "The database does not answer.");
    match tokio::time::timeout(PATIENCE, state.pool.acquire()).await {
        Ok(Ok(_)) => Ok(Json(Alive { status: "ready", version: env!("CARGO_PKG_VERSION") })),
        _ => Err(unready()),
    }
}

/// Metrics
///
/// Counters and times in the text form that Prometheus reads.
#[utoipa::path(
    get, path = "/metrics", tag = "health", security(()),
    responses((status = 200, description = "Metrics", body = String, content_type = "text/plain")),
)]
async fn metrics(State(state): State<AppState>) -> impl IntoResponse {
    ([(header::CONTENT_TYPE, "text/plain; version=0.0.4")], state.metrics.render())
}

/// Routes of this feature; without keys.
#[must_use]
pub fn router() -> OpenApiRouter<AppState> {
    OpenApiRouter::new().routes(routes!(live)).routes(routes!(ready)).routes(routes!(metrics))
}
