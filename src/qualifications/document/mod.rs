//! The canonical document of a qualification record (WPQR, PQR), and the pure record it stands for.
//!
//! Every fact but number, code, units and the processes of the runs may be left out. What is left out is
//! unknown: no rule judges by it.

mod filler;
mod metal;
mod piece;
mod run;
mod signing;
mod test;

pub use filler::{FillerAdditionDocument, FillerDocument, FluxDocument, GasesDocument};
pub use metal::{BaseMetalDocument, PNumberDocument};
pub use piece::{
    DepositDocument, FitUpDocument, HeatTreatmentDocument, JointDocument, PartDocument,
    PieceDocument, PostHeatingDocument,
};
pub use run::{ElectricalDocument, RecordedRunDocument, TungstenDocument};
pub use signing::{ParticipantDocument, RecordSignatureDocument, WitnessDocument};
pub use test::{HardnessDocument, TestDocument};

use time::Date;

use crate::{
    qualify::record::{Record, Signature, TestLevel},
    quantity::UnitSystem,
    wire::{Code, CodeEditionDocument, wire_object},
};

wire_object! {
    /// One qualification of a welding procedure by test: WPQR, PQR.
    pub struct QualificationDocument {
        /// Number of the record.
        pub number: Code,
        /// Code and edition the test was made by; its range is derived by the rules of that edition.
        pub code: CodeEditionDocument,
        /// Level of the test, where the code has levels (ISO 15614-1:2017: `1` or `2`).
        pub level: Option<TestLevel>,
        /// Units the record was written in. Codes print parallel tables; the record is judged by that of its
        /// own units, nothing is converted.
        pub units: UnitSystem,
        /// Manufacturer who welded the test and answers for it.
        pub manufacturer: Option<String>,
        /// Preliminary procedure the test followed.
        pub preliminary_procedure: Option<String>,
        /// Welders and operators of the test.
        pub welders: Vec<ParticipantDocument>,
        /// Day of welding.
        pub welded_on: Option<Date>,
        /// Place of welding.
        pub place: Option<String>,
        /// Welded test pieces.
        pub pieces: Vec<PieceDocument>,
        /// Who witnessed welding and tests.
        pub witnesses: Vec<WitnessDocument>,
        /// Signatures under the paper record. Its entry here is signed apart, by a second person.
        pub signatures: Vec<RecordSignatureDocument>,
        /// What else the record says.
        pub remarks: Option<String>,
    }
}

impl QualificationDocument {
    /// As the rules read it. `entry` is the signature under this revision, where somebody signed it.
    #[must_use]
    pub fn compile(&self, entry: Option<Signature>) -> Record {
        let signatures = self.signatures.iter().map(RecordSignatureDocument::compile);
        Record {
            number: self.number.to_string(),
            code: self.code.compile(),
            level: self.level,
            units: self.units,
            manufacturer: self.manufacturer.clone(),
            preliminary_procedure: self.preliminary_procedure.clone(),
            welders: self.welders.iter().map(ParticipantDocument::compile).collect(),
            welded_on: self.welded_on,
            place: self.place.clone(),
            pieces: self.pieces.iter().map(PieceDocument::compile).collect(),
            witnesses: self.witnesses.iter().map(WitnessDocument::compile).collect(),
            signatures: signatures.chain(entry).collect(),
            remarks: self.remarks.clone(),
        }
    }
}
