//! `POST /v1/calculations/heat-input-for-cooling-time`

use super::{
    Sheet,
    endpoint::calculation,
    metal::Metal,
    shape::{ShapeFactorsIn, factors},
};
use crate::{
    quantity::{DurationKind, Range, Temperature, Thickness},
    trade::{CoolingLimit, HEAT_INPUT_FOR_COOLING_TIME, WeldShape, heat_input_for_cooling_time},
    wire::wire_object,
};

wire_object! {
    /// An allowed cooling time of runs on one plate.
    pub struct HeatInputForCoolingTimeIn {
        /// The metal; the formulas are for unalloyed and low-alloy ferritic steel.
        pub metal: Metal,
        /// Allowed cooling time from 800 °C to 500 °C.
        pub cooling_time: Range<DurationKind>,
        /// Lowest temperature a run may start at: the preheat.
        pub lowest_temperature: Temperature,
        /// Highest temperature a run may start at: the interpass maximum.
        pub highest_temperature: Temperature,
        /// Thickness of the plate, not the combined thickness.
        pub thickness: Thickness,
        /// Shape of the weld.
        pub shape: Option<WeldShape>,
        /// Shape factors of your own, in place of those of a shape.
        pub shape_factors: Option<ShapeFactorsIn>,
    }
}

calculation! {
    /// All heat inputs that keep a cooling time within its limits, for every temperature between preheat and
    /// interpass maximum and every shape factor: one interval, several with gaps between them, or none. Ends
    /// are rounded inward.
    "/v1/calculations/heat-input-for-cooling-time",
    calculate_heat_input_for_cooling_time(HeatInputForCoolingTimeIn) => fill,
    summary: "Heat input for a cooling time",
    example: {
        "metal": "low-alloy-ferritic", "cooling_time": "5 to 20 s",
        "lowest_temperature": "100 °C", "highest_temperature": "200 °C", "thickness": "20 mm",
        "shape": "between-run-of-butt-weld"
    }
}

/// Name of the figure.
const NAME: &str = "heat-input";

fn fill(sent: &HeatInputForCoolingTimeIn, sheet: &mut Sheet) {
    let (shape, origin) = match factors(sent.shape, sent.shape_factors.as_ref()) {
        Ok(shape) => shape,
        Err(reason) => return sheet.absent(NAME, reason),
    };
    let pieces = heat_input_for_cooling_time(&CoolingLimit {
        metal: sent.metal.0,
        time: sent.cooling_time,
        lowest_temperature: sent.lowest_temperature,
        highest_temperature: sent.highest_temperature,
        thickness: sent.thickness,
        shape,
    });
    if pieces.as_ref().is_ok_and(Vec::is_empty) {
        let why =
            "no heat input keeps the cooling time for every temperature and shape factor given";
        return sheet.absent(NAME, why);
    }
    let basis = "basis: heat input, thermal efficiency counted; ends rounded inward";
    sheet.ranges(NAME, pieces, &HEAT_INPUT_FOR_COOLING_TIME, &[&origin, basis]);
}
