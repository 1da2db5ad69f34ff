//! From a qualification test to what may be welded: the record of a test, the rules of codes as data, and
//! the engine that turns both into limits with their clauses. Pure.
//!
//! ```text
//! Record + Pack + JobFacts --derive--> QualifiedRange (boxes of limits) --judge with a Proposal--> Judgement
//! ```
//!
//! - [`record`]: what was welded, as measured, and its tests.
//! - [`Pack`], [`packs`]: rules of one code, edition and level, as data with clause and confidence.
//! - [`derive()`], [`derive_all`]: one box of limits for each test piece, and one more where the code combines
//!   two tests. A union, never an envelope.
//! - [`without_test`]: the one box of a pack of fixed limits, for procedures that need no test.
//! - [`judge`]: a setup or the ranges of a procedure against the boxes: one finding per limit, and whether it
//!   needs a revised procedure or a new qualification.
//!
//! [`welder`] does the same for people: their test pieces, ranges, confirmations and terms.
//!
//! A missing fact is never a pass: the limit or the finding says which fact, and whose.

mod derive;
mod facts;
mod judge;
mod pack;
mod proposal;
mod range;
pub mod record;
mod variable;
pub mod welder;

pub use derive::{WrongPack, derive, derive_all, without_test};
pub use judge::{BoxJudgement, Finding, Judgement, PositionJudgement, Ruling, Standing, judge};
pub use pack::{
    Allow, CountedFrom, OpenClause, PACK_FORMAT, Pack, PackError, PackRoute, PackStanding, Per,
    RuleSummary, SizeOf, Symbol, VariableClass, packs,
};
pub use proposal::{JobFacts, Proposal, ProposedEnergy, ProposedPart, ProposedRun};
pub use range::{
    Allowed, Bound, GasWindow, Interval, Limit, MetalCover, Missing, PieceReference, QualifiedBox,
    QualifiedRange, RunBox, SizedLimit, SizedLimits, Spread, Whose,
};
pub use variable::QualifiedVariable;
