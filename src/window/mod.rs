//! All settings that satisfy every limit at once. Pure.
//!
//! Limits on single variables are boxes: for each variable what all required owners allow, and
//! inside it what the advised ones do. With logarithms of the settings as axes, limits that couple
//! variables (heat input on volts, amps and travel speed) are faces as well, so the window is a convex
//! polytope and every question has an exact answer: [`Space`] holds the limits, [`Open`] what is left.

mod answer;
mod boxes;
mod change;
mod linear;
mod offer;
mod plan;
mod question;
mod region;
mod said;
mod solve;
mod space;

pub use answer::{
    ConflictSet, Contradiction, Narrowed, Nearest, Open, Outline, Place, Places, WindowEnd,
};
pub use boxes::{Window, boxes};
pub use change::{CutChange, Governing, Room, cut_change};
pub use offer::{Nothing, Offer, nothing_offered, offers};
pub use plan::{
    JOINT_RUN_PLAN, JointAsked, JointPlan, PlannedRuns, ProcedurePlan, RunRule, SideAsked,
    joint_plans,
};
pub use question::{PreheatPlan, Question};
pub use region::{BoxRange, Conflict, Region};
pub use solve::{
    Left, NearestProposed, Piece, PreheatTrade, Proposed, Solved, in_figures, solve, spaces,
};
pub use space::{
    Derived, Follows, Guard, HandSpread, Holder, LimitEnd, LimitKind, OutputLine, Response,
    RunSize, Side, Space, Subject, Unkept, Unresolved, no_setting, stated_setting,
};

#[cfg(test)]
mod tests;
