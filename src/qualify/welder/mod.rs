//! Welders and operators: from a test piece that a person welded to what that person may weld, and for how
//! long. Pure.
//!
//! ```text
//! WelderTest + WelderPack --range--> WelderRange (limits with clauses) --judge with a WelderJob--> WelderJudgement
//! QualificationDates + WelderPack --validity on a day--> Validity
//! ```
//!
//! Rules are data (`packs/*.toml`, format in `packs/FORMAT.md`). A fact that nobody states is never a pass:
//! the finding says which fact, and whose.

mod designation;
mod file;
mod judge;
mod pack;
mod piece;
mod range;
mod validity;
mod words;

pub use designation::designation;
pub use judge::{WelderFinding, WelderJudgement, WelderRuling};
pub use pack::{
    Confirming, PersonKind, RevalidationOption, RevalidationWay, WELDER_PACK_FORMAT, WelderPack,
    WelderRuleSummary, welder_pack, welder_packs,
};
pub use piece::{WelderJob, WelderTest};
pub use range::{WelderLimit, WelderRange};
pub use validity::{
    Confirmation, ConfirmedBy, Ending, QualificationDates, Revalidation, Validity, WeldFault,
    months_after,
};
pub use words::{
    FillerGroup, FillerType, Layers, Sensing, TestPosition, ViewOfArc, WelderBacking,
    WelderVariable,
};
