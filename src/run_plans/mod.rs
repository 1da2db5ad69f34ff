//! Run plans: how many runs of which size fill a joint, inside every limit of each procedure that covers it.

mod agree;
mod answer_out;
mod create;

use utoipa_axum::{router::OpenApiRouter, routes};

use crate::http::AppState;

/// Routes of this feature.
#[must_use]
pub fn router() -> OpenApiRouter<AppState> {
    OpenApiRouter::new().routes(routes!(create::plan_runs))
}
