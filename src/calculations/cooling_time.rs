//! `POST /v1/calculations/cooling-time`

use super::{
    Sheet,
    endpoint::calculation,
    metal::Metal,
    shape::{ShapeFactorsIn, factors},
};
use crate::{
    quantity::{CoolingRateKind, DurationKind, HeatInput, Span, Temperature, Thickness},
    trade::{
        ANY_THICKNESS, COOLING_RATE, COOLING_RATE_AT_540, COOLING_TIME_THICK, COOLING_TIME_THIN,
        CoolingCase, CoolingError, CoolingRateCase, Formula, HeatFlow, MaterialConstants,
        TRANSITION_THICKNESS, WeldOnPlate, WeldShape, any_thickness_cooling_time, cooling_rate,
        cooling_rate_at_540, cooling_time,
    },
    wire::wire_object,
};

wire_object! {
    /// One run on one plate.
    pub struct CoolingTimeIn {
        /// The metal; the formulas are for unalloyed and low-alloy ferritic steel.
        pub metal: Metal,
        /// Heat input, thermal efficiency counted.
        pub heat_input: HeatInput,
        /// Preheat or interpass temperature just before the run.
        pub temperature: Temperature,
        /// Thickness of the plate, not the combined thickness.
        pub thickness: Thickness,
        /// Shape of the weld.
        pub shape: Option<WeldShape>,
        /// Shape factors of your own, in place of those of a shape.
        pub shape_factors: Option<ShapeFactorsIn>,
        /// Thermal constants for the second opinions; where left out, those fitted to EN 1011-2 for the
        /// time and those of handbooks for the rate.
        pub constants: Option<MaterialConstants>,
    }
}

calculation! {
    /// Cooling time from 800 °C to 500 °C by EN 1011-2, as a band over the shape factor, with the heat flow
    /// taken; near the transition thickness the time of the other heat flow too. Beside it, never averaged:
    /// the time by theory for any thickness, and the cooling rate at 540 °C in two ways.
    "/v1/calculations/cooling-time", calculate_cooling_time(CoolingTimeIn) => fill,
    summary: "Cooling time of a run",
    example: {
        "metal": "1.2", "heat_input": "1.5 kJ/mm", "temperature": "100 °C", "thickness": "20 mm",
        "shape": "between-run-of-butt-weld"
    }
}

/// Names of the figures of the standard.
const TIME: &str = "cooling-time";
const OTHER_TIME: &str = "cooling-time-by-the-other-heat-flow";

fn fill(sent: &CoolingTimeIn, sheet: &mut Sheet) {
    by_standard(sent, sheet);
    by_theory(sent, sheet);
}

fn by_standard(sent: &CoolingTimeIn, sheet: &mut Sheet) {
    let (shape, origin) = match factors(sent.shape, sent.shape_factors.as_ref()) {
        Ok(shape) => shape,
        Err(reason) => return sheet.absent(TIME, reason),
    };
    let got = cooling_time(&CoolingCase {
        metal: sent.metal.0,
        heat_input: sent.heat_input,
        temperature: sent.temperature,
        thickness: sent.thickness,
        shape,
    });
    let got = match got {
        Ok(got) => got,
        Err(error) => return sheet.absent(TIME, error),
    };
    let transition = Ok::<_, CoolingError>(got.transition_thickness);
    sheet.one("transition-thickness", transition, &TRANSITION_THICKNESS, &["both shape factors 1"]);
    let flow = vec![got.heat_flow.to_string()];
    sheet.words("heat-flow", flow, &TRANSITION_THICKNESS, &[]);
    put_time(TIME, "", &got.time, got.heat_flow, &[&origin], sheet);
    if let Some(other) = got.other_heat_flow {
        let flow = match got.heat_flow {
            HeatFlow::TwoDimensional => HeatFlow::ThreeDimensional,
            HeatFlow::ThreeDimensional => HeatFlow::TwoDimensional,
        };
        let near = "the thickness is within 0.8 to 1.25 of the transition thickness, where either heat \
                    flow may be true (band: common practice, no source)";
        put_time(OTHER_TIME, "-by-the-other-heat-flow", &other, flow, &[&origin, near], sheet);
    }
}

/// A cooling time, and the mean rate that goes with it.
fn put_time(
    name: &str,
    suffix: &str,
    time: &Span<DurationKind>,
    flow: HeatFlow,
    assumptions: &[&str],
    sheet: &mut Sheet,
) {
    let formula: &Formula = match flow {
        HeatFlow::ThreeDimensional => &COOLING_TIME_THICK,
        HeatFlow::TwoDimensional => &COOLING_TIME_THIN,
    };
    sheet.span(name, Ok::<_, CoolingError>(*time), formula, assumptions);
    let rate = format!("cooling-rate-at-540{suffix}");
    sheet.span(&rate, mean_rate(time), &COOLING_RATE_AT_540, assumptions);
}

/// The longest time goes with the lowest rate.
fn mean_rate(time: &Span<DurationKind>) -> Result<Span<CoolingRateKind>, String> {
    let rate = |time| cooling_rate_at_540(time).map_err(|error| error.to_string());
    Span::new(rate(time.high())?, rate(time.low())?).map_err(|error| error.to_string())
}

/// Second opinions with thermal constants.
fn by_theory(sent: &CoolingTimeIn, sheet: &mut Sheet) {
    let chosen = sent.constants.unwrap_or(MaterialConstants::FittedToEn1011);
    let time = chosen.properties().map_err(CoolingError::from).and_then(|properties| {
        any_thickness_cooling_time(&WeldOnPlate {
            metal: sent.metal.0,
            heat_input: sent.heat_input,
            temperature: sent.temperature,
            thickness: sent.thickness,
            properties,
        })
    });
    let plate = "a run on a plate: no shape factor is in it";
    sheet.one("cooling-time-any-thickness", time, &ANY_THICKNESS, &[&constants(chosen), plate]);

    let chosen = sent.constants.unwrap_or(MaterialConstants::Handbook);
    let answer = rate_case(sent, chosen).and_then(|case| cooling_rate(&case, sent.heat_input));
    let flow = answer.as_ref().map(|answer| {
        let between = if answer.between { ", where neither form fits well" } else { "" };
        let tau = answer.relative_thickness.ratio();
        format!("{} heat flow at a relative thickness of {tau:.3}{between}", answer.heat_flow)
    });
    let flow = flow.unwrap_or_default();
    let rate = answer.map(|answer| answer.rate);
    let name = "cooling-rate-at-540-by-theory";
    sheet.one(name, rate, &COOLING_RATE, &[&constants(chosen), plate, &flow]);
}

fn rate_case(
    sent: &CoolingTimeIn,
    chosen: MaterialConstants,
) -> Result<CoolingRateCase, CoolingError> {
    Ok(CoolingRateCase {
        metal: sent.metal.0,
        temperature: sent.temperature,
        at: Temperature::computed(540.0)?,
        thickness: sent.thickness,
        properties: chosen.properties()?,
    })
}

/// What an answer says about a set of thermal constants.
pub(super) fn constants(set: MaterialConstants) -> String {
    let Ok(properties) = set.properties() else { return format!("thermal constants {set}") };
    let origin = match set {
        MaterialConstants::FittedToEn1011 => "own arithmetic",
        _ => "from memory",
    };
    format!(
        "thermal constants {set}: {} and {}, {origin}",
        properties.conductivity, properties.heat_capacity
    )
}
