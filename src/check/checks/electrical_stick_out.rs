//! `electrical-stick-out`: electrical stick-out against every recorded limit.

use crate::check::{
    Case, Findings, Variable,
    range_check::{Words, against_limits},
    registry::declare_check,
};

declare_check! {
    /// ## Checks
    /// The electrical stick-out, from contact tip to work with the recess of the tip counted, lies
    /// inside the range of the procedure's run class, the consumable's printed data and the work order,
    /// ends included. It is taken as stated and from visible stick-out and tip recess; where both are
    /// there, both have to lie inside.
    ///
    /// ## Why
    /// The length of wire that carries current is heated before it melts. A longer one takes current
    /// and penetration from the arc; a short one overheats the tip and, on self-shielded wire, leaves
    /// the core no time to form its gas.
    ///
    /// ## Source
    /// The ranges are records of the organisation. ISO 15609-1:2019 lists the stick-out of processes
    /// 13x. What happens outside: common practice, no source.
    ///
    /// ## Not checked
    /// The visible stick-out alone: without the recess of the tip it says nothing of the electrical one.
    "electrical-stick-out", StickOut => check, &WORDS.texts()
}

const WORDS: Words = Words {
    variable: Variable::StickOut,
    below: "Too short a stick-out: the contact tip overheats, current climbs, spatter clogs the nozzle.",
    above: "Too long a stick-out: current and penetration fall, the gas thins out over the puddle; porosity.",
    raise: "Hold the contact tip further away, at least",
    lower: "Hold the contact tip nearer, at most",
    state: "State the electrical stick-out, or the visible stick-out and the recess of the contact tip.",
};

fn check(case: &Case<'_>, findings: &mut Findings) {
    let stated = case.readings.stick_out.as_ref();
    against_limits(case, &CHECK, stated, |ranges| &ranges.stick_out, &WORDS, findings);
}
