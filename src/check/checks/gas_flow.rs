//! `gas-flow`: gas flow against every recorded limit.

use crate::check::{
    Case, Findings, Variable,
    range_check::{Words, against_limits},
    registry::declare_check,
};

declare_check! {
    /// ## Checks
    /// The flow of shielding gas lies inside the range of the procedure's run class, the consumable's
    /// printed data and the work order, ends included.
    ///
    /// ## Why
    /// Too little gas does not cover the puddle; too much turns turbulent and draws air in.
    ///
    /// ## Source
    /// The ranges are records of the organisation. Gas flow is an essential variable of AWS D1.1 (2015,
    /// Table 4.5; read in a text that quotes it). What happens outside: common practice, no source.
    ///
    /// ## Not checked
    /// Draught, nozzle size, leaks, and whether the float meter is made for this gas.
    "gas-flow", GasFlow => check, &WORDS.texts()
}

const WORDS: Words = Words {
    variable: Variable::GasFlow,
    below: "Too little gas: air reaches the puddle; porosity and brittle metal.",
    above: "Too much gas: the stream turns turbulent and sucks air in; porosity and waste.",
    raise: "Open the gas flow to at least",
    lower: "Throttle the gas flow to at most",
    state: "State the flow of shielding gas.",
};

fn check(case: &Case<'_>, findings: &mut Findings) {
    let stated = case.setup.settings.gas_flow.as_ref();
    against_limits(case, &CHECK, stated, |ranges| &ranges.gas_flow, &WORDS, findings);
}
