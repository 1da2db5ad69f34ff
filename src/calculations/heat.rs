//! `POST /v1/calculations/heat`

use super::{
    Sheet,
    endpoint::calculation,
    thermal_factor::{ThermalFactor, put_heat_input},
    uncertainty::{put_combined, put_of_readings, reading, relative},
};
use crate::{
    check::Origin,
    quantity::{
        ArcEnergyKind, CurrentKind, DurationKind, EnergyKind, Kind, PowerKind, RunLengthKind,
        Share, Span, TravelSpeedKind, VoltageKind,
    },
    trade::{
        ARC_ENERGY_FROM_AVERAGES, ARC_ENERGY_FROM_ENERGY, ARC_ENERGY_FROM_POWER,
        ARC_ENERGY_FROM_POWER_AND_TIME, ArcReadings, Process, TRAVEL_SPEED, Waveform,
        arc_energy_span, arc_energy_span_from_energy, arc_energy_span_from_power,
        arc_energy_span_from_power_and_time, travel_speed_span,
    },
    wire::{Part, Stated, wire_object},
};

wire_object! {
    /// What was set or measured. Each value is one or an interval; a measured one may have the accuracy of
    /// its instrument, and then the uncertainty of the arc energy is computed. Methods that can be computed
    /// are.
    pub struct HeatIn {
        /// Arc voltage.
        pub voltage: Option<Stated<VoltageKind>>,
        /// Welding current.
        pub current: Option<Stated<CurrentKind>>,
        /// Travel speed; or give length and time.
        pub travel_speed: Option<Stated<TravelSpeedKind>>,
        /// Length of the run.
        pub run_length: Option<Stated<RunLengthKind>>,
        /// Arc time of the run.
        pub arc_time: Option<Stated<DurationKind>>,
        /// Mean instantaneous arc power.
        pub arc_power: Option<Stated<PowerKind>>,
        /// Electrical energy of the run.
        pub run_energy: Option<Stated<EnergyKind>>,
        /// Output of the power source; volts times amps is refused where it is controlled or unknown.
        pub waveform: Option<Waveform>,
        /// Process, for the thermal efficiency factor.
        pub process: Option<Process>,
        /// Thermal efficiency factor, where your code or contract gives one; more than 0 % and at most 100 %.
        pub thermal_efficiency: Option<Part>,
    }
}

calculation! {
    /// Arc energy by ISO/TR 18491 methods A, B and C, heat input with the thermal efficiency factor, and
    /// the US convention; the basis is always named. The uncertainty of each arc energy follows from the
    /// accuracies of the measured values it was computed from.
    "/v1/calculations/heat", calculate_heat(HeatIn) => fill,
    summary: "Heat of one run",
    example: {
        "voltage": {
            "value": 28, "unit": "V", "origin": "measured", "accuracy": { "of_reading": "2 %" }
        },
        "current": {
            "value": 250, "unit": "A", "origin": "measured",
            "accuracy": { "of_full_scale": "1 %", "full_scale": "500 A" }
        },
        "travel_speed": {
            "value": 12, "unit": "in/min", "origin": "measured",
            "accuracy": { "absolute": "0.5 in/min" }
        },
        "waveform": "not-controlled", "process": "135"
    }
}

type EnergySpan = Span<ArcEnergyKind>;
type SpeedSpan = Span<TravelSpeedKind>;

/// Names of the figures by method.
const BY_AVERAGES: &str = "arc-energy-by-averages";
const BY_ENERGY: &str = "arc-energy-by-energy";
const BY_POWER: &str = "arc-energy-by-power";

fn fill(sent: &HeatIn, sheet: &mut Sheet) {
    let speed = speed(sent, sheet);
    let energies =
        [by_averages(sent, speed, sheet), by_energy(sent, sheet), by_power(sent, speed, sheet)];
    let first = energies.into_iter().flatten().next();
    match first {
        Some(energy) => {
            let factor = ThermalFactor::of(sent.thermal_efficiency, sent.process);
            put_heat_input("heat-input", factor, &energy, sheet);
        }
        None => sheet.absent("heat-input", "no arc energy can be computed from these values"),
    }
}

/// The value or interval of a member.
fn span<K: Kind>(stated: Option<&Stated<K>>) -> Option<Span<K>> {
    stated.map(Stated::span)
}

/// Whether a member was measured.
fn measured<K: Kind>(stated: Option<&Stated<K>>) -> bool {
    stated.is_some_and(|stated| stated.given().origin == Origin::Measured)
}

/// The relative uncertainty of a member.
fn part<K: Kind>(what: &str, stated: Option<&Stated<K>>) -> Result<Share, String> {
    relative(what, stated.ok_or_else(|| format!("{what} is missing"))?)
}

/// Travel speed as given, or from length and time.
fn speed(sent: &HeatIn, sheet: &mut Sheet) -> Option<SpeedSpan> {
    if let Some(speed) = span(sent.travel_speed.as_ref()) {
        return Some(speed);
    }
    let (length, time) = (span(sent.run_length.as_ref())?, span(sent.arc_time.as_ref())?);
    let speed = travel_speed_span(&length, &time);
    sheet.span("travel-speed", speed.clone(), &TRAVEL_SPEED, &[]);
    speed.ok()
}

/// Method A; the US convention is the same figure under another name.
fn by_averages(sent: &HeatIn, speed: Option<SpeedSpan>, sheet: &mut Sheet) -> Option<EnergySpan> {
    let (voltage, current) = (span(sent.voltage.as_ref())?, span(sent.current.as_ref())?);
    let Some(speed) = speed else {
        sheet.absent(BY_AVERAGES, "travel speed, or length and time, are missing");
        return None;
    };
    let Some(waveform) = sent.waveform else {
        let why = "state \"waveform\": volts times amps is wrong for waveform-controlled output";
        sheet.absent(BY_AVERAGES, why);
        return None;
    };
    let energy = arc_energy_span(&voltage, &current, &speed, waveform);
    let known = energy.as_ref().ok().copied();
    let basis = "basis: arc energy, no thermal efficiency";
    sheet.span(BY_AVERAGES, energy, &ARC_ENERGY_FROM_AVERAGES, &[basis]);
    if let Some(energy) = known {
        let basis = "basis: arc energy; US codes call it heat input and use no efficiency factor";
        sheet.span::<_, &str>("us-heat-input", Ok(energy), &ARC_ENERGY_FROM_AVERAGES, &[basis]);
        uncertainty_of_averages(sent, energy, waveform, sheet);
    }
    known
}

fn uncertainty_of_averages(
    sent: &HeatIn,
    energy: EnergySpan,
    waveform: Waveform,
    sheet: &mut Sheet,
) {
    let (voltage, current) = (sent.voltage.as_ref(), sent.current.as_ref());
    if let Some(speed) = sent.travel_speed.as_ref() {
        if !(measured(voltage) || measured(current) || measured(Some(speed))) {
            return;
        }
        let readings = || {
            let voltage = reading("voltage", voltage.ok_or("voltage is missing")?)?;
            let current = reading("current", current.ok_or("current is missing")?)?;
            let speed = reading("travel speed", speed)?;
            Ok(ArcReadings { voltage, current, speed, waveform })
        };
        put_of_readings(BY_AVERAGES, readings(), sheet);
        return;
    }
    let (length, time) = (sent.run_length.as_ref(), sent.arc_time.as_ref());
    if measured(voltage) || measured(current) || measured(length) || measured(time) {
        let parts = [
            part("voltage", voltage),
            part("current", current),
            part("run length", length),
            part("arc time", time),
        ];
        put_combined(BY_AVERAGES, parts, energy.low(), sheet);
    }
}

/// Method B.
fn by_energy(sent: &HeatIn, sheet: &mut Sheet) -> Option<EnergySpan> {
    let energy = span(sent.run_energy.as_ref())?;
    let Some(length) = span(sent.run_length.as_ref()) else {
        sheet.absent(BY_ENERGY, "the length of the run is missing");
        return None;
    };
    let result = arc_energy_span_from_energy(&energy, &length);
    sheet.span(BY_ENERGY, result.clone(), &ARC_ENERGY_FROM_ENERGY, &["basis: arc energy"]);
    let result = result.ok()?;
    let (energy, length) = (sent.run_energy.as_ref(), sent.run_length.as_ref());
    if measured(energy) || measured(length) {
        let parts = [part("run energy", energy), part("run length", length)];
        put_combined(BY_ENERGY, parts, result.low(), sheet);
    }
    Some(result)
}

/// Method C.
fn by_power(sent: &HeatIn, speed: Option<SpeedSpan>, sheet: &mut Sheet) -> Option<EnergySpan> {
    let power = span(sent.arc_power.as_ref())?;
    let (length, time) = (sent.run_length.as_ref(), sent.arc_time.as_ref());
    let power_part = || part("arc power", sent.arc_power.as_ref());
    if let (Some(over), Some(during)) = (span(length), span(time)) {
        let result = arc_energy_span_from_power_and_time(&power, &during, &over);
        let formula = &ARC_ENERGY_FROM_POWER_AND_TIME;
        sheet.span(BY_POWER, result.clone(), formula, &["basis: arc energy"]);
        let result = result.ok()?;
        if measured(sent.arc_power.as_ref()) || measured(length) || measured(time) {
            let parts = [power_part(), part("run length", length), part("arc time", time)];
            put_combined(BY_POWER, parts, result.low(), sheet);
        }
        return Some(result);
    }
    let Some(speed) = speed else {
        sheet.absent(BY_POWER, "travel speed, or length and time, are missing");
        return None;
    };
    let result = arc_energy_span_from_power(&power, &speed);
    sheet.span(BY_POWER, result.clone(), &ARC_ENERGY_FROM_POWER, &["basis: arc energy"]);
    let (result, speed) = (result.ok()?, sent.travel_speed.as_ref());
    if measured(sent.arc_power.as_ref()) || measured(speed) {
        put_combined(BY_POWER, [power_part(), part("travel speed", speed)], result.low(), sheet);
    }
    Some(result)
}
