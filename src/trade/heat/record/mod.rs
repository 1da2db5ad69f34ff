//! A sampled record of an arc: which of it counts, and the energy of that part.

use crate::{
    quantity::{Current, Duration, Energy, Power, QuantityError, Voltage},
    trade::formula,
};

formula! {
    /// Energy of a sampled record.
    pub const SAMPLED_ENERGY {
        name: "sampled-energy",
        equation: "IE = sum of U_i * I_i * dt_i; IP = IE / t; U in V, I in A, dt and t in s, IE in J, \
                   IP in W",
        source: "ISO/TR 18491:2015, methods B and C; sums as printed in J. Braz. Soc. Mech. Sci. Eng. \
                 2021, doi 10.1007/s40430-021-03317-6, eqs. 1 to 4",
        validity: "voltage and current of one instant each; a waveform-controlled output needs some \
                   10 000 samples per second (Melfi, Welding Journal, June 2010, p. 61 to 63)",
        confidence: Secondary,
    }
}

/// One reading, held to be true for its duration.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sample {
    /// Voltage, signed for alternating current.
    pub voltage: Voltage,
    /// Current, signed for alternating current.
    pub current: Current,
    /// Time until the next reading.
    pub duration: Duration,
}

/// Which samples of a record count. Values: common practice, no source; they belong into the answer.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RecordRules {
    /// The arc burns while the current, whatever its sign, is at least this. Voltage does not
    /// gate: during a short circuit it is near zero and the energy still counts.
    pub arc_on_current: Current,
    /// A pause shorter than this between two arc-on samples belongs to the arc (zero crossing of
    /// alternating current, base of a pulse); a pause of this length or more ends it.
    pub shortest_pause: Duration,
    /// Left out after every ignition.
    pub arc_start: Duration,
    /// Left out before every end of the arc.
    pub crater: Duration,
    /// A reading that repeats the one before, volts and amps both, this many times in a row is held
    /// by the logger: its time counts, its power does not. `None` keeps every reading.
    pub held_from_repeat: Option<std::num::NonZeroUsize>,
}

/// What a record says about the part that counts.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RecordedArc {
    /// Mean power times arc time.
    pub energy: Energy,
    /// Mean power of all readings that are not held.
    pub mean_power: Power,
    /// Time that counts.
    pub arc_time: Duration,
    /// Arc time left out as arc start or crater. If this is not zero, divide by the length welded
    /// in `arc_time`, or use power and travel speed: never by the whole length of the run.
    pub excluded: Duration,
    /// Part of `arc_time` with held readings.
    pub held: Duration,
    /// Longest sample that counts; says whether the record is fine enough for the waveform.
    pub longest_sample: Duration,
    /// Ignitions, those included that were too short to leave anything.
    pub ignitions: usize,
}

/// Why a record has no energy.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum RecordError {
    /// A sample lasts no time, or less.
    #[error("sample {index} does not last longer than 0 s")]
    NoDuration {
        /// Its place in the record, from zero.
        index: usize,
    },
    /// The current never reached the arc-on threshold.
    #[error("the current never reached the {threshold} from which the arc counts as burning")]
    NoArc {
        /// The threshold.
        threshold: Current,
    },
    /// Arc start and crater leave nothing.
    #[error("arc start and crater leave nothing of {ignitions} arc(s)")]
    NothingLeft {
        /// Arcs found.
        ignitions: usize,
    },
    /// Every reading that counts is held.
    #[error("every reading that counts repeats an earlier one, so no power was measured")]
    AllHeld,
    /// Voltage and current have opposite signs on the whole: no arc gives power back.
    #[error("the mean power is not above zero; one of the two probes is reversed or dead")]
    NoPower,
    /// The result is no number.
    #[error(transparent)]
    Quantity(#[from] QuantityError),
}

/// Sums that grow sample by sample.
#[derive(Default)]
struct Sums {
    fresh_energy: f64,
    fresh_time: f64,
    held: f64,
    excluded: f64,
    longest: f64,
}

/// Energy, mean power and arc time of a record by [`SAMPLED_ENERGY`] and the rules given.
///
/// A sample that arc start or crater cuts counts for the part outside them.
///
/// # Errors
/// [`RecordError`].
pub fn recorded_arc(samples: &[Sample], rules: &RecordRules) -> Result<RecordedArc, RecordError> {
    if let Some(index) = samples.iter().position(|sample| sample.duration.seconds() <= 0.0) {
        return Err(RecordError::NoDuration { index });
    }
    let arcs = arcs(samples, rules);
    if arcs.is_empty() {
        return Err(RecordError::NoArc { threshold: rules.arc_on_current });
    }
    let held = held(samples, rules);
    let mut sums = Sums::default();
    for arc in &arcs {
        add_arc(&mut sums, &samples[arc.clone()], &held[arc.clone()], rules);
    }
    let arc_time = sums.fresh_time + sums.held;
    if arc_time <= 0.0 {
        return Err(RecordError::NothingLeft { ignitions: arcs.len() });
    }
    if sums.fresh_time <= 0.0 {
        return Err(RecordError::AllHeld);
    }
    let mean_power = sums.fresh_energy / sums.fresh_time;
    if mean_power <= 0.0 {
        return Err(RecordError::NoPower);
    }
    Ok(RecordedArc {
        energy: Energy::computed(mean_power * arc_time)?,
        mean_power: Power::computed(mean_power)?,
        arc_time: Duration::computed(arc_time)?,
        excluded: Duration::computed(sums.excluded)?,
        held: Duration::computed(sums.held)?,
        longest_sample: Duration::computed(sums.longest)?,
        ignitions: arcs.len(),
    })
}

/// Index ranges of the arcs, from first to last arc-on sample, short pauses included.
fn arcs(samples: &[Sample], rules: &RecordRules) -> Vec<std::ops::Range<usize>> {
    let threshold = rules.arc_on_current;
    let mut arcs: Vec<std::ops::Range<usize>> = Vec::new();
    let mut pause = 0.0;
    for (index, sample) in samples.iter().enumerate() {
        let burns = Current::computed(sample.current.amperes().abs())
            .is_ok_and(|amperes| amperes.at_least(threshold));
        if !burns {
            pause += sample.duration.seconds();
            continue;
        }
        match arcs.last_mut() {
            Some(arc) if pause < rules.shortest_pause.seconds() => arc.end = index + 1,
            _ => arcs.push(index..index + 1),
        }
        pause = 0.0;
    }
    arcs
}

/// For each sample, whether the logger held it.
fn held(samples: &[Sample], rules: &RecordRules) -> Vec<bool> {
    let mut repeats = 0;
    let mut previous: Option<&Sample> = None;
    let mut marks = Vec::with_capacity(samples.len());
    for sample in samples {
        let same = |old: &Sample| old.voltage == sample.voltage && old.current == sample.current;
        repeats = if previous.is_some_and(same) { repeats + 1 } else { 0 };
        marks.push(rules.held_from_repeat.is_some_and(|from| repeats >= from.get()));
        previous = Some(sample);
    }
    marks
}

fn add_arc(sums: &mut Sums, samples: &[Sample], held: &[bool], rules: &RecordRules) {
    let whole: f64 = samples.iter().map(|sample| sample.duration.seconds()).sum();
    let (from, to) = (rules.arc_start.seconds(), whole - rules.crater.seconds());
    let mut at = 0.0_f64;
    let mut counted = 0.0;
    for (sample, held) in samples.iter().zip(held) {
        let end = at + sample.duration.seconds();
        let part = end.min(to) - at.max(from);
        at = end;
        if part <= 0.0 {
            continue;
        }
        counted += part;
        sums.longest = sums.longest.max(sample.duration.seconds());
        if *held {
            sums.held += part;
        } else {
            sums.fresh_time += part;
            sums.fresh_energy += sample.voltage.volts() * sample.current.amperes() * part;
        }
    }
    sums.excluded += whole - counted;
}

#[cfg(test)]
mod tests;
