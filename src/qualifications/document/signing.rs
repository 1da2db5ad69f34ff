//! Who took part, on the wire.

use time::Date;

use crate::{
    qualify::record::{Participant, Signature, Witness, WitnessKind},
    wire::wire_object,
};

wire_object! {
    /// A welder or operator of the test.
    pub struct ParticipantDocument {
        /// Name.
        pub name: String,
        /// Stamp or personnel number.
        pub stamp: Option<String>,
    }
}

wire_object! {
    /// Somebody who saw the welding or the tests.
    pub struct WitnessDocument {
        /// Name.
        pub name: String,
        /// On whose behalf.
        pub kind: WitnessKind,
        /// Body or company.
        pub body: Option<String>,
        /// Their own reference number.
        pub reference: Option<String>,
        /// Day of the witnessing.
        pub on: Option<Date>,
    }
}

wire_object! {
    /// A signature under the paper record.
    pub struct RecordSignatureDocument {
        /// Who signed.
        pub person: String,
        /// In which function, as `welding engineer` or `examiner`.
        pub function: Option<String>,
        /// Body or company.
        pub body: Option<String>,
        /// Day of the signature.
        pub on: Date,
    }
}

impl ParticipantDocument {
    pub(super) fn compile(&self) -> Participant {
        Participant { name: self.name.clone(), stamp: self.stamp.clone() }
    }
}

impl WitnessDocument {
    pub(super) fn compile(&self) -> Witness {
        Witness {
            name: self.name.clone(),
            kind: self.kind,
            body: self.body.clone(),
            reference: self.reference.clone(),
            on: self.on,
        }
    }
}

impl RecordSignatureDocument {
    pub(super) fn compile(&self) -> Signature {
        Signature {
            person: self.person.clone(),
            function: self.function.clone(),
            body: self.body.clone(),
            on: self.on,
        }
    }
}
