//! Who took part in a qualification, and who signed for it.

use time::Date;

use crate::trade::coded;

/// A welder or operator of the test.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Participant {
    /// Name.
    pub name: String,
    /// Stamp or personnel number.
    pub stamp: Option<String>,
}

coded! {
    /// On whose behalf somebody witnessed.
    pub enum WitnessKind: "kind of witness" {
        /// Examiner or examining body of ISO 15614-1.
        Examiner = "examiner",
        /// Independent third party.
        ThirdParty = "third-party",
        /// The customer.
        Customer = "customer",
        /// The manufacturer's own inspector.
        Manufacturer = "manufacturer",
    }
}

/// Somebody who saw the welding or the tests.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Witness {
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

/// A signature under the record.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Signature {
    /// Who signed.
    pub person: String,
    /// In which function, as `welding engineer` or `examiner`.
    pub function: Option<String>,
    /// Body or company.
    pub body: Option<String>,
    /// Day of the signature.
    pub on: Date,
}
