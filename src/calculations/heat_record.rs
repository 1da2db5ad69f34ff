//! `POST /v1/calculations/heat-record`

use std::num::NonZeroUsize;

use super::{
    Sheet,
    endpoint::calculation,
    samples::Samples,
    thermal_factor::{ThermalFactor, put_heat_input},
};
use crate::{
    check::{Given, Variable, compared},
    quantity::{ArcEnergy, Current, Duration, QuantityError, RunLength, Span, TravelSpeed},
    trade::{
        ARC_ENERGY_FROM_ENERGY, ARC_ENERGY_FROM_POWER, ARC_ENERGY_FROM_POWER_AND_TIME, Process,
        RecordRules, RecordedArc, SAMPLED_ENERGY, arc_energy_from_energy, arc_energy_from_power,
        arc_energy_from_power_and_time, recorded_arc, travel_speed,
    },
    wire::{Part, wire_object},
};

wire_object! {
    /// Which samples count. Where a rule is left out, the answer names the value taken.
    pub struct RecordRulesIn {
        /// The arc burns from this current on, whatever its sign; 5 A where left out.
        pub arc_on_current: Option<Current>,
        /// A shorter pause belongs to the arc; 0.5 s where left out.
        pub shortest_pause: Option<Duration>,
        /// Left out after every ignition; nothing where not given.
        pub arc_start: Option<Duration>,
        /// Left out before every end of the arc; nothing where not given.
        pub crater: Option<Duration>,
        /// Repeats, volts and amps both, from which a reading counts as held by the logger: its time counts,
        /// its power does not. Every reading counts where left out.
        pub held_from_repeat: Option<u32>,
    }
}

wire_object! {
    /// A sampled record of one run and what was welded with it.
    pub struct HeatRecordIn {
        /// At most 20 000 samples.
        pub samples: Samples,
        /// Which samples count.
        pub rules: Option<RecordRulesIn>,
        /// Length of the whole run.
        pub run_length: Option<RunLength>,
        /// Length welded in the time that counts, where arc start or crater are left out.
        pub counted_length: Option<RunLength>,
        /// Travel speed.
        pub travel_speed: Option<TravelSpeed>,
        /// Process, for the thermal efficiency factor.
        pub process: Option<Process>,
        /// Thermal efficiency factor, where your code or contract gives one; more than 0 % and at most 100 %.
        pub thermal_efficiency: Option<Part>,
    }
}

calculation! {
    /// Energy, mean power and arc time of a sampled record of volts and amps, and with a length or travel
    /// speed the arc energy by ISO/TR 18491 methods B and C; where both are given and disagree, the heat input is all
    /// between the two. The rules for what counts as arc are in the
    /// assumptions of every figure.
    "/v1/calculations/heat-record", calculate_heat_record(HeatRecordIn) => fill,
    summary: "Heat of a sampled record",
    example: {
        "samples": {
            "voltage": { "values": [70, 32, 20, 32, 20, 32, 20, 70], "unit": "V" },
            "current": { "values": [0, 350, 80, 350, 80, 350, 80, 0], "unit": "A" },
            "duration": { "values": [1, 0.003, 0.007, 0.003, 0.007, 0.003, 0.007, 1], "unit": "s" }
        },
        "travel_speed": "360 mm/min", "process": "135"
    }
}

/// Values taken where a rule is left out: common practice, no source.
const ARC_ON_AMPERES: f64 = 5.0;
const SHORTEST_PAUSE_SECONDS: f64 = 0.5;

fn fill(sent: &HeatRecordIn, sheet: &mut Sheet) {
    let arc = rules(sent.rules.as_ref()).map_err(|error| error.to_string()).and_then(|rules| {
        let arc = recorded_arc(&sent.samples.0, &rules).map_err(|error| error.to_string())?;
        Ok((arc, rules))
    });
    let (arc, rules) = match arc {
        Ok(arc) => arc,
        Err(reason) => {
            for name in ["mean-arc-power", "run-energy", "arc-time", "arc-energy-by-energy"] {
                sheet.absent(name, &reason);
            }
            return;
        }
    };
    let stated = stated(&rules, &arc);
    let stated: Vec<_> = stated.iter().map(String::as_str).collect();
    put_record(&arc, &stated, sheet);
    let energies = [by_energy(sent, &arc, &stated, sheet), by_power(sent, &arc, &stated, sheet)];
    // Where length and travel speed disagree, either energy may be true.
    match energies.into_iter().flatten().map(Span::one).reduce(Span::hull) {
        Some(energy) => {
            let factor = ThermalFactor::of(sent.thermal_efficiency, sent.process);
            let notes: Vec<_> = disagreement(sent, &arc).into_iter().collect();
            put_heat_input("heat-input", factor, &energy, &notes, sheet);
        }
        None => sheet.absent("heat-input", "no arc energy can be computed from these values"),
    }
}

fn rules(sent: Option<&RecordRulesIn>) -> Result<RecordRules, QuantityError> {
    let take =
        |given: Option<Duration>, seconds| given.map_or_else(|| Duration::computed(seconds), Ok);
    let current = sent.and_then(|rules| rules.arc_on_current);
    let held = sent.and_then(|rules| rules.held_from_repeat);
    Ok(RecordRules {
        arc_on_current: current.map_or_else(|| Current::computed(ARC_ON_AMPERES), Ok)?,
        shortest_pause: take(sent.and_then(|rules| rules.shortest_pause), SHORTEST_PAUSE_SECONDS)?,
        arc_start: take(sent.and_then(|rules| rules.arc_start), 0.0)?,
        crater: take(sent.and_then(|rules| rules.crater), 0.0)?,
        held_from_repeat: held.and_then(|from| NonZeroUsize::new(usize::try_from(from).ok()?)),
    })
}

/// The rules in words. Their values are common practice, whoever chose them.
fn stated(rules: &RecordRules, arc: &RecordedArc) -> Vec<String> {
    let held = rules.held_from_repeat.map_or_else(
        || "every reading counts, also one that repeats the reading before".to_owned(),
        |from| format!("a reading repeated {from} times or more counts in time, not in power"),
    );
    vec![
        format!(
            "the arc burns from {} on; a pause below {} belongs to it (rules for what counts: common \
             practice, no source)",
            rules.arc_on_current, rules.shortest_pause
        ),
        format!(
            "left out: {} after each ignition, {} before each end",
            rules.arc_start, rules.crater
        ),
        held,
        format!("longest sample that counts: {}", arc.longest_sample),
    ]
}

fn put_record(arc: &RecordedArc, stated: &[&str], sheet: &mut Sheet) {
    sheet.one::<_, &str>("mean-arc-power", Ok(arc.mean_power), &SAMPLED_ENERGY, stated);
    sheet.one::<_, &str>("run-energy", Ok(arc.energy), &SAMPLED_ENERGY, stated);
    sheet.one::<_, &str>("arc-time", Ok(arc.arc_time), &SAMPLED_ENERGY, stated);
    sheet.one::<_, &str>("time-left-out", Ok(arc.excluded), &SAMPLED_ENERGY, stated);
    sheet.one::<_, &str>("time-of-held-readings", Ok(arc.held), &SAMPLED_ENERGY, stated);
    sheet.words("ignitions", vec![arc.ignitions.to_string()], &SAMPLED_ENERGY, stated);
}

/// The length that belongs to the energy, or why there is none.
fn length(sent: &HeatRecordIn, arc: &RecordedArc) -> Result<RunLength, String> {
    let nothing_left_out = arc.excluded.seconds() <= 0.0;
    match (sent.counted_length, sent.run_length) {
        (Some(length), _) => Ok(length),
        (None, Some(length)) if nothing_left_out => Ok(length),
        (None, Some(_)) => Err(format!(
            "{} of arc start and crater are left out, so the whole run's length does not belong to this \
             energy: give the counted length, or the travel speed",
            arc.excluded
        )),
        (None, None) => Err("the length of the run is missing".to_owned()),
    }
}

/// The travel speed as stated beside that of length and arc time, where the two disagree.
fn disagreement(sent: &HeatRecordIn, arc: &RecordedArc) -> Option<String> {
    let speed = travel_speed(length(sent, arc).ok()?, arc.arc_time).ok()?;
    let [stated, follows] = [sent.travel_speed?, speed].map(|speed| Given::set(Span::one(speed)));
    compared(Variable::TravelSpeed, Some(&stated), Some(&follows))?.disagreement()
}

/// Method B.
fn by_energy(
    sent: &HeatRecordIn,
    arc: &RecordedArc,
    stated: &[&str],
    sheet: &mut Sheet,
) -> Option<ArcEnergy> {
    let energy = length(sent, arc).and_then(|length| {
        arc_energy_from_energy(arc.energy, length).map_err(|error| error.to_string())
    });
    sheet.one("arc-energy-by-energy", energy.clone(), &ARC_ENERGY_FROM_ENERGY, stated);
    energy.ok()
}

/// Method C: over the travel speed where it is given, else over time and length.
fn by_power(
    sent: &HeatRecordIn,
    arc: &RecordedArc,
    stated: &[&str],
    sheet: &mut Sheet,
) -> Option<ArcEnergy> {
    let (energy, formula) = if let Some(speed) = sent.travel_speed {
        let energy = arc_energy_from_power(arc.mean_power, speed);
        (energy.map_err(|error| error.to_string()), &ARC_ENERGY_FROM_POWER)
    } else {
        let energy = length(sent, arc).and_then(|length| {
            arc_energy_from_power_and_time(arc.mean_power, arc.arc_time, length)
                .map_err(|error| error.to_string())
        });
        (energy, &ARC_ENERGY_FROM_POWER_AND_TIME)
    };
    sheet.one("arc-energy-by-power", energy.clone(), formula, stated);
    energy.ok()
}
