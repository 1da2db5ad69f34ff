//! `voltage`: arc voltage against every recorded limit.

use crate::check::{
    Case, Findings, Variable,
    range_check::{Words, against_limits},
    registry::declare_check,
};

declare_check! {
    /// ## Checks
    /// The arc voltage lies inside the range of the procedure's run class, the consumable's
    /// printed data, the station's output and the work order, ends included.
    ///
    /// ## Why
    /// Voltage sets the arc length, and with it the width of the bead and how far the arc wanders.
    ///
    /// ## Source
    /// The ranges are records of the organisation. Voltage is an essential variable of AWS D1.1
    /// (2015, Table 4.5) and enters the heat input of ISO 15614-1:2017, 8.4.7. What happens outside:
    /// common practice, no source.
    ///
    /// ## Not checked
    /// Whether the volts were read at the arc or at the terminals of the power source; the drop over
    /// long cables is several volts.
    "voltage", Voltage => check, &WORDS.texts()
}

const WORDS: Words = Words {
    variable: Variable::Voltage,
    below: "Too little voltage: the wire stubs into the puddle, the bead stands high and ropy on cold toes.",
    above: "Too much voltage: a long arc that loses its focus; undercut, spatter and porosity.",
    raise: "Raise the arc voltage to at least",
    lower: "Lower the arc voltage to at most",
    state: "State the arc voltage.",
};

fn check(case: &Case<'_>, findings: &mut Findings) {
    let stated = case.setup.settings.voltage.as_ref();
    against_limits(case, &CHECK, stated, |ranges| &ranges.voltage, &WORDS, findings);
}
