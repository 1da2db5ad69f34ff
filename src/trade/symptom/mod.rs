//! What a bead or an arc shows, its possible causes in the order to check them, and what to change.
//!
//! A remedy is a typed change of a variable, so that a caller can cut it to what the governing
//! procedure still allows, or a piece of upkeep. Advice never forbids and never widens a procedure.

mod advice;
mod arc;
mod bead;
mod change;
mod inside;
mod row;
mod upkeep;

pub use advice::{Cause, Symptom, symptom_advice};
pub use change::{Change, Direction, SettingChange, SettingVariable, Step};
pub use row::Remedy;
pub use upkeep::Upkeep;
