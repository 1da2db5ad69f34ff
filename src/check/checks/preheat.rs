//! `preheat`: preheat against every recorded limit.

use crate::check::{
    Case, Findings, Variable,
    range_check::{Words, against_limits},
    registry::declare_check,
};

declare_check! {
    /// ## Checks
    /// The preheat temperature lies inside the range of the procedure's run class and of every other
    /// record that limits it, ends included. The lower end is the minimum preheat.
    ///
    /// ## Why
    /// Preheat slows cooling, so that hydrogen can leave and the heat-affected zone stays soft enough.
    ///
    /// ## Source
    /// The ranges are records of the organisation. Minimum preheat is an essential variable of
    /// ISO 15614-1:2017, 8.4.8 (clause from memory) and of AWS D1.1 (2015, Table 4.6; from memory). What
    /// happens outside: EN 1011-2 on hydrogen cracking.
    ///
    /// ## Not checked
    /// Where and when the temperature was read, and whether the range suits steel and thickness.
    "preheat", Preheat => check, &WORDS.texts()
}

const WORDS: Words = Words {
    variable: Variable::Preheat,
    below: "Too cold: the weld cools too fast; hydrogen cracks in the heat-affected zone, often hours later.",
    above: "Too hot before the first run: the heat-affected zone softens or coarsens, toughness is lost.",
    raise: "Preheat to at least",
    lower: "Let the joint cool before welding, to at most",
    state: "State the preheat temperature.",
};

fn check(case: &Case<'_>, findings: &mut Findings) {
    let stated = case.setup.settings.preheat.as_ref();
    against_limits(case, &CHECK, stated, |ranges| &ranges.preheat, &WORDS, findings);
}
