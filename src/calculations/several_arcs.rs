//! `POST /v1/calculations/several-arcs`

use super::{Sheet, endpoint::calculation, thermal_factor::ThermalFactor};
use crate::{
    quantity::{ArcEnergy, Current, HeatInput, Power, TravelSpeed, Voltage},
    trade::{
        ARC_ENERGY_FROM_AVERAGES, ARC_ENERGY_FROM_POWER, ARC_POWER_FROM_AVERAGES, Formula,
        HEAT_INPUT, Process, SUM_OF_ARCS, Waveform, arc_energy_from_averages,
        arc_energy_from_power, arc_energy_of_arcs, arc_power_from_averages, heat_input,
        heat_input_of_arcs, power_of_arcs,
    },
    wire::{Part, wire_object},
};

wire_object! {
    /// One arc of a pool: its measured power, or its averages.
    pub struct ArcIn {
        /// Arc voltage.
        pub voltage: Option<Voltage>,
        /// Welding current.
        pub current: Option<Current>,
        /// Output of its power source; needed for voltage and current.
        pub waveform: Option<Waveform>,
        /// Mean instantaneous arc power; goes before voltage and current.
        pub arc_power: Option<Power>,
        /// Process, for the thermal efficiency factor.
        pub process: Option<Process>,
        /// Thermal efficiency factor, where your code or contract gives one; more than 0 % and at most 100 %.
        pub thermal_efficiency: Option<Part>,
    }
}

wire_object! {
    /// Arcs that feed one pool and travel together.
    pub struct SeveralArcsIn {
        /// The arcs, leading one first.
        pub arcs: Vec<ArcIn>,
        /// Travel speed of all.
        pub travel_speed: Option<TravelSpeed>,
    }
}

calculation! {
    /// Power, arc energy and heat input of several arcs in one pool (tandem, twin, multi-wire submerged
    /// arc): each arc, and the sum. One arc that is not known leaves the sum without a figure.
    "/v1/calculations/several-arcs", calculate_several_arcs(SeveralArcsIn) => fill,
    summary: "Heat of several arcs",
    example: {
        "arcs": [
            { "voltage": "30 V", "current": "700 A", "waveform": "not-controlled", "process": "121" },
            { "voltage": "34 V", "current": "600 A", "waveform": "not-controlled", "process": "121" }
        ],
        "travel_speed": "1200 mm/min"
    }
}

fn fill(sent: &SeveralArcsIn, sheet: &mut Sheet) {
    let each: Vec<_> = sent
        .arcs
        .iter()
        .enumerate()
        .map(|(index, arc)| one(index + 1, arc, sent.travel_speed, sheet))
        .collect();
    if each.is_empty() {
        for name in ["arc-power", "arc-energy", "heat-input"] {
            sheet.absent(name, "no arc is given");
        }
        return;
    }
    let powers = all(each.iter().map(|arc| arc.power.clone()));
    let energies = all(each.iter().map(|arc| arc.energy.clone()));
    let heats = all(each.into_iter().map(|arc| arc.heat));
    let text = |error: crate::quantity::QuantityError| error.to_string();
    let power = powers.and_then(|parts| power_of_arcs(&parts).map_err(text));
    sheet.one("arc-power", power, &SUM_OF_ARCS, &[]);
    let energy = energies.and_then(|parts| arc_energy_of_arcs(&parts).map_err(text));
    sheet.one("arc-energy", energy, &SUM_OF_ARCS, &["basis: arc energy"]);
    let heat = heats.and_then(|parts| heat_input_of_arcs(&parts).map_err(text));
    sheet.one("heat-input", heat, &SUM_OF_ARCS, &["basis: heat input, each arc with its own k"]);
}

/// All values, or the first reason why one is not known.
fn all<T>(parts: impl Iterator<Item = Result<T, String>>) -> Result<Vec<T>, String> {
    parts.collect()
}

/// What is known of one arc.
struct Known {
    power: Result<Power, String>,
    energy: Result<ArcEnergy, String>,
    heat: Result<HeatInput, String>,
}

/// Figures of one arc, numbered from one.
fn one(number: usize, arc: &ArcIn, speed: Option<TravelSpeed>, sheet: &mut Sheet) -> Known {
    let place = |reason: String| format!("arc {number}: {reason}");
    let known = power(arc);
    let (energy, formula) = energy(arc, known.clone(), speed);
    let (power, energy) = (known.map_err(place), energy.map_err(place));
    let name = |what: &str| format!("{what}-of-arc-{number}");
    // A power that was sent is no figure.
    if arc.arc_power.is_none() {
        sheet.one(&name("arc-power"), power.clone(), &ARC_POWER_FROM_AVERAGES, &[]);
    }
    sheet.one(&name("arc-energy"), energy.clone(), formula, &["basis: arc energy"]);
    let factor = ThermalFactor::of(arc.thermal_efficiency, arc.process).map_err(place);
    let basis = factor.as_ref().map(ThermalFactor::basis).unwrap_or_default();
    let heat = energy.clone().and_then(|energy| {
        heat_input(energy, factor?.factor).map_err(|error| place(error.to_string()))
    });
    sheet.one(&name("heat-input"), heat.clone(), &HEAT_INPUT, &[&basis]);
    Known { power, energy, heat }
}

fn power(arc: &ArcIn) -> Result<Power, String> {
    if let Some(power) = arc.arc_power {
        return Ok(power);
    }
    let (voltage, current) = arc
        .voltage
        .zip(arc.current)
        .ok_or("give the measured arc power, or voltage and current")?;
    let waveform = arc
        .waveform
        .ok_or("state \"waveform\": volts times amps is wrong for waveform-controlled output")?;
    arc_power_from_averages(voltage, current, waveform).map_err(|error| error.to_string())
}

fn energy(
    arc: &ArcIn,
    power: Result<Power, String>,
    speed: Option<TravelSpeed>,
) -> (Result<ArcEnergy, String>, &'static Formula) {
    let speed = speed.ok_or_else(|| "the travel speed is missing".to_owned());
    let averages = arc.voltage.zip(arc.current).zip(arc.waveform);
    if let Some(((voltage, current), waveform)) = averages.filter(|_| arc.arc_power.is_none()) {
        let energy = speed.and_then(|speed| {
            arc_energy_from_averages(voltage, current, speed, waveform)
                .map_err(|error| error.to_string())
        });
        return (energy, &ARC_ENERGY_FROM_AVERAGES);
    }
    let energy = power
        .and_then(|power| arc_energy_from_power(power, speed?).map_err(|error| error.to_string()));
    (energy, &ARC_ENERGY_FROM_POWER)
}
