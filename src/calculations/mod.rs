//! Calculations: the trade's formulas over HTTP, each figure with its source.

mod deposition;
mod endpoint;
mod filler;
mod heat;
mod sheet;

pub use endpoint::UnitsQuery;
pub use sheet::{CalculationAnswer, Sheet};

use utoipa_axum::{router::OpenApiRouter, routes};

use crate::http::AppState;

/// Routes of this feature.
#[must_use]
pub fn router() -> OpenApiRouter<AppState> {
    OpenApiRouter::new()
        .routes(routes!(heat::calculate_heat))
        .routes(routes!(deposition::calculate_deposition))
        .routes(routes!(filler::read_designation))
        .routes(routes!(filler::classify_gas))
        .routes(routes!(filler::find_filter_shade))
}
