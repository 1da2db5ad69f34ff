//! Arc energy and heat input of a run: three ways to measure, two bases, one factor between.
//!
//! ISO and EN keep *arc energy* (no efficiency) and *heat input* (arc energy times the thermal
//! efficiency factor) apart; most US codes call the arc energy heat input. So the basis is part of
//! the type here, and [`HeatConvention`] says what a given code means by its words.

mod arc_energy;
mod convention;
mod efficiency;
mod error;
mod inverse;
mod span;
mod uncertainty;

pub use arc_energy::{
    ARC_ENERGY_FROM_AVERAGES, ARC_ENERGY_FROM_ENERGY, ARC_ENERGY_FROM_POWER,
    ARC_ENERGY_FROM_POWER_AND_TIME, arc_energy_from_averages, arc_energy_from_energy,
    arc_energy_from_power, arc_energy_from_power_and_time,
};
pub use convention::{HeatBasis, HeatConvention, Waveform};
pub use efficiency::{HEAT_INPUT, heat_input, thermal_efficiency};
pub use error::HeatError;
pub use inverse::{
    CURRENT_FOR_ARC_ENERGY, TRAVEL_SPEED_FOR_ARC_ENERGY, current_for_arc_energy,
    travel_speed_for_arc_energy,
};
pub use span::{
    arc_energy_span, arc_energy_span_from_energy, arc_energy_span_from_power,
    arc_energy_span_from_power_and_time, heat_input_span,
};
pub use uncertainty::{COMBINED_UNCERTAINTY, combined_uncertainty};
