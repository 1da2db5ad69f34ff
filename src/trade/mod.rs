//! Welding computations and tables, one file per family; pure, with the source beside each.

mod coded;
mod formula;
mod job;

pub use coded::Coded;
pub(crate) use coded::coded;
pub use formula::{Confidence, Formula};
pub use job::{BeadPattern, JointKind, Polarity, Progression, RunClass};
