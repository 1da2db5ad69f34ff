//! `station-output`: current and volts against the rating of power source and gun.

use crate::{
    check::{
        Authority, Case, Findings, Force, Limit, Variable,
        range_check::{Stated, Words, against, not_applicable},
        record::Station,
        registry::declare_check,
    },
    quantity::{Current, Range},
};

declare_check! {
    /// ## Checks
    /// The current lies at or below the highest rated current of the station's power source and at
    /// or below the rated current of its gun. As advice: the current lies at or below the point that
    /// the source carries all the time (100 % duty), and the volts at or below the highest rated load
    /// voltage.
    ///
    /// ## Why
    /// Above its rating a power source trips or is damaged, and a gun burns the hand that holds it.
    /// Above the 100 % point the welder has to pause.
    ///
    /// ## Source
    /// The rating plate on record (IEC 60974-1: rated current at a duty cycle of a ten-minute period;
    /// IEC 60974-7 for guns; both from memory).
    ///
    /// ## Not checked
    /// Duty cycle: the share of arc time in a job is not known here. What the source and feeder can
    /// be set to is judged with current, voltage and wire feed.
    "station-output", Station => check, TEXTS
}

const SOURCE: Words = Words {
    variable: Variable::Current,
    below: "The power source is larger than this current needs.",
    above: "The power source is overloaded: it trips in the middle of a run or is damaged.",
    raise: "Use this power source for a current of at least",
    lower: "Take a larger power source, or lower the current to what this one is rated for, at most",
    state: "State the current that the power source has to give.",
};

const CONTINUOUS: Words = Words {
    variable: Variable::Current,
    below: "The power source can carry this current all the time.",
    above: "The power source cannot carry this current all the time: it needs pauses to cool.",
    raise: "Keep the load of the power source at least at",
    lower: "Plan pauses by the duty cycle on the rating plate, or stay at a current of at most",
    state: "State the current, to compare it with what the power source carries all the time.",
};

const GUN: Words = Words {
    variable: Variable::Current,
    below: "The gun is larger than this current needs.",
    above: "The gun overheats: handle, cable and contact tip suffer, the wire feeds badly.",
    raise: "Use this gun for a current of at least",
    lower: "Take a larger gun, or lower the current to what this gun is rated for, at most",
    state: "State the current that the gun has to carry.",
};

const LOAD: Words = Words {
    variable: Variable::Voltage,
    below: "The power source is rated for more volts under load.",
    above: "The power source may not hold these volts under load; the arc goes out when it lengthens.",
    raise: "Use this power source for volts of at least",
    lower: "Take a power source rated for these volts, or stay at rated load volts of at most",
    state: "State the volts that the power source has to hold.",
};

const TEXTS: &[&str] = {
    const S: [&str; 5] = SOURCE.texts();
    const C: [&str; 5] = CONTINUOUS.texts();
    const G: [&str; 5] = GUN.texts();
    const L: [&str; 5] = LOAD.texts();
    &[
        S[0], S[1], S[2], S[3], S[4], C[0], C[1], C[2], C[3], C[4], G[0], G[1], G[2], G[3], G[4],
        L[0], L[1], L[2], L[3], L[4],
    ]
};

fn check(case: &Case<'_>, findings: &mut Findings) {
    let Some(station) = case.station else {
        return not_applicable(findings, &CHECK, || "No station on record is named.");
    };
    let source = Authority::Station(station).into();
    let settings = &case.setup.settings;
    let mut any = false;
    for (highest, force, words) in current_limits(station) {
        let limit = Limit { range: Range::at_most(highest), source, force };
        against(findings, &CHECK, &settings.current.as_ref().into(), &limit, words);
        any = true;
    }
    if let Some((highest, volts)) = station.rated_voltage().zip(settings.voltage.as_ref()) {
        let limit = Limit { range: Range::at_most(highest), source, force: Force::Advised };
        against(findings, &CHECK, &Stated::Known(volts), &limit, &LOAD);
        any = true;
    }
    if !any {
        not_applicable(findings, &CHECK, || {
            format!("The record of station {} has no rating.", station.code)
        });
    }
}

/// Limits on the current, the hardest first.
fn current_limits(station: &Station) -> impl Iterator<Item = (Current, Force, &'static Words)> {
    [
        station.rated_current().map(|highest| (highest, Force::Required, &SOURCE)),
        station.gun.map(|gun| (gun.current, Force::Required, &GUN)),
        station.continuous_current().map(|highest| (highest, Force::Advised, &CONTINUOUS)),
    ]
    .into_iter()
    .flatten()
}
