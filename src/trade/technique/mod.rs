//! Technique as advice: what is usual for a process, a position and a wire, with the source.
//!
//! Advice never forbids. Where a textbook and a shop practice differ, both are given.

mod advice;
mod fillet;
mod row;
mod settings;
mod size;
mod spray;
mod travel;
mod weave;

pub use advice::{Advice, AdvisedRange, AdvisedVariable, Practice, TechniqueCase, advice};
pub use spray::{SprayMetal, spray_transition};
