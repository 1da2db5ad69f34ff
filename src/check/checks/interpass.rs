//! `interpass`: interpass temperature against every recorded limit.

use crate::check::{
    Case, Findings, Variable,
    range_check::{Words, against_limits},
    registry::declare_check,
};

declare_check! {
    /// ## Checks
    /// The interpass temperature lies inside the range of the procedure's run class and of every
    /// other record that limits it, ends included. The upper end is the maximum interpass
    /// temperature. A root and a single run have no run before them and so no interpass temperature.
    ///
    /// ## Why
    /// A joint that is still too hot cools too slowly after the next run: grain coarsens, strength
    /// and toughness fall.
    ///
    /// ## Source
    /// The ranges are records of the organisation. Maximum interpass temperature is an essential
    /// variable of ISO 15614-1:2017, 8.4.9 (clause from memory).
    ///
    /// ## Not checked
    /// Where and when the temperature was read.
    "interpass", Interpass => check, &WORDS.texts()
}

const WORDS: Words = Words {
    variable: Variable::Interpass,
    below: "The joint cooled below the preheat between runs: the next run may crack.",
    above: "The next run meets metal that is too hot: coarse grain, lost strength and toughness.",
    raise: "Reheat the joint between runs to at least",
    lower: "Wait between runs until the joint is at most at",
    state: "State the interpass temperature.",
};

fn check(case: &Case<'_>, findings: &mut Findings) {
    let stated = case.setup.settings.interpass.as_ref();
    against_limits(case, &CHECK, stated, |ranges| &ranges.interpass, &WORDS, findings);
}
