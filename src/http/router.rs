//! All routes, and the layers around them.

use std::time::Duration;

use axum::{
    Json, Router,
    body::Bytes,
    extract::Request,
    http::{HeaderValue, StatusCode, header},
    middleware::{self, Next},
    response::{IntoResponse, Response},
    routing::get,
};
use serde_json::json;
use tower_http::{
    catch_panic::CatchPanicLayer, compression::CompressionLayer, set_header::SetResponseHeaderLayer,
};
use utoipa::OpenApi;
use utoipa_axum::router::OpenApiRouter;
use utoipa_swagger_ui::{Config, SwaggerUi};

use super::{
    AppState, Path,
    extract::json_answer,
    openapi::ApiDoc,
    problem::{ALL_KINDS, METHOD, Problem, TIMEOUT},
    trace,
};
use crate::{
    advice, audit, batches, calculations, checks, consumables, health, organisation, procedures,
    qualifications, rule_packs, run_plans, stations, welders, windows, work_orders,
};

/// Longest time a request may take.
const PATIENCE: Duration = Duration::from_secs(30);

/// The documented routes; both the served router and the committed document come from here.
pub(super) fn routes() -> OpenApiRouter<AppState> {
    OpenApiRouter::with_openapi(ApiDoc::openapi())
        .merge(checks::router())
        .merge(windows::router())
        .merge(run_plans::router())
        .merge(advice::router())
        .merge(calculations::router())
        .merge(consumables::router())
        .merge(batches::router())
        .merge(procedures::router())
        .merge(qualifications::router())
        .merge(rule_packs::router())
        .merge(stations::router())
        .merge(work_orders::router())
        .merge(welders::router())
        .merge(organisation::router())
        .merge(audit::router())
        .merge(health::router())
}

/// The whole service.
pub fn router(state: AppState) -> Router {
    let (routes, document) = routes().split_for_parts();
    // As text and shared: routes are cloned for each connection, and with them what they hold.
    let documented = Bytes::from(json!(document).to_string());
    let reference = SwaggerUi::new("/docs").config(Config::from("/openapi.json"));
    let served = routes
        .route("/openapi.json", get(move || async move { json_answer(documented) }))
        .route("/problems/{slug}", get(problem))
        .merge(Router::<AppState>::from(reference).layer(middleware::from_fn(page_or_missing)))
        .fallback(missing)
        .method_not_allowed_fallback(not_allowed);
    layered(served.with_state(state))
}

/// What every request passes, outermost first. One layer made of all: each call of `layer` would put every route
/// into one more box, which every request clones.
pub fn layered(router: Router) -> Router {
    router.layer((
        middleware::from_fn(trace::with_request_id),
        middleware::from_fn(counted),
        middleware::from_fn(in_time),
        CatchPanicLayer::custom(|_: Box<dyn std::any::Any + Send>| {
            Problem::internal("a handler panicked").into_response()
        }),
        CompressionLayer::new()
            .compress_when(tower_http::compression::predicate::SizeAbove::new(16 * 1024)),
        SetResponseHeaderLayer::if_not_present(
            header::X_CONTENT_TYPE_OPTIONS,
            HeaderValue::from_static("nosniff"),
        ),
        SetResponseHeaderLayer::if_not_present(
            header::CACHE_CONTROL,
            HeaderValue::from_static("private, no-cache"),
        ),
    ))
}

async fn in_time(request: Request, next: Next) -> Response {
    match tokio::time::timeout(PATIENCE, next.run(request)).await {
        Ok(response) => response,
        Err(_) => {
            Problem::new(&TIMEOUT, format!("A request takes at most {} s.", PATIENCE.as_secs()))
                .into_response()
        }
    }
}

/// Counts requests by status, and their time.
async fn counted(request: Request, next: Next) -> Response {
    let started = std::time::Instant::now();
    let response = next.run(request).await;
    let status = response.status().as_u16().to_string();
    metrics::counter!("arcbounds_requests_total", "status" => status).increment(1);
    metrics::histogram!("arcbounds_request_seconds").record(started.elapsed().as_secs_f64());
    response
}

/// The reference page brings an answer of its own for what it does not have.
async fn page_or_missing(request: Request, next: Next) -> Response {
    let path = request.uri().path().to_owned();
    let response = next.run(request).await;
    if response.status() == StatusCode::NOT_FOUND {
        return Problem::not_found("path", &path).into_response();
    }
    response
}

async fn missing(request: Request) -> Problem {
    Problem::not_found("path", request.uri().path())
}

async fn not_allowed(request: Request) -> Problem {
    let detail = format!("{} does not take {}.", request.uri().path(), request.method());
    Problem::new(&METHOD, detail)
}

/// What a kind of problem means.
async fn problem(Path(slug): Path<String>) -> Result<Response, Problem> {
    let kind = ALL_KINDS.iter().find(|kind| kind.slug == slug);
    let kind = kind.ok_or_else(|| Problem::not_found("kind of problem", &slug))?;
    let body = json!({
        "type": format!("/problems/{}", kind.slug),
        "title": kind.title,
        "status": kind.status.as_u16(),
        "remedy": kind.remedy,
    });
    Ok((StatusCode::OK, Json(body)).into_response())
}
