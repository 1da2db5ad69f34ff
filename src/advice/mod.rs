//! Advice: what a symptom may come from, and what may be changed about it.

mod answer_out;
mod create;
mod remedy_out;
mod technique_out;

use utoipa_axum::{router::OpenApiRouter, routes};

use crate::http::AppState;

/// Routes of this feature.
#[must_use]
pub fn router() -> OpenApiRouter<AppState> {
    OpenApiRouter::new().routes(routes!(create::advise))
}
