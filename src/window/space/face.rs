//! One end of one limit, as a face of the window.

use std::fmt;

use crate::{
    check::{Force, Owner, OwnerKind, Variable},
    quantity::{Amount, Share},
    trade::coded,
    window::linear::AXES,
};

coded! {
    /// How a limit enters the window.
    pub enum LimitKind: "kind of a limit" {
        /// Linear in the logarithms: nothing is lost.
        ExactLinear = "exact-linear",
        /// A curve replaced by a face on its safe side; the gap is stated.
        InnerLinearised = "inner-linearised",
        /// Not part of the window: the check judges it afterwards.
        CheckedAfterwards = "checked-afterwards",
    }
}

coded! {
    /// Which end of a limit.
    pub enum Side: "end of a limit" {
        /// At least.
        Lowest = "at-least",
        /// At most.
        Highest = "at-most",
    }
}

/// Who holds a face.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Holder {
    /// The owner of a recorded limit.
    Record(Owner),
    /// What the job asks for: a leg in one run, a cooling time, a preheat, a deposition rate.
    Job,
    /// A value that was chosen.
    Chosen,
    /// The data a response was fitted to: beyond them it is not known, which forbids nothing.
    ResponseData(Owner),
}

impl fmt::Display for Holder {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Record(owner) => owner.fmt(f),
            Self::Job => f.write_str("the job"),
            Self::Chosen => f.write_str("the value chosen"),
            Self::ResponseData(owner) => write!(f, "the reach of the {owner}"),
        }
    }
}

coded! {
    /// What a limit of the window is on, where that is no variable of a setup.
    pub enum Derived: "derived quantity" {
        /// Leg of one run.
        Leg = "leg-of-one-run",
        /// Cross-section of one run.
        RunArea = "cross-section-of-one-run",
        /// Deposition rate.
        DepositionRate = "deposition-rate",
        /// Heat input by the cooling time.
        CoolingTime = "heat-input-for-cooling-time",
        /// Heat input by the preheat.
        Preheat = "heat-input-for-preheat",
        /// Volts at the foot of the source's output line.
        OutputLine = "output-line",
        /// Volts that go with the feed by printed points; an end is that at the feed of the setup, or in the middle
        /// of the feeds asked about.
        PrintedVolts = "volts-printed-for-the-feed",
        /// The same of the current.
        PrintedCurrent = "current-printed-for-the-feed",
        /// A current that a solid steel wire usually draws at the feed and the stick-out, where no point is printed;
        /// an end is that at those of the setup, or in the middle of those asked about.
        UsualCurrent = "current-usual-for-the-feed",
    }
}

/// What a limit is on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Subject {
    /// A variable of the setup.
    Variable(Variable),
    /// What follows from it.
    Derived(Derived),
}

impl fmt::Display for Subject {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let code = match self {
            Self::Variable(variable) => variable.to_string(),
            Self::Derived(derived) => derived.to_string(),
        };
        f.write_str(&code.replace('-', " "))
    }
}

/// One end of one limit.
#[derive(Debug, Clone, PartialEq)]
pub struct LimitEnd {
    /// What it is on.
    pub subject: Subject,
    /// Which end.
    pub side: Side,
    /// The end.
    pub at: Amount,
    /// Who holds it.
    pub holder: Holder,
    /// Permission or advice.
    pub force: Force,
    /// How it enters the window.
    pub kind: LimitKind,
    /// For an inner-linearised limit: how much of the value may be lost at most.
    pub gap: Option<Share>,
}

impl LimitEnd {
    /// The same, as a face on its safe side that gives away at most this much of the value's logarithm.
    pub(super) fn linearised(self, gap: f64) -> Self {
        let kind = LimitKind::InnerLinearised;
        Self { kind, gap: Share::computed(gap.exp_m1()).ok(), ..self }
    }
}

impl fmt::Display for LimitEnd {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let side = match self.side {
            Side::Lowest => "at least",
            Side::Highest => "at most",
        };
        write!(f, "{} {side} {} ({})", self.subject, self.at, self.holder)
    }
}

/// A face: `Σ weight · ln(setting) <= bound`.
#[derive(Debug, Clone, PartialEq)]
pub(in crate::window) struct Face {
    pub(in crate::window) weights: [f64; AXES],
    pub(in crate::window) bound: f64,
    pub(in crate::window) limit: LimitEnd,
    /// Holds for the aim, not for how far the hand strays from it: a chosen value.
    pub(in crate::window) of_aim: bool,
}

impl Face {
    /// Whether it is where data end: those that a response was fitted to, or what is printed of the consumable.
    pub(in crate::window) fn is_reach(&self) -> bool {
        let printed =
            [Variable::WireFeed, Variable::Voltage, Variable::Current, Variable::StickOut];
        match (&self.limit.holder, self.limit.subject) {
            (Holder::ResponseData(_), _) => true,
            (Holder::Record(owner), Subject::Variable(variable)) => {
                owner.kind == OwnerKind::ConsumableData && printed.contains(&variable)
            }
            _ => false,
        }
    }
}
