//! `travel-angle`: travel angle against every recorded limit.

use crate::check::{
    Case, Findings, Variable,
    range_check::{Words, against_limits},
    registry::declare_check,
};

declare_check! {
    /// ## Checks
    /// The travel angle lies inside the range of the procedure's run class and of every other record
    /// that limits it, ends included. Drag is positive, push negative.
    ///
    /// ## Why
    /// The angle decides whether the arc force holds the puddle back or drives it ahead, and so how
    /// deep it penetrates and where the slag goes.
    ///
    /// ## Source
    /// The ranges are records of the organisation; travel angle as in AWS A3.0 (definition from
    /// memory). What happens outside: common practice, no source.
    ///
    /// ## Not checked
    /// How steadily the angle is held; what the trade usually does, which is `common-practice`.
    "travel-angle", TravelAngle => check, &WORDS.texts()
}

const WORDS: Words = Words {
    variable: Variable::TravelAngle,
    below: "Too much push, or too little drag: slag and puddle roll ahead of the arc and are buried.",
    above: "Too much drag: a narrow, high bead; the arc gouges the toes and the gas blows past the puddle.",
    raise: "Turn the gun towards drag, at least",
    lower: "Turn the gun towards push, at most",
    state: "State the travel angle, drag or push.",
};

fn check(case: &Case<'_>, findings: &mut Findings) {
    let stated = case.setup.settings.travel_angle.as_ref();
    against_limits(case, &CHECK, stated, |ranges| &ranges.travel_angle, &WORDS, findings);
}
