//! `spool`: mass of the spool against the station's feeder.

use crate::{
    check::{
        Authority, Case, Findings, Force, Given, Limit, Origin, Variable,
        range_check::{Stated, Words, against, not_applicable},
        registry::declare_check,
    },
    quantity::{Mass, MassKind, Range, Span},
};

declare_check! {
    /// ## Checks
    /// The spool is no heavier than the station's feeder takes. Where the setup does not state the
    /// spool, every size the consumable is bought on has to fit.
    ///
    /// ## Why
    /// Too heavy a spool does not fit the hub or drags on the feeder's brake.
    ///
    /// ## Source
    /// The station and the consumable on record. What happens otherwise: common practice, no source.
    ///
    /// ## Not checked
    /// Outer diameter and hub of the spool.
    "spool", Spool => check, &WORDS.texts()
}

const WORDS: Words = Words {
    variable: Variable::Spool,
    below: "The spool is lighter than the feeder takes.",
    above: "The spool does not fit the feeder or drags on it: uneven feed and burn-back.",
    raise: "Mount a spool of at least",
    lower: "Mount a lighter spool, at most",
    state: "State the mass of the spool.",
};

fn check(case: &Case<'_>, findings: &mut Findings) {
    let process = case.procedure.process;
    if !process.has_wire_feed() {
        return not_applicable(findings, &CHECK, || format!("Process {process} has no spool."));
    }
    let Some(station) = case.station else {
        return not_applicable(findings, &CHECK, || "No station on record is named.");
    };
    let Some(heaviest) = station.heaviest_spool else {
        return not_applicable(findings, &CHECK, || {
            format!("The record of station {} names no heaviest spool.", station.code)
        });
    };
    let source = Authority::Station(station).into();
    let range = Range::at_most(heaviest);
    let limit = Limit { range: &range, source, force: Force::Required };
    let given = spool_of(case);
    let stated = given.as_ref().map_or(
        Stated::Missing("Neither the setup nor the consumable says how heavy the spool is"),
        Stated::Known,
    );
    against(findings, &CHECK, &stated, &limit, &WORDS);
}

/// The spool stated, else all sizes the consumable is bought on.
fn spool_of(case: &Case<'_>) -> Option<Given<MassKind>> {
    let sizes = || case.consumable.into_iter().flat_map(|c| c.spools.iter().copied());
    let on_record = || Span::new(sizes().reduce(Mass::min)?, sizes().reduce(Mass::max)?).ok();
    let span = case.setup.filler.spool.map(Span::one).or_else(on_record)?;
    Some(Given { origin: Origin::Nominal, ..Given::set(span) })
}
