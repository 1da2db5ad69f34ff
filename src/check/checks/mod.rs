//! One file per check.

mod arc_power;
mod backing_gas;
mod base_metal;
mod bead;
mod common_practice;
mod consumable_approved;
mod consumable_data;
mod current;
mod current_form;
mod deposited_thickness;
mod diameter;
mod electrical_stick_out;
mod electrodes;
mod filler_care;
mod fillet_size;
mod flux;
mod gas;
mod gas_designation;
mod gas_flow;
mod governing_code;
mod heat_input;
mod interpass;
mod joint;
mod leg;
mod mechanisation;
mod no_limit;
mod no_procedure_covers;
mod outside_diameter;
mod polarity;
mod position;
mod position_designation;
mod preheat;
mod preheat_hydrogen;
mod procedure_in_force;
mod process;
mod product_form;
mod progression;
mod readings_disagree;
mod run_class;
mod settings_fit_data;
mod single_pass_class;
mod spool;
mod station;
mod station_feeder;
mod station_output;
mod support;
mod thickness;
mod transfer;
mod travel_angle;
mod travel_speed;
mod voltage;
mod waveform;
mod weave_width;
mod welder;
mod wire_feed;
mod work_angle;
mod work_order_acceptance;

pub use filler_care::care_words;
pub(super) use gas::nominal_gas;
pub use leg::{leg_owner, most_leg};
pub(super) use no_procedure_covers::{nothing_covers, too_many_cover};
pub(super) use procedure_in_force::nothing_released;

use super::Check;

/// Every check, in the order findings are reported.
pub const ALL: &[Check] = &[
    procedure_in_force::CHECK,
    support::CHECK,
    no_procedure_covers::CHECK,
    governing_code::CHECK,
    work_order_acceptance::CHECK,
    station::CHECK,
    welder::CHECK,
    process::CHECK,
    joint::CHECK,
    position::CHECK,
    position_designation::CHECK,
    progression::CHECK,
    base_metal::CHECK,
    product_form::CHECK,
    thickness::CHECK,
    outside_diameter::CHECK,
    deposited_thickness::CHECK,
    fillet_size::CHECK,
    run_class::CHECK,
    single_pass_class::CHECK,
    bead::CHECK,
    consumable_approved::CHECK,
    consumable_data::CHECK,
    filler_care::CHECK,
    diameter::CHECK,
    gas::CHECK,
    gas_designation::CHECK,
    backing_gas::CHECK,
    flux::CHECK,
    polarity::CHECK,
    waveform::CHECK,
    transfer::CHECK,
    mechanisation::CHECK,
    current_form::CHECK,
    electrodes::CHECK,
    current::CHECK,
    voltage::CHECK,
    wire_feed::CHECK,
    travel_speed::CHECK,
    electrical_stick_out::CHECK,
    arc_power::CHECK,
    heat_input::CHECK,
    travel_angle::CHECK,
    work_angle::CHECK,
    weave_width::CHECK,
    preheat::CHECK,
    preheat_hydrogen::CHECK,
    interpass::CHECK,
    gas_flow::CHECK,
    station_output::CHECK,
    station_feeder::CHECK,
    spool::CHECK,
    no_limit::CHECK,
    readings_disagree::CHECK,
    settings_fit_data::CHECK,
    leg::CHECK,
    common_practice::CHECK,
];
