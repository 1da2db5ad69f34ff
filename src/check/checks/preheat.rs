//! `preheat`: preheat against every recorded limit.

use crate::check::{
    Case, Findings, Variable,
    hottest::against_hottest,
    range_check::{Words, against_carried, against_limits},
    registry::declare_check,
};

declare_check! {
    /// ## Checks
    /// The preheat temperature lies inside the range of the procedure's run class and of every other
    /// record that limits it, ends included. The lower end is the minimum preheat; a run of the procedure
    /// that sets none keeps to the lowest that its other runs set. No run starts above the maximum
    /// interpass temperature of a record, so a stated preheat is not above it either; a run of the
    /// procedure that sets none keeps to the highest that its other runs set. Where no record
    /// ends the preheat of structural steel, more than 550 °F (290 °C) is advised against.
    ///
    /// ## Why
    /// Preheat slows cooling, so that hydrogen can leave and the heat-affected zone stays soft enough.
    ///
    /// ## Source
    /// The ranges are records of the organisation. Minimum preheat is an essential variable of
    /// ISO 15614-1:2017, 8.4.8 (clause from memory) and of AWS D1.1 (2015, Table 4.6; from memory). What
    /// happens outside: EN 1011-2 on hydrogen cracking. Interpass temperature: ISO 13916 (from memory).
    /// 550 °F: AWS D1.8 (from memory).
    ///
    /// ## Not checked
    /// Where and when the temperature was read, and whether the range suits steel and thickness.
    "preheat", Preheat => check, TEXTS
}

const TEXTS: &[&str] = &{
    let (own, carried, usual) = (WORDS.texts(), CARRIED.texts(), USUAL.texts());
    [own[0], own[1], own[2], own[3], own[4], carried[1], carried[2], carried[3], usual[1], usual[3]]
};

const WORDS: Words = Words {
    variable: Variable::Preheat,
    below: "Too cold: the weld cools too fast; hydrogen cracks in the heat-affected zone, often hours later.",
    above: "Too hot before the first run: the heat-affected zone softens or coarsens, toughness is lost.",
    raise: "Preheat to at least",
    lower: "Let the joint cool before welding, to at most",
    state: "State the preheat temperature.",
};

/// The upper end of the interpass temperature, and the lower end of other runs.
const CARRIED: Words = Words {
    above: "Its first run is welded above the maximum interpass temperature: coarse grain, lost strength, low \
            toughness.",
    raise: "Preheat this run as the procedure's other runs, to at least",
    lower: "Preheat less: no run starts above the maximum interpass temperature. Let the joint cool to at most",
    ..WORDS
};

/// Only an upper end is advised.
const USUAL: Words = Words {
    above: "Structural steel this hot loses strength and toughness next to the weld, and nobody has tested it so.",
    lower: "Preheat less, or record the maximum that was tested; usual is at most",
    ..WORDS
};

fn check(case: &Case<'_>, findings: &mut Findings) {
    let stated = case.setup.settings.preheat.as_ref();
    against_limits(case, &CHECK, stated, |ranges| &ranges.preheat, &WORDS, findings);
    against_carried(case, &CHECK, &stated.into(), |of| &of.preheat, &CARRIED, findings);
    against_hottest(case, &CHECK, stated, &USUAL, findings);
}
