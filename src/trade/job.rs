//! Words that describe a weld: joint, run, bead, polarity, progression.

use super::coded;

coded! {
    /// Polarity of the electrode.
    pub enum Polarity: "polarity" {
        /// Direct current, electrode positive.
        Dcep = "DCEP",
        /// Direct current, electrode negative.
        Dcen = "DCEN",
        /// Alternating current.
        Ac = "AC",
    }
}

coded! {
    /// Direction of a vertical run.
    pub enum Progression: "progression" {
        /// Vertical up.
        Up = "up",
        /// Vertical down.
        Down = "down",
    }
}

coded! {
    /// Kind of weld in a joint.
    pub enum JointKind: "joint" {
        /// Butt weld in a groove.
        Butt = "butt",
        /// Fillet weld.
        Fillet = "fillet",
    }
}

coded! {
    /// What a run does in the joint. Limits are kept per run class.
    pub enum RunClass: "run class" {
        /// First run of a butt weld.
        Root = "root",
        /// Second run, laid soon after the root.
        Hot = "hot",
        /// Runs that fill the groove, and the runs of a multi-run fillet.
        Fill = "fill",
        /// Last layer.
        Cap = "cap",
        /// The only run of a single-run weld.
        Single = "single",
    }
}

impl RunClass {
    /// Whether no run comes before it on its side of the joint, so that there is no interpass temperature.
    #[must_use]
    pub const fn is_first(self) -> bool {
        matches!(self, Self::Root | Self::Single)
    }

    /// Whether it is so near the back of the joint that a gas there protects it; the others lie on it (common practice, no
    /// source).
    #[must_use]
    pub const fn has_open_back(self) -> bool {
        matches!(self, Self::Root | Self::Hot | Self::Single)
    }
}

coded! {
    /// How the arc is led across the joint.
    pub enum BeadPattern: "bead pattern" {
        /// Straight, without oscillation.
        Stringer = "stringer",
        /// With oscillation across the joint.
        Weave = "weave",
    }
}
