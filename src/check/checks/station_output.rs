//! `station-output`: current and volts against the rating of power source and gun.

use crate::{
    check::{
        Authority, Case, Findings, Force, Limit, Mark, Outcome, Shown, Told, Variable,
        range_check::{Stated, Words, against, not_applicable},
        record::Station,
        registry::declare_check,
    },
    quantity::{Current, Range, Share},
};

declare_check! {
    /// ## Checks
    /// The current lies at or below the highest rated current of the station's power source and at
    /// or below the rated current of its gun. As advice: the current lies at or below what the source
    /// carries for the share of arc time that the job states, else all the time (100 % duty), and the
    /// volts at or below the highest rated load voltage.
    ///
    /// ## Why
    /// Above its rating a power source trips or is damaged, and a gun burns the hand that holds it.
    /// Above the current of a duty cycle the welder has to pause longer than planned.
    ///
    /// ## Source
    /// The rating plate on record (IEC 60974-1: rated current at a duty cycle of a ten-minute period;
    /// IEC 60974-7 for guns; both from memory). Between two points of the plate constant heating, from
    /// memory; beyond them nothing.
    ///
    /// ## Not checked
    /// The duty cycle of the gun. What the source and feeder can be set to is judged with current,
    /// voltage and wire feed. Several electrodes on one source: the current stated is that of each.
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

const SHARE: Words = Words {
    variable: Variable::Current,
    below: "The power source can carry this current for a larger share of arc time.",
    above: "At this share of arc time the power source gets too hot: it trips in the middle of a run.",
    raise: "For this share of arc time use the power source from a current of",
    lower: "Plan more pauses, or for this share of arc time stay at a current of at most",
    state: "State the current, to compare it with the duty cycle of the power source.",
};

/// Where the plate says nothing of the share.
const NO_POINT: &str = "Record a point of the rating plate with at least this share, or state a smaller one in \
                        job.arc_on_share.";

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
    const D: [&str; 5] = SHARE.texts();
    const G: [&str; 5] = GUN.texts();
    const L: [&str; 5] = LOAD.texts();
    &[
        S[0], S[1], S[2], S[3], S[4], D[0], D[1], D[2], D[3], D[4], NO_POINT, C[0], C[1], C[2],
        C[3], C[4], G[0], G[1], G[2], G[3], G[4], L[0], L[1], L[2], L[3], L[4],
    ]
};

fn check(case: &Case<'_>, findings: &mut Findings) {
    let Some(station) = case.station else {
        return not_applicable(findings, &CHECK, || "No station on record is named.");
    };
    let source = Authority::Station(station).into();
    let settings = &case.setup.settings;
    let arc_on = case.setup.job.arc_on_share;
    let mut any = false;
    if !station.rated.is_empty() && station.lasting_current(arc_on).is_none() {
        no_point(findings, station, arc_on);
        any = true;
    }
    for (highest, force, words) in current_limits(station, arc_on) {
        let range = Range::at_most(highest);
        let limit = Limit { range: &range, source, force };
        against(findings, &CHECK, &settings.current.as_ref().into(), &limit, words);
        any = true;
    }
    if let Some((highest, volts)) = station.rated_voltage().zip(settings.voltage.as_ref()) {
        let range = Range::at_most(highest);
        let limit = Limit { range: &range, source, force: Force::Advised };
        against(findings, &CHECK, &Stated::Known(volts), &limit, &LOAD);
        any = true;
    }
    if !any {
        not_applicable(findings, &CHECK, || {
            format!("The record of station {} has no rating.", station.code)
        });
    }
}

/// That the plate has no point for the share of arc time: what the source carries then is not known.
fn no_point(findings: &mut Findings, station: &Station, arc_on: Option<Share>) {
    let mark = Mark {
        check: CHECK.code,
        variable: CHECK.variable,
        outcome: Outcome::NoLimit,
        force: Force::Advised,
        accuracy_unknown: false,
    };
    let reason = || {
        let unstated = "The job does not state its share of arc time, so that the arc counts as burning all the time";
        let asked = arc_on.map_or_else(
            || unstated.to_owned(),
            |share| format!("The job's share of arc time is {share}"),
        );
        let why = arc_on.and_then(|share| station.current_at(share).err());
        let why = why.map_or_else(String::new, |why| format!(": {why}"));
        format!("{asked}; the plate of station {} does not reach it{why}.", station.code)
    };
    findings.note(mark, || Told {
        given: arc_on.map_or(Shown::Nothing, |share| Shown::Amount(share.amount())),
        allowed: Shown::Nothing,
        owner: Authority::Station(station).owner(),
        reason: reason(),
        remedy: Some(NO_POINT.to_owned()),
        consequence: None,
    });
}

/// Limits on the current, the hardest first; what the source carries all the time where the job states
/// no share of arc time.
fn current_limits(
    station: &Station,
    arc_on: Option<Share>,
) -> impl Iterator<Item = (Current, Force, &'static Words)> {
    let words = if arc_on.is_some() { &SHARE } else { &CONTINUOUS };
    [
        station.rated_current().map(|highest| (highest, Force::Required, &SOURCE)),
        station.gun.map(|gun| (gun.current, Force::Required, &GUN)),
        station.lasting_current(arc_on).map(|highest| (highest, Force::Advised, words)),
    ]
    .into_iter()
    .flatten()
}
