//! Windows: what may be set, every limit at once.

mod answer_out;
mod ask;
mod create;
mod solved_out;
mod validity;
mod windows_in;

pub(crate) use answer_out::obstacle;
pub use answer_out::{NothingOut, ObstacleOut};
pub use ask::AskIn;
pub(crate) use create::put_ask;
pub use solved_out::SettingOut;
pub(crate) use solved_out::settings;

use utoipa_axum::{router::OpenApiRouter, routes};

use crate::http::AppState;

/// Routes of this feature.
#[must_use]
pub fn router() -> OpenApiRouter<AppState> {
    OpenApiRouter::new().routes(routes!(create::open_windows))
}
