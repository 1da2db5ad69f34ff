//! `heat-input`: arc energy and heat input, each against the limits on its own basis.

use std::cmp::Ordering;

use crate::{
    check::{
        Case, Computed, Finding, Findings, Missing, Outcome, Shown, Variable,
        range_check::{Stated, Words, against_limits},
        registry::declare_check,
    },
    quantity::{Kind, Rounding, TravelSpeed},
    trade::{ARC_ENERGY_FROM_AVERAGES, ARC_ENERGY_FROM_POWER},
};

declare_check! {
    /// ## Checks
    /// The computed arc energy lies inside every recorded limit on arc energy, and the computed heat
    /// input inside every recorded limit on heat input, ends included. The two are never compared
    /// with each other: a limit of a US code under the name of heat input is a limit on arc energy
    /// here. A stated figure is not taken for a computed one. Power or energy of the run that is stated and
    /// that nobody measured does not replace volts times amps: a limit then holds for both.
    ///
    /// ## Why
    /// Energy per length governs how fast the joint cools, and so hardness, strength and toughness.
    ///
    /// ## Source
    /// The ranges are records of the organisation. Arc energy: ISO/TR 18491:2015, methods A, B and
    /// C; heat input with the thermal efficiency of EN 1011-1:2009, Table 1; which basis counts:
    /// ISO 15614-1:2017, 8.4.7, and ASME IX QW-409.1 without efficiency (all read in texts that quote
    /// them). Waveform-controlled output: methods B and C only. Several
    /// electrodes: power or energy of all together, as the arcs of one pool add up (from memory); volts times
    /// amps of one of them is never taken for it.
    ///
    /// ## Not checked
    /// Cooling time. Whether the arcs of several electrodes feed one pool.
    "heat-input", HeatInput => check, TEXTS
}

const ARC_ENERGY: Words = Words {
    variable: Variable::ArcEnergy,
    below: "Too little arc energy: the run cools fast; lack of fusion and hard, crack-prone zones.",
    above: "Too much arc energy: the run cools slowly; toughness and strength fall.",
    raise: "Travel slower or weld with more power, for an arc energy of at least",
    lower: "Travel faster or weld with less power, for an arc energy of at most",
    state: "State volts, amps and travel speed; for waveform-controlled output measured power or energy, for \
            several electrodes that of all.",
};

const HEAT_INPUT: Words = Words {
    variable: Variable::HeatInput,
    below: "Too little heat input: the heat-affected zone cools fast, hardens and may crack.",
    above: "Too much heat input: coarse grain in the heat-affected zone, toughness and strength fall.",
    raise: "Travel slower or weld with more power, for a heat input of at least",
    lower: "Travel faster or weld with less power, for a heat input of at most",
    state: "State process, volts, amps and travel speed; for waveform-controlled output measured power or energy, \
            for several electrodes that of all.",
};

const TEXTS: &[&str] = {
    const A: [&str; 5] = ARC_ENERGY.texts();
    const H: [&str; 5] = HEAT_INPUT.texts();
    &[A[0], A[1], A[2], A[3], A[4], H[0], H[1], H[2], H[3], H[4]]
};

fn check(case: &Case<'_>, findings: &mut Findings) {
    let earlier = findings.told().len();
    let arc_energy = stated(&case.readings.arc_energy);
    against_limits(case, &CHECK, arc_energy, |ranges| &ranges.arc_energy, &ARC_ENERGY, findings);
    let heat_input = stated(&case.readings.heat_input);
    against_limits(case, &CHECK, heat_input, |ranges| &ranges.heat_input, &HEAT_INPUT, findings);
    for finding in findings.told_since(earlier) {
        if let Some((speed, words)) = speed_needed(case, finding)
            && let Some(remedy) = &mut finding.remedy
        {
            let change = remedy.trim_end_matches('.');
            *remedy = format!("{change}; with this power travel at {speed} or {words}.");
        }
    }
}

/// Travel speed that brings a refused energy to its limit while the power stays: energy per length
/// falls as the speed grows. Nothing where the energy was not computed from power and speed.
fn speed_needed(case: &Case<'_>, finding: &Finding) -> Option<(String, &'static str)> {
    let formula = case.readings.arc_energy.as_ref().ok()?.formula;
    let speed = case.readings.travel_speed.as_ref()?;
    let Shown::Range(allowed) = &finding.allowed else { return None };
    let (low, high) = match &finding.given {
        Shown::Amount(one) => (*one, *one),
        Shown::Range(range) => (range.min?, range.max?),
        _ => return None,
    };
    let from_speed = [ARC_ENERGY_FROM_AVERAGES.name, ARC_ENERGY_FROM_POWER.name];
    if !from_speed.contains(&formula.name)
        || !matches!(finding.outcome, Outcome::Outside | Outcome::EdgeOutside)
    {
        return None;
    }
    let too_high = allowed.max.filter(|max| high.compare(*max).is_some_and(Ordering::is_gt));
    let (from, factor, rounding, words) = match (too_high, allowed.min) {
        (Some(max), _) => {
            (speed.span.low(), high.canonical() / max.canonical(), Rounding::Up, "faster")
        }
        (None, Some(min)) => {
            (speed.span.high(), low.canonical() / min.canonical(), Rounding::Down, "slower")
        }
        (None, None) => return None,
    };
    let needed = TravelSpeed::computed(from.canonical() * factor).ok()?;
    let system = from.as_entered().and_then(|typed| typed.unit.system);
    let (number, unit) = needed.amount().written_rounded(system, rounding);
    Some((format!("{number} {}", unit.symbol), words))
}

fn stated<K: Kind>(computed: &Result<Computed<K>, Missing>) -> Stated<'_, K> {
    match computed {
        Ok(computed) => Stated::Known(&computed.given),
        Err(missing) => Stated::Missing(missing.0),
    }
}
