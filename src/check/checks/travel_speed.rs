//! `travel-speed`: travel speed against every recorded limit.

use crate::check::{
    Case, Findings, Variable,
    range_check::{Words, against_limits},
    registry::declare_check,
};

declare_check! {
    /// ## Checks
    /// The travel speed lies inside the range of the procedure's run class and of every other record
    /// that limits it, ends included. Where a travel speed is stated and run length and arc time give
    /// another one, both have to lie inside.
    ///
    /// ## Why
    /// Travel speed governs heat per length, the size of the bead and whether slag stays behind the
    /// arc. It is the setting a hand holds least well.
    ///
    /// ## Source
    /// The ranges are records of the organisation. Travel speed is an essential variable of AWS D1.1
    /// (2015, Table 4.5) and enters the heat input of ISO 15614-1:2017, 8.4.7. What happens outside:
    /// common practice, no source.
    ///
    /// ## Not checked
    /// How evenly the speed is held, and the path of a weave: the speed counts along the joint.
    "travel-speed", TravelSpeed => check, &WORDS.texts()
}

const WORDS: Words = Words {
    variable: Variable::TravelSpeed,
    below: "Travelling too slowly: the puddle runs ahead of the arc and rolls over cold metal, slag is trapped, heat input grows.",
    above: "Travelling too fast: a thin bead with undercut and too little throat; it cools fast.",
    raise: "Travel faster, at least",
    lower: "Travel slower, at most",
    state: "State the travel speed, or run length and arc time.",
};

fn check(case: &Case<'_>, findings: &mut Findings) {
    let stated = case.readings.travel_speed.as_ref();
    against_limits(case, &CHECK, stated, |ranges| &ranges.travel_speed, &WORDS, findings);
}
