//! The audit chain, to read.

mod find;
mod list;
mod store;

pub use find::{Entry, newest};

use utoipa_axum::{router::OpenApiRouter, routes};

use crate::http::AppState;

/// Routes of this feature.
#[must_use]
pub fn router() -> OpenApiRouter<AppState> {
    OpenApiRouter::new().routes(routes!(list::list_audit_entries))
}
