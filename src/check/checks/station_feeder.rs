//! `station-feeder`: wire diameter against the rolls of the station's feeder.

use crate::check::{
    Authority, Case, Findings, Force,
    choice_check::{Rule, Words, texts},
    range_check::not_applicable,
    registry::declare_check,
};

declare_check! {
    /// ## Checks
    /// The nominal wire diameter is one that the rolls of the station's feeder take. `0.045 in` and
    /// `1.2 mm` are two sizes here, as they are on rolls and tips.
    ///
    /// ## Why
    /// Rolls of another size slip or crush the wire, and a cored wire that is crushed jams.
    ///
    /// ## Source
    /// The station on record. What happens otherwise: common practice, no source.
    ///
    /// ## Not checked
    /// Contact tip, liner and kind of groove. The feed span of the feeder is judged by `wire-feed`.
    "station-feeder", Diameter => check, texts!(WORDS)
}

const WORDS: Words = Words {
    consequence: Some("The rolls slip or crush the wire: the feed stutters and the arc with it."),
    change: Some("Fit other rolls and record them, or use a wire of"),
    state: Some("State the wire diameter the feeder has to take."),
    ..Words::NONE
};

fn check(case: &Case<'_>, findings: &mut Findings) {
    let process = case.procedure.process;
    if !process.has_wire_feed() {
        let reason = || format!("Process {process} has no wire feeder.");
        return not_applicable(findings, &CHECK, reason);
    }
    let Some(station) = case.station else {
        return not_applicable(findings, &CHECK, || "No station on record is named.");
    };
    if station.diameters.is_empty() {
        return not_applicable(findings, &CHECK, || {
            format!("The record of station {} names no rolls.", station.code)
        });
    }
    let source = Authority::Station(station).into();
    let rule = Rule { check: &CHECK, source, force: Force::Required, words: &WORDS };
    rule.one_of(findings, case.setup.filler.diameter, &station.diameters);
}
