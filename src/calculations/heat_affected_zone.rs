//! `POST /v1/calculations/heat-affected-zone`

use std::iter;

use super::{Sheet, cooling_time::constants, endpoint::calculation, metal::Metal};
use crate::{
    quantity::{HeatInput, Temperature, Thickness, VolumetricHeat},
    trade::{
        CoolingError, MaterialConstants, PEAK_TEMPERATURE, PeakTemperatureCase,
        TRANSITION_THICKNESS, distance_of_peak_temperature, is_near_transition,
        transition_thickness,
    },
    wire::wire_object,
};

wire_object! {
    /// One full-penetration run and a temperature sought.
    pub struct HeatAffectedZoneIn {
        /// The metal; the formula is for unalloyed and low-alloy ferritic steel.
        pub metal: Metal,
        /// Heat input, thermal efficiency counted.
        pub heat_input: HeatInput,
        /// Temperature of the plate before the run.
        pub temperature: Temperature,
        /// Thickness of the plate.
        pub thickness: Thickness,
        /// Melting temperature (liquidus) of the metal.
        pub melting: Temperature,
        /// Peak temperature sought: some 730 °C for the width of the heat-affected zone, a tempering
        /// temperature for the softened zone.
        pub peak: Temperature,
        /// Heat capacity of a volume, where known.
        pub heat_capacity: Option<VolumetricHeat>,
        /// Thermal constants, where the heat capacity is not given; those of handbooks where left out.
        pub constants: Option<MaterialConstants>,
    }
}

calculation! {
    /// How far from the fusion boundary a temperature was reached, in a plate thinner than the transition thickness; in a
    /// thicker one heat flows into the depth too, and there is no figure.
    "/v1/calculations/heat-affected-zone", calculate_heat_affected_zone(HeatAffectedZoneIn) => fill,
    summary: "Width of the heat-affected zone",
    example: {
        "metal": "1.2", "heat_input": "720 J/mm", "temperature": "25 °C", "thickness": "5 mm",
        "melting": "1510 °C", "peak": "730 °C", "heat_capacity": "0.0044 J/(mm3·K)"
    }
}

/// What an answer near the transition says.
const NEAR: &str = "the thickness is near the transition thickness, where heat may flow into the depth too and the \
                    distance be less (from 0.8 of it on: common practice, no source)";

fn fill(sent: &HeatAffectedZoneIn, sheet: &mut Sheet) {
    let chosen = sent.constants.unwrap_or(MaterialConstants::Handbook);
    let capacity = match sent.heat_capacity {
        Some(capacity) => format!("heat capacity {capacity}, as given by the caller"),
        None => constants(chosen),
    };
    let distance = chosen.properties().map_err(CoolingError::from).and_then(|mut properties| {
        properties.heat_capacity = sent.heat_capacity.unwrap_or(properties.heat_capacity);
        distance_of_peak_temperature(&PeakTemperatureCase {
            metal: sent.metal.0,
            heat_input: sent.heat_input,
            temperature: sent.temperature,
            thickness: sent.thickness,
            properties,
            melting: sent.melting,
            peak: sent.peak,
        })
    });
    let transition = transition_thickness(sent.heat_input, sent.temperature);
    let near = transition
        .as_ref()
        .is_ok_and(|transition| is_near_transition(sent.thickness, *transition))
        .then_some(NEAR);
    let notes: Vec<_> = iter::once(capacity.as_str()).chain(near).collect();
    sheet.one("transition-thickness", transition, &TRANSITION_THICKNESS, &[]);
    sheet.one("distance-from-fusion-boundary", distance, &PEAK_TEMPERATURE, &notes);
}
