//! All settings that satisfy every limit at once. Pure.
//!
//! Limits on single variables are boxes: for each variable what all required owners allow, and
//! inside it what the advised ones do. Limits that couple variables, such as heat input on volts,
//! amps and travel speed, stand here on the resulting variable only.

mod boxes;
mod change;
mod offer;
mod region;

pub use boxes::{Window, boxes};
pub use change::{CutChange, Governing, Room, cut_change};
pub use offer::{Offer, offers};
pub use region::{BoxRange, Conflict, Region};

#[cfg(test)]
mod tests;
