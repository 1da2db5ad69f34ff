//! Arc energy and heat input of a run: three ways to measure, two bases, one factor between.
//!
//! ISO and EN keep *arc energy* (no efficiency) and *heat input* (arc energy times the thermal
//! efficiency factor) apart; most US codes call the arc energy heat input. So the basis is part of
//! the type here, and [`HeatConvention`] says what a given code means by its words.
//!
//! Worked: 24 V, 200 A and 300 mm/min are 0.96 kJ/mm of arc energy; by 0.8 they are 0.768 kJ/mm of heat input. A pulse of
//! 350 A at 32 V for 30 % and 80 A at 20 V for 70 % has 4480 W; averages would say 15 % less, so volts times amps is
//! refused for waveform-controlled output.

mod accuracy;
mod arc_energy;
mod arcs;
mod cable;
mod convention;
mod efficiency;
mod error;
mod inverse;
mod readings;
mod record;
mod run_out;
mod span;
mod uncertainty;

pub(crate) use accuracy::ErrorAt;
pub use accuracy::{Accuracy, ErrorModel, ErrorSize};
pub use arc_energy::{
    ARC_ENERGY_FROM_AVERAGES, ARC_ENERGY_FROM_ENERGY, ARC_ENERGY_FROM_POWER,
    ARC_ENERGY_FROM_POWER_AND_TIME, ARC_POWER_FROM_AVERAGES, arc_energy_from_averages,
    arc_energy_from_energy, arc_energy_from_power, arc_energy_from_power_and_time,
    arc_power_from_averages,
};
pub use arcs::{SUM_OF_ARCS, arc_energy_of_arcs, heat_input_of_arcs, power_of_arcs};
pub use cable::{CABLE_DROP, CableCorrection, CableError, Lead, arc_voltage_behind_leads};
pub use convention::{HeatBasis, HeatConvention, Waveform};
pub use efficiency::{HEAT_INPUT, heat_input, thermal_efficiency};
pub use error::HeatError;
pub use inverse::{
    CURRENT_FOR_ARC_ENERGY, TRAVEL_SPEED_FOR_ARC_ENERGY, current_for_arc_energy,
    travel_speed_for_arc_energy,
};
pub use readings::{
    ARC_ENERGY_UNCERTAINTY, ArcReadings, Reading, UncertainArcEnergy, arc_energy_of_readings,
};
pub use record::{RecordError, RecordRules, RecordedArc, SAMPLED_ENERGY, Sample, recorded_arc};
pub use run_out::{
    ARC_ENERGY_FROM_BURN_TIME, HEAT_INPUT_FROM_RUN_OUT, RUN_OUT_FOR_HEAT_INPUT, RUN_OUT_RATIO,
    RunOut, RunOutError, arc_energy_from_burn_time, heat_input_from_run_out,
    run_out_for_heat_input, run_out_ratio,
};
pub use span::{
    arc_energy_span, arc_energy_span_from_energy, arc_energy_span_from_power,
    arc_energy_span_from_power_and_time, heat_input_span,
};
pub use uncertainty::{COMBINED_UNCERTAINTY, combined_uncertainty};
