//! How fast a run cools: the time from 800 °C to 500 °C, what bounds it, and second opinions.
//!
//! `t8_5` and `heat_input_limits` are EN 1011-2; `analytic` is the theory it was fitted from, `images`
//! the same theory for any thickness, without a switch between thick and thin. `peak_temperature` and
//! `cooling_rate` are the handbook forms. All are for unalloyed and low-alloy ferritic steel.
//!
//! Thick plate leads heat into its depth, thin plate only sideways; the change comes at the transition thickness. Where
//! shape factors of the two differ the time jumps there, so near it both are given, and the heat inputs that keep a
//! limit can be two pieces with a gap. [`cooling_time_span`] takes intervals: shortest at the lowest preheat, longest at
//! the highest interpass temperature.
//!
//! Worked: 1 kJ/mm at 20 °C takes 5.288 s on 30 mm and 11.36 s on 10 mm.

mod analytic;
mod cooling_rate;
mod error;
mod heat_input_limits;
mod images;
mod peak_temperature;
mod shape;
mod span;
mod t8_5;

pub use analytic::{
    MaterialConstants, THICK_PLATE, THIN_PLATE, TRANSITION_BY_THEORY, ThermalProperties,
    WeldOnPlate, thick_plate_cooling_time, thin_plate_cooling_time, transition_by_theory,
};
pub use cooling_rate::{
    COOLING_RATE, COOLING_RATE_AT_540, CoolingRateAnswer, CoolingRateCase,
    HEAT_INPUT_FOR_COOLING_RATE, cooling_rate, cooling_rate_at_540, heat_input_for_cooling_rate,
};
pub use error::CoolingError;
pub use heat_input_limits::{
    CoolingLimit, HEAT_INPUT_FOR_COOLING_TIME, heat_input_for_cooling_time,
};
pub use images::{ANY_THICKNESS, any_thickness_cooling_time};
pub use peak_temperature::{PEAK_TEMPERATURE, PeakTemperatureCase, distance_of_peak_temperature};
pub use shape::{ShapeFactors, WeldShape, shape_factors};
pub use span::{COOLING_TIME, CoolingSpan, CoolingSpanCase, cooling_time_span};
pub use t8_5::{
    COOLING_TIME_THICK, COOLING_TIME_THIN, CoolingCase, CoolingTime, HeatFlow,
    TRANSITION_THICKNESS, cooling_time, is_near_transition, transition_thickness,
};
