//! Calculations: the trade's formulas over HTTP, each figure with its source.

mod burn_off;
mod comparison;
mod deposition;
mod endpoint;
mod filler;
mod gun_rating;
mod hand_pace;
mod heat;
mod joint;
mod joint_estimate;
mod joint_in;
mod run_plan;
mod sheet;
mod work_in;

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
        .routes(routes!(joint::calculate_joint))
        .routes(routes!(run_plan::plan_runs))
        .routes(routes!(joint_estimate::estimate_work))
        .routes(routes!(comparison::compare_ways))
        .routes(routes!(burn_off::fit_burn_off))
        .routes(routes!(hand_pace::pace_by_hand))
        .routes(routes!(gun_rating::rate_gun))
}
