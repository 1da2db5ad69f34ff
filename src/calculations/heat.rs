//! `POST /v1/calculations/heat`

use std::iter;

use super::{
    Sheet,
    endpoint::calculation,
    thermal_factor::{ThermalFactor, put_heat_input},
    uncertainty::{put_combined, put_of_readings, reading, relative},
};
use crate::{
    check::{Arcs, Comparison, Given, Origin, Readings, Settings, Setup},
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
    /// the US convention; the basis is always named. Where values contradict each other, such as a travel speed and
    /// length and time of the run, the heat input is all between, as a check takes it, and the answer says so; only
    /// measured energy or power goes before what nobody measured. The uncertainty of each arc energy follows from the
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

/// What an arc energy is.
const ARC_ENERGY: &str = "basis: arc energy";

/// Names of the figures by method.
const BY_AVERAGES: &str = "arc-energy-by-averages";
const BY_ENERGY: &str = "arc-energy-by-energy";
const BY_POWER: &str = "arc-energy-by-power";

fn fill(sent: &HeatIn, sheet: &mut Sheet) {
    // What contradicts what, and what is then taken, is settled as for a setup that is checked.
    let setup = Setup { settings: settings(sent), ..Setup::default() };
    let readings = Readings::of(&setup, sent.process, sent.waveform, Arcs::One);
    let notes: Vec<_> = readings.comparisons.iter().filter_map(Comparison::disagreement).collect();
    let heat = Heat { sent, speed: readings.travel_speed.map(|speed| speed.span), notes: &notes };
    heat.speed_of_run(sheet);
    heat.by_averages(sheet);
    heat.by_energy(sheet);
    heat.by_power(sheet);
    match readings.arc_energy {
        Ok(energy) => {
            let factor = ThermalFactor::of(sent.thermal_efficiency, sent.process);
            put_heat_input("heat-input", factor, &energy.given.span, &notes, sheet);
        }
        Err(_) => sheet.absent("heat-input", "no arc energy can be computed from these values"),
    }
}

/// What was sent as settings of one arc.
fn settings(sent: &HeatIn) -> Settings {
    fn given<K: Kind>(stated: Option<&Stated<K>>) -> Option<Given<K>> {
        stated.map(Stated::given)
    }
    Settings {
        waveform: sent.waveform,
        voltage: given(sent.voltage.as_ref()),
        current: given(sent.current.as_ref()),
        travel_speed: given(sent.travel_speed.as_ref()),
        run_length: given(sent.run_length.as_ref()),
        arc_time: given(sent.arc_time.as_ref()),
        arc_power: given(sent.arc_power.as_ref()),
        run_energy: given(sent.run_energy.as_ref()),
        ..Settings::default()
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

/// Why a travel speed that is given twice has no uncertainty.
const TWICE: &str =
    "the travel speed is stated, and follows from length and time too; give one of them";

/// What was sent, and what is settled of it.
struct Heat<'a> {
    sent: &'a HeatIn,
    /// Travel speed as stated, from length and time, or both: then all values between.
    speed: Option<Span<TravelSpeedKind>>,
    /// What disagrees with what.
    notes: &'a [String],
}

impl Heat<'_> {
    /// What is said of an arc energy.
    fn said<'s>(&'s self, basis: &'s str) -> Vec<&'s str> {
        iter::once(basis).chain(self.notes.iter().map(String::as_str)).collect()
    }

    /// Whether the travel speed is stated and follows from length and time too.
    const fn has_speed_twice(&self) -> bool {
        let HeatIn { travel_speed, run_length, arc_time, .. } = self.sent;
        travel_speed.is_some() && run_length.is_some() && arc_time.is_some()
    }

    /// Travel speed from length and time.
    fn speed_of_run(&self, sheet: &mut Sheet) {
        let (length, time) = (self.sent.run_length.as_ref(), self.sent.arc_time.as_ref());
        if let (Some(length), Some(time)) = (span(length), span(time)) {
            sheet.span("travel-speed", travel_speed_span(&length, &time), &TRAVEL_SPEED, &[]);
        }
    }

    /// Method A; the US convention is the same figure under another name.
    fn by_averages(&self, sheet: &mut Sheet) {
        let sent = self.sent;
        let (Some(voltage), Some(current)) =
            (span(sent.voltage.as_ref()), span(sent.current.as_ref()))
        else {
            return;
        };
        let Some(speed) = self.speed else {
            return sheet.absent(BY_AVERAGES, "travel speed, or length and time, are missing");
        };
        let Some(waveform) = sent.waveform else {
            let why =
                "state \"waveform\": volts times amps is wrong for waveform-controlled output";
            return sheet.absent(BY_AVERAGES, why);
        };
        let energy = arc_energy_span(&voltage, &current, &speed, waveform);
        let known = energy.as_ref().ok().copied();
        let said = self.said("basis: arc energy, no thermal efficiency");
        sheet.span(BY_AVERAGES, energy, &ARC_ENERGY_FROM_AVERAGES, &said);
        if let Some(energy) = known {
            let said = self.said(
                "basis: arc energy; US codes call it heat input and use no efficiency factor",
            );
            let formula = &ARC_ENERGY_FROM_AVERAGES;
            sheet.span::<_, &str>("us-heat-input", Ok(energy), formula, &said);
            self.uncertainty_of_averages(energy, waveform, sheet);
        }
    }

    fn uncertainty_of_averages(&self, energy: EnergySpan, waveform: Waveform, sheet: &mut Sheet) {
        let sent = self.sent;
        let (voltage, current) = (sent.voltage.as_ref(), sent.current.as_ref());
        if let Some(speed) = sent.travel_speed.as_ref() {
            if !(measured(voltage) || measured(current) || measured(Some(speed))) {
                return;
            }
            let readings = || {
                if self.has_speed_twice() {
                    return Err(TWICE.to_owned());
                }
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
    fn by_energy(&self, sheet: &mut Sheet) {
        let (energy, length) = (self.sent.run_energy.as_ref(), self.sent.run_length.as_ref());
        let Some(of_run) = span(energy) else { return };
        let Some(over) = span(length) else {
            return sheet.absent(BY_ENERGY, "the length of the run is missing");
        };
        let result = arc_energy_span_from_energy(&of_run, &over);
        let said = self.said(ARC_ENERGY);
        sheet.span(BY_ENERGY, result.clone(), &ARC_ENERGY_FROM_ENERGY, &said);
        let Ok(result) = result else { return };
        if measured(energy) || measured(length) {
            let parts = [part("run energy", energy), part("run length", length)];
            put_combined(BY_ENERGY, parts, result.low(), sheet);
        }
    }

    /// Method C: over time and length, or where a travel speed is stated over that, or over all speeds between the two.
    fn by_power(&self, sheet: &mut Sheet) {
        let sent = self.sent;
        let Some(power) = span(sent.arc_power.as_ref()) else { return };
        let (length, time) = (sent.run_length.as_ref(), sent.arc_time.as_ref());
        let power_part = || part("arc power", sent.arc_power.as_ref());
        let said = self.said(ARC_ENERGY);
        let of_run = span(length).zip(span(time)).filter(|_| sent.travel_speed.is_none());
        if let Some((over, during)) = of_run {
            let result = arc_energy_span_from_power_and_time(&power, &during, &over);
            sheet.span(BY_POWER, result.clone(), &ARC_ENERGY_FROM_POWER_AND_TIME, &said);
            let Ok(result) = result else { return };
            if measured(sent.arc_power.as_ref()) || measured(length) || measured(time) {
                let parts = [power_part(), part("run length", length), part("arc time", time)];
                put_combined(BY_POWER, parts, result.low(), sheet);
            }
            return;
        }
        let Some(speed) = self.speed else {
            return sheet.absent(BY_POWER, "travel speed, or length and time, are missing");
        };
        let result = arc_energy_span_from_power(&power, &speed);
        sheet.span(BY_POWER, result.clone(), &ARC_ENERGY_FROM_POWER, &said);
        let (Ok(result), speed) = (result, sent.travel_speed.as_ref()) else { return };
        if measured(sent.arc_power.as_ref()) || measured(speed) {
            let speed_part = if self.has_speed_twice() {
                Err(TWICE.to_owned())
            } else {
                part("travel speed", speed)
            };
            put_combined(BY_POWER, [power_part(), speed_part], result.low(), sheet);
        }
    }
}
