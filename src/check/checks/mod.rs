//! One file per check.

mod base_metal;
mod bead;
mod consumable_approved;
mod consumable_data;
mod current;
mod diameter;
mod gas;
mod gas_designation;
mod governing_code;
mod joint;
mod no_procedure_covers;
mod polarity;
mod position;
mod position_designation;
mod procedure_in_force;
mod process;
mod progression;
mod run_class;
mod station;
mod support;
mod thickness;
mod waveform;
mod work_order_acceptance;

pub(super) use no_procedure_covers::nothing_covers;
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
    process::CHECK,
    joint::CHECK,
    position::CHECK,
    position_designation::CHECK,
    progression::CHECK,
    base_metal::CHECK,
    thickness::CHECK,
    run_class::CHECK,
    bead::CHECK,
    consumable_approved::CHECK,
    consumable_data::CHECK,
    diameter::CHECK,
    gas::CHECK,
    gas_designation::CHECK,
    polarity::CHECK,
    waveform::CHECK,
    current::CHECK,
];
