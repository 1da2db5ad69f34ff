//! `work-angle`: work angle against every recorded limit.

use crate::check::{
    Case, Findings, Variable,
    range_check::{Words, against_limits},
    registry::declare_check,
};

declare_check! {
    /// ## Checks
    /// The work angle lies inside the range of the procedure's run class and of every other record
    /// that limits it, ends included.
    ///
    /// ## Why
    /// The work angle shares the heat between the two parts. A fillet that gets it wrong has one long
    /// and one short leg.
    ///
    /// ## Source
    /// The ranges are records of the organisation; work angle as in AWS A3.0 (definition from memory).
    /// What happens outside: common practice, no source.
    ///
    /// ## Not checked
    /// To which part the angle was measured; the procedure has to say so.
    "work-angle", WorkAngle => check, &WORDS.texts()
}

const WORDS: Words = Words {
    variable: Variable::WorkAngle,
    below: "Too small a work angle: the arc favours one part, the other is hardly fused.",
    above: "Too large a work angle: metal piles up on one leg, the other part is undercut.",
    raise: "Open the work angle to at least",
    lower: "Close the work angle to at most",
    state: "State the work angle.",
};

fn check(case: &Case<'_>, findings: &mut Findings) {
    let stated = case.setup.settings.work_angle.as_ref();
    against_limits(case, &CHECK, stated, |ranges| &ranges.work_angle, &WORDS, findings);
}
