//! Qualification: packs, ranges and judgements.
//!
//! Expected numbers are those of the tables and rules of the codes, as the packs cite them clause by clause;
//! worked cases are own arithmetic from those tables. How well each figure was confirmed stands in the pack.

mod aws_cases;
mod aws_rows;
mod coverage;
mod fixture;
mod iso_cases;
mod iso_rows;
mod judging;
mod more_packs;
mod packs;
mod prequalified;
mod properties;
mod pure_gases;
mod silent_runs;
mod switches;
