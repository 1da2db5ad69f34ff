//! Calculations: the trade's formulas over HTTP, each figure with its source.

mod burn_off;
mod cable_drop;
mod comparison;
mod composition;
mod cooling_time;
mod deposition;
mod endpoint;
mod filler;
mod gun_rating;
mod hand_pace;
mod heat;
mod heat_affected_zone;
mod heat_input_for_cooling_time;
mod heat_record;
mod joint;
mod joint_estimate;
mod joint_in;
mod metal;
mod power_source;
mod preheat;
mod run_out;
mod run_plan;
mod samples;
mod several_arcs;
mod shape;
mod sheet;
mod steel_limits;
mod technique;
mod thermal_factor;
mod uncertainty;
mod work_in;

pub use endpoint::UnitsQuery;
pub(crate) use joint::{section as joint_section, sides as joint_sides};
pub use joint_in::JointIn;
pub use metal::Metal;
pub use preheat::{HeatPathForm, Hydrogen};
pub use run_plan::RunLimitsIn;
pub use shape::ShapeFactorsIn;
pub(crate) use shape::factors as shape_of;
pub use sheet::{CalculationAnswer, Sheet};

use utoipa_axum::{router::OpenApiRouter, routes};

use crate::http::AppState;

/// Routes of this feature.
#[must_use]
pub fn router() -> OpenApiRouter<AppState> {
    OpenApiRouter::new()
        .routes(routes!(heat::calculate_heat))
        .routes(routes!(heat_record::calculate_heat_record))
        .routes(routes!(several_arcs::calculate_several_arcs))
        .routes(routes!(run_out::calculate_run_out))
        .routes(routes!(cable_drop::calculate_cable_drop))
        .routes(routes!(cooling_time::calculate_cooling_time))
        .routes(routes!(heat_input_for_cooling_time::calculate_heat_input_for_cooling_time))
        .routes(routes!(heat_affected_zone::calculate_heat_affected_zone))
        .routes(routes!(composition::calculate_carbon_equivalents))
        .routes(routes!(preheat::calculate_preheat))
        .routes(routes!(power_source::calculate_power_source))
        .routes(routes!(deposition::calculate_deposition))
        .routes(routes!(filler::read_designation))
        .routes(routes!(filler::classify_gas))
        .routes(routes!(filler::find_filter_shade))
        .routes(routes!(joint::calculate_joint))
        .routes(routes!(run_plan::calculate_run_plan))
        .routes(routes!(joint_estimate::calculate_joint_estimate))
        .routes(routes!(comparison::calculate_comparison))
        .routes(routes!(burn_off::calculate_burn_off))
        .routes(routes!(hand_pace::calculate_hand_pace))
        .routes(routes!(gun_rating::calculate_gun_rating))
        .routes(routes!(steel_limits::find_steel_limits))
        .routes(routes!(technique::find_technique))
}
