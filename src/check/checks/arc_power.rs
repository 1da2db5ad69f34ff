//! `arc-power`: arc power against every recorded limit.

use crate::check::{
    Case, Findings, Variable,
    range_check::{Stated, Words, against_limits},
    registry::declare_check,
};

declare_check! {
    /// ## Checks
    /// The mean arc power lies inside the range of the procedure's run class and of every other record
    /// that limits it, ends included. It is taken as measured; else as volts times amps, where the output
    /// is not waveform-controlled.
    ///
    /// ## Why
    /// Waveform-controlled output has no meaningful averages of volts and amps: its instantaneous power
    /// is what the procedure can hold.
    ///
    /// ## Source
    /// The ranges are records of the organisation. Instantaneous power: ISO/TR 18491:2015, method C;
    /// ASME IX QW-409.1 (c) (both read in texts that quote them).
    ///
    /// ## Not checked
    /// Whether the power source's display averages as the standard wants.
    "arc-power", ArcPower => check, &WORDS.texts()
}

const WORDS: Words = Words {
    variable: Variable::ArcPower,
    below: "Too little arc power: the joint faces do not melt, whatever the averages of volts and amps say.",
    above: "Too much arc power: the puddle grows beyond control, distortion and coarse grain follow.",
    raise: "Raise the arc power to at least",
    lower: "Lower the arc power to at most",
    state: "State the measured arc power.",
};

fn check(case: &Case<'_>, findings: &mut Findings) {
    let stated = match &case.readings.arc_power {
        Ok(power) => Stated::Known(power),
        Err(missing) => Stated::Missing(missing.0),
    };
    against_limits(case, &CHECK, stated, |ranges| &ranges.arc_power, &WORDS, findings);
}
