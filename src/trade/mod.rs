//! Welding computations and tables, one file per family; pure, with the source beside each.

mod coded;
mod formula;
mod job;
mod metal_group;

pub use coded::Coded;
pub(crate) use coded::coded;
pub use formula::{Confidence, Formula};
pub use job::{BeadPattern, JointKind, Polarity, Progression, RunClass};
pub use metal_group::{MetalGroup, UnknownMetalGroup};
