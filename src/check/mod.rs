//! A setup against an organisation's records: findings and one verdict. Pure.

mod answer;
mod authority;
mod book;
mod care_seen;
mod carried;
mod case;
mod cautions;
mod checks;
mod choice_check;
mod data_selection;
mod ends;
mod figures;
mod finding;
mod findings;
mod first_look;
#[cfg(test)]
pub(crate) mod fixture;
mod given;
mod hottest;
mod job_facts;
mod judge;
mod printed_fit;
mod procedures;
mod range_check;
mod ranges;
mod readings;
mod references;
mod registry;
mod remedy;
mod setup;
mod shape;
mod source;
mod tally;
mod usual_current;
mod variable_set;
mod verdict;
mod worded;

#[cfg(test)]
mod tests;

pub mod record;

pub use crate::trade::Accuracy;
pub use answer::{Answer, Candidate, HeldTo, NearMiss};
pub use authority::Authority;
pub(crate) use book::SharedMap;
pub use book::{Book, BookSettings, ProcedureState, Records};
pub use care_seen::{CareGap, CareSeen, FillerHydrogen};
pub use carried::{CarriedEnds, CarriedHeat, carry_over};
pub use case::{Case, Lack, Limit};
pub use cautions::{Caution, CautionRows, Cautions, applying as cautions};
pub use checks::{ALL, care_words, leg_owner, most_leg};
pub use data_selection::matching_data;
#[cfg(test)]
pub(crate) use ends::Edit;
pub use ends::{OwnedRanges, PlainValues};
pub use figures::{
    AbsentFigure, Figure, FigureInputs, FigureValue, Figures, Note, Notes, WireMetal,
};
pub use finding::{Finding, Force, Mark, Outcome, Owner, OwnerKind, Shown, Told};
pub use findings::{Findings, Telling};
pub use first_look::plainly_met;
pub use given::{Given, GuardFactor, Origin, Place};
pub(crate) use hottest::{HOTTEST_SOURCE, hottest};
pub use judge::{each_case, judge, judge_named, practice};
pub(crate) use printed_fit::PrintedFit;
pub use procedures::Procedures;
pub use ranges::{Ranges, Variable};
pub use readings::{Arcs, Comparison, Computed, Missing, Readings, compared, output_of};
pub use references::unknown_references;
pub use registry::Check;
pub use remedy::in_words;
pub use setup::{
    BaseMetal, CodeEdition, Demands, Filler, Job, PARTS_OF_A_JOINT, ProcedureReference, Settings,
    Setup, WelderClaim,
};
pub use shape::{NUMERIC, Role, must_be_bounded, role, unbounded};
pub use source::Source;
pub use tally::Tally;
pub(crate) use usual_current::UsualCurrent;
pub use variable_set::VariableSet;
pub use verdict::{DecisionRule, Verdict};

use job_facts::{Fact, JobFacts};
