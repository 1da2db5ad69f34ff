//! Windows: what may be set, every limit at once.

mod answer_out;
mod ask;
mod create;
mod solved_out;
mod windows_in;

pub use answer_out::ObstacleOut;
pub(crate) use answer_out::obstacle;

use utoipa_axum::{router::OpenApiRouter, routes};

use crate::http::AppState;

/// Routes of this feature.
#[must_use]
pub fn router() -> OpenApiRouter<AppState> {
    OpenApiRouter::new().routes(routes!(create::open_windows))
}
