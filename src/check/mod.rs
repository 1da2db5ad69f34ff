//! A setup against an organisation's records: findings and one verdict. Pure.

mod authority;
mod book;
mod case;
mod checks;
mod choice_check;
mod finding;
#[cfg(test)]
pub(crate) mod fixture;
mod given;
mod procedures;
mod range_check;
mod ranges;
mod readings;
mod registry;
mod setup;
mod shape;
mod verdict;

pub mod record;

pub use authority::Authority;
pub use book::{Book, BookSettings, ProcedureState};
pub use case::{Case, Limit};
pub use checks::ALL;
pub use finding::{Finding, Force, Outcome, Owner, Shown};
pub use given::{Accuracy, Given, Origin, Place};
pub use procedures::{JobFacts, Procedures};
pub use ranges::{Ranges, Variable};
pub use readings::{Comparison, Computed, Missing, Readings, output_of};
pub use registry::Check;
pub use setup::{BaseMetal, CodeEdition, Filler, Job, ProcedureReference, Settings, Setup};
pub use shape::{NUMERIC, Role, must_be_bounded, role};
pub use verdict::{DecisionRule, Verdict};
