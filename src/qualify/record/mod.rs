//! The qualification record: what was welded, as measured, and what the tests of it found.
//!
//! A record states facts of one qualification; it says nothing about what they qualify, which is for the
//! rules of a code. Every fact may be missing, and a missing fact stays missing: the engine names it and
//! judges nothing by it.
//!
//! | type | holds |
//! |---|---|
//! | [`Record`] | code, edition and level; who welded, witnessed, signed; the test pieces |
//! | [`TestPiece`] | one welded coupon: parts, joint, deposits, runs, heat treatment, tests |
//! | [`Part`], [`BaseMetal`] | one side of the joint: form, thickness, diameter; the metal, its heat and analysis |
//! | [`Joint`] | kind of weld, sides, backing, gouging, groove and fit-up |
//! | [`Deposit`] | metal that one process deposited |
//! | [`Run`] | one run as measured |
//! | [`Test`] | one test and its result |

mod coupon;
mod filler;
mod joint;
mod metal;
mod run;
mod signing;
mod test;
mod thermal;

pub use coupon::{Deposit, Layering, Part, ProductForm, TestPiece};
pub use filler::{Filler, FillerAddition, Flux, FluxKind, HotOrCold};
pub use joint::{
    Backing, BackingMaterial, FitUp, GrooveKind, Joint, Penetration, RootRemoval, Sides, WeldKind,
};
pub use metal::{BaseMetal, D11Group, DeliveryCondition, PNumber};
pub use run::{
    Arcs, CurrentForm, Electrical, Gases, Measured, Mechanisation, OutputCharacteristic, Run,
    RunEnergy, Transfer, Tungsten, WeldSide,
};
pub use signing::{Participant, Signature, Witness, WitnessKind};
pub use test::{Hardness, HardnessScale, Outcome, Test, TestKind, TestPlace, TestValue};
pub use thermal::{HeatTreatment, PostHeating, TreatmentClass};

use time::Date;

use crate::{
    quantity::UnitSystem,
    trade::{CodeEdition, coded},
};

coded! {
    /// Extent of testing by ISO 15614-1:2017. A test of level 2 serves level 1 as well, not the reverse
    /// (introduction of the standard).
    pub enum TestLevel: "level of the procedure test" {
        /// Level 1, modelled on ASME IX.
        Level1 = "1",
        /// Level 2, modelled on the edition of 2004.
        Level2 = "2",
    }
}

/// One qualification of a welding procedure by test: WPQR, PQR.
#[derive(Debug, Clone, PartialEq)]
pub struct Record {
    /// Number of the record, as the company writes it.
    pub number: String,
    /// Code and edition the test was made by. Limits are derived by the rules of that edition.
    pub code: CodeEdition,
    /// Level of the test, where the code has levels.
    pub level: Option<TestLevel>,
    /// Units the record was written in. Codes print parallel tables with rounded inches; the record is
    /// judged by the table of its own units.
    pub units: UnitSystem,
    /// Manufacturer who welded the test and answers for it.
    pub manufacturer: Option<String>,
    /// Preliminary procedure the test followed.
    pub preliminary_procedure: Option<String>,
    /// Welders and operators of the test.
    pub welders: Vec<Participant>,
    /// Day of welding.
    pub welded_on: Option<Date>,
    /// Place of welding.
    pub place: Option<String>,
    /// The welded pieces. Several, where positions or heat inputs were tested apart, and for repeated
    /// tests.
    pub pieces: Vec<TestPiece>,
    /// Who witnessed welding and tests; empty where nobody did or nobody says.
    pub witnesses: Vec<Witness>,
    /// Signatures under the record.
    pub signatures: Vec<Signature>,
    /// What else the record says.
    pub remarks: Option<String>,
}

impl Record {
    /// Whether somebody signed the record.
    #[must_use]
    pub fn is_signed(&self) -> bool {
        !self.signatures.is_empty()
    }
}
