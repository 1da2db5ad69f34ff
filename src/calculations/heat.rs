//! `POST /v1/calculations/heat`

use super::{Sheet, endpoint::calculation};
use crate::{
    quantity::{
        ArcEnergyKind, CurrentKind, DurationKind, EnergyKind, PowerKind, RunLengthKind, Share,
        Span, TravelSpeedKind, VoltageKind,
    },
    trade::{
        ARC_ENERGY_FROM_AVERAGES, ARC_ENERGY_FROM_ENERGY, ARC_ENERGY_FROM_POWER,
        ARC_ENERGY_FROM_POWER_AND_TIME, COMBINED_UNCERTAINTY, Coded, HEAT_INPUT, Process,
        TRAVEL_SPEED, Waveform, arc_energy_span, arc_energy_span_from_energy,
        arc_energy_span_from_power, arc_energy_span_from_power_and_time, combined_uncertainty,
        heat_input_span, thermal_efficiency, travel_speed_span,
    },
    wire::wire_object,
};

wire_object! {
    /// What was set or measured. Each value is one or an interval. Methods that can be computed are.
    pub struct HeatIn {
        /// Arc voltage.
        pub voltage: Option<Span<VoltageKind>>,
        /// Welding current.
        pub current: Option<Span<CurrentKind>>,
        /// Travel speed; or give length and time.
        pub travel_speed: Option<Span<TravelSpeedKind>>,
        /// Length of the run.
        pub run_length: Option<Span<RunLengthKind>>,
        /// Arc time of the run.
        pub arc_time: Option<Span<DurationKind>>,
        /// Mean instantaneous arc power.
        pub arc_power: Option<Span<PowerKind>>,
        /// Electrical energy of the run.
        pub run_energy: Option<Span<EnergyKind>>,
        /// Output of the power source; volts times amps is refused where it is controlled or unknown.
        pub waveform: Option<Waveform>,
        /// Process, for the thermal efficiency factor.
        pub process: Option<Process>,
        /// Thermal efficiency factor, where your code or contract gives one.
        pub thermal_efficiency: Option<Share>,
        /// Expanded relative uncertainties (k = 2) of the values used, to be combined.
        pub uncertainties: Vec<Share>,
    }
}

calculation! {
    /// Arc energy by ISO/TR 18491 methods A, B and C, heat input with the thermal efficiency factor, and
    /// the US convention; the basis is always named.
    "/v1/calculations/heat", calculate_heat(HeatIn) => fill,
    summary: "Heat of one run",
    example: {
        "voltage": "28 V", "current": "250 A", "travel_speed": "12 in/min",
        "waveform": "not-controlled", "process": "135"
    }
}

type EnergySpan = Span<ArcEnergyKind>;

fn fill(sent: &HeatIn, sheet: &mut Sheet) {
    let speed = speed(sent, sheet);
    let energies =
        [by_averages(sent, speed, sheet), by_energy(sent, sheet), by_power(sent, speed, sheet)];
    let first = energies.into_iter().flatten().next();
    match first {
        Some(energy) => heat_input(sent, energy, sheet),
        None => sheet.absent("heat-input", "no arc energy can be computed from these values"),
    }
    if !sent.uncertainties.is_empty() {
        let combined = combined_uncertainty(&sent.uncertainties);
        sheet.one("relative-uncertainty", combined, &COMBINED_UNCERTAINTY, &[]);
    }
}

/// Travel speed as given, or from length and time.
fn speed(sent: &HeatIn, sheet: &mut Sheet) -> Option<Span<TravelSpeedKind>> {
    if sent.travel_speed.is_some() {
        return sent.travel_speed;
    }
    let (length, time) = (sent.run_length?, sent.arc_time?);
    let speed = travel_speed_span(&length, &time);
    sheet.span("travel-speed", speed.clone(), &TRAVEL_SPEED, &[]);
    speed.ok()
}

/// Method A; the US convention is the same figure under another name.
fn by_averages(
    sent: &HeatIn,
    speed: Option<Span<TravelSpeedKind>>,
    sheet: &mut Sheet,
) -> Option<EnergySpan> {
    let name = "arc-energy-by-averages";
    let (Some(voltage), Some(current)) = (sent.voltage, sent.current) else { return None };
    let Some(speed) = speed else {
        sheet.absent(name, "travel speed, or length and time, are missing");
        return None;
    };
    let Some(waveform) = sent.waveform else {
        sheet.absent(
            name,
            "state \"waveform\": volts times amps is wrong for waveform-controlled output",
        );
        return None;
    };
    let energy = arc_energy_span(&voltage, &current, &speed, waveform);
    let as_us = energy.as_ref().ok().copied();
    sheet.span(
        name,
        energy,
        &ARC_ENERGY_FROM_AVERAGES,
        &["basis: arc energy, no thermal efficiency"],
    );
    if let Some(energy) = as_us {
        let basis = "basis: arc energy; US codes call it heat input and use no efficiency factor";
        sheet.span::<_, &str>("us-heat-input", Ok(energy), &ARC_ENERGY_FROM_AVERAGES, &[basis]);
    }
    as_us
}

/// Method B.
fn by_energy(sent: &HeatIn, sheet: &mut Sheet) -> Option<EnergySpan> {
    let energy = sent.run_energy?;
    let Some(length) = sent.run_length else {
        sheet.absent("arc-energy-by-energy", "the length of the run is missing");
        return None;
    };
    let result = arc_energy_span_from_energy(&energy, &length);
    sheet.span(
        "arc-energy-by-energy",
        result.clone(),
        &ARC_ENERGY_FROM_ENERGY,
        &["basis: arc energy"],
    );
    result.ok()
}

/// Method C.
fn by_power(
    sent: &HeatIn,
    speed: Option<Span<TravelSpeedKind>>,
    sheet: &mut Sheet,
) -> Option<EnergySpan> {
    let power = sent.arc_power?;
    let name = "arc-energy-by-power";
    let (result, formula) = match (sent.arc_time, sent.run_length, speed) {
        (Some(time), Some(length), _) => (
            arc_energy_span_from_power_and_time(&power, &time, &length),
            &ARC_ENERGY_FROM_POWER_AND_TIME,
        ),
        (_, _, Some(speed)) => (arc_energy_span_from_power(&power, &speed), &ARC_ENERGY_FROM_POWER),
        _ => {
            sheet.absent(name, "travel speed, or length and time, are missing");
            return None;
        }
    };
    sheet.span(name, result.clone(), formula, &["basis: arc energy"]);
    result.ok()
}

fn heat_input(sent: &HeatIn, energy: EnergySpan, sheet: &mut Sheet) {
    let name = "heat-input";
    let factor = match (sent.thermal_efficiency, sent.process) {
        (Some(factor), _) => Ok((factor, "factor as given by the caller".to_owned())),
        (None, Some(process)) => thermal_efficiency(process)
            .map(|(factor, confidence)| {
                (factor, format!("factor of process {process}: {confidence}"))
            })
            .ok_or_else(|| format!("no factor is printed for process {}", process.code())),
        (None, None) => Err("the process or a thermal efficiency factor is missing".to_owned()),
    };
    match factor {
        Ok((factor, origin)) => {
            let basis = format!("basis: heat input with k = {}; {origin}", factor.ratio());
            sheet.span(name, heat_input_span(&energy, factor), &HEAT_INPUT, &[&basis]);
        }
        Err(reason) => sheet.absent(name, reason),
    }
}
