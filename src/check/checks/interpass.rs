//! `interpass`: interpass temperature against every recorded limit.

use crate::check::{
    Case, Findings, Variable,
    hottest::against_hottest,
    range_check::{Words, against_carried, against_limits},
    registry::declare_check,
};

declare_check! {
    /// ## Checks
    /// The interpass temperature lies inside the range of the procedure's run class and of every
    /// other record that limits it, ends included. The upper end is the maximum interpass
    /// temperature. The lower end is no lower than the same record's minimum preheat; a run of the
    /// procedure that sets none keeps to the lowest that its other runs set, and one that sets no maximum
    /// to the highest that its other runs set. A root and a single run have no run before them and so no
    /// interpass temperature; what the joint may have before them is the matter of the preheat. One that
    /// is stated for them nevertheless is held to the limits. Where no record ends the interpass temperature
    /// of structural steel, more
    /// than 550 °F (290 °C) is advised against.
    ///
    /// ## Why
    /// A joint that is still too hot cools too slowly after the next run: grain coarsens, strength
    /// and toughness fall.
    ///
    /// ## Source
    /// The ranges are records of the organisation. Maximum interpass temperature is an essential
    /// variable of ISO 15614-1:2017, 8.4.9 (clause from memory). "Minimum preheat and interpass
    /// temperature" is one limit in AWS D1.1 and in EN 1011-2 (from memory). 550 °F: AWS D1.8 (from
    /// memory).
    ///
    /// ## Not checked
    /// Where and when the temperature was read.
    "interpass", Interpass => check, TEXTS
}

const TEXTS: &[&str] = &{
    let (own, carried, usual) = (WORDS.texts(), CARRIED.texts(), USUAL.texts());
    [
        own[0], own[1], own[2], own[3], own[4], carried[0], carried[2], carried[3], carried[4],
        usual[1], usual[3],
    ]
};

const WORDS: Words = Words {
    variable: Variable::Interpass,
    below: "The joint cooled below the preheat between runs: the next run may crack.",
    above: "The next run meets metal that is too hot: coarse grain, lost strength and toughness.",
    raise: "Reheat the joint between runs to at least",
    lower: "Wait between runs until the joint is at most at",
    state: "State the interpass temperature.",
};

/// The lower end of the preheat, and the upper end of other runs.
const CARRIED: Words = Words {
    below: "The joint is colder than the minimum preheat when the next run starts: hydrogen stays, cold cracks follow.",
    raise: "Warm the joint before the next run; the minimum preheat holds between runs too, at least",
    lower: "Wait until the joint is as cool as the procedure's other runs need it, at most",
    state: "State the interpass temperature, which the minimum preheat holds for too.",
    ..WORDS
};

/// Only an upper end is advised.
const USUAL: Words = Words {
    above: "Structural steel is usually not welded on this hot: every run coarsens the one before it.",
    lower: "Wait longer between runs, or record the maximum that was tested; usual is at most",
    ..WORDS
};

fn check(case: &Case<'_>, findings: &mut Findings) {
    let stated = case.setup.settings.interpass.as_ref();
    against_limits(case, &CHECK, stated, |ranges| &ranges.interpass, &WORDS, findings);
    against_carried(case, &CHECK, &stated.into(), |of| &of.interpass, &CARRIED, findings);
    against_hottest(case, &CHECK, stated, &USUAL, findings);
}
