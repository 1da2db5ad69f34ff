//! How a low-hydrogen filler is kept dry: what its data allows, what happened to a packet, and what it still is.
//!
//! A covering or a core takes up moisture from the air, and moisture is hydrogen in the weld. A hydrogen class
//! therefore holds for the packed or dried condition and for a stated time in the air after it. Nothing here
//! reads a clock: moments come in as arguments.

mod d11;
mod history;
mod rules;
mod state;

pub use d11::d11_care;
pub use history::{CareAction, CareOrderError, CareStep, may_follow};
pub use rules::{BakingRule, CareRules, ExposureLimit};
pub use state::{BakeResult, CareFitness, CareLoss, CarePlace, CareState, care_state};

#[cfg(test)]
mod tests;
