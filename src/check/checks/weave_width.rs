//! `weave-width`: weave width against every recorded limit.

use crate::check::{
    Case, Findings, Variable,
    range_check::{Words, against_limits},
    registry::declare_check,
};

declare_check! {
    /// ## Checks
    /// The weave width lies inside the range of the procedure's run class and of every other record
    /// that limits it, ends included. A stringer has no weave width; one that is stated nevertheless is
    /// held to the limits.
    ///
    /// ## Why
    /// A wide weave travels slowly and heats each length of joint for long; its edges are filled
    /// from far away.
    ///
    /// ## Source
    /// The ranges are records of the organisation. ISO 15609-1:2019 lists the maximum width of
    /// weaving (from memory). What happens outside: common practice, no source.
    ///
    /// ## Not checked
    /// Frequency and dwell of the oscillation; whether the run may be woven at all, which is `bead`.
    "weave-width", WeaveWidth => check, &WORDS.texts()
}

const WORDS: Words = Words {
    variable: Variable::WeaveWidth,
    below: "Too narrow a weave: the joint faces are not reached and the groove corners trap slag.",
    above: "Too wide a weave: much heat per length, undercut and trapped slag at the edges.",
    raise: "Widen the weave to at least",
    lower: "Narrow the weave to at most",
    state: "State the weave width, or that the bead is a stringer.",
};

fn check(case: &Case<'_>, findings: &mut Findings) {
    let stated = case.setup.settings.weave_width.as_ref();
    against_limits(case, &CHECK, stated, |ranges| &ranges.weave_width, &WORDS, findings);
}
