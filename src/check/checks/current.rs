//! `current`: welding current against every recorded limit.

use crate::check::{
    Case, Findings, Variable,
    range_check::{Words, against_limits},
    registry::declare_check,
};

declare_check! {
    /// ## Checks
    /// The welding current lies inside the range of the procedure's run class, the consumable's
    /// printed data, the station's output and the work order, ends included.
    ///
    /// ## Why
    /// Current governs penetration and melting rate. On constant-voltage wire processes it follows
    /// from wire feed and stick-out, so a current outside its range usually means that one of these
    /// is wrong.
    ///
    /// ## Source
    /// The ranges are records of the organisation. Current is an essential variable of AWS D1.1
    /// (2015, Table 4.5) and enters the heat input of ISO 15614-1:2017, 8.4.7.
    ///
    /// ## Not checked
    /// Whether feed and stick-out can produce this current.
    "current", Current => check, &WORDS.texts()
}

const WORDS: Words = Words {
    variable: Variable::Current,
    below: "Too little current: shallow penetration, lack of fusion, a cold and ropy bead.",
    above: "Too much current: burn-through, undercut, a hot puddle that sags out of position.",
    raise: "Raise the current to at least",
    lower: "Lower the current to at most",
    state: "State the welding current.",
};

fn check(case: &Case<'_>, findings: &mut Findings) {
    let current = case.setup.settings.current.as_ref();
    against_limits(case, &CHECK, current, |ranges| &ranges.current, &WORDS, findings);
}
