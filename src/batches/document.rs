//! The canonical document of a batch.

use time::Date;

use super::{EventRow, portions};
use crate::{
    check::record::Batch,
    http::problem::FieldError,
    quantity::HydrogenContent,
    trade::Composition,
    wire::{Code, wire_object},
};

wire_object! {
    /// Certificate of a batch.
    pub struct CertificateDocument {
        /// Its number, and the kind of inspection document where it states one.
        pub reference: String,
        /// SHA-256 of its file in hexadecimal, where you keep one.
        pub sha256: Option<String>,
        /// Diffusible hydrogen as tested; it counts where it is worse than the class, or there is no class.
        pub hydrogen: Option<HydrogenContent>,
        /// Heat analysis of the deposit.
        pub analysis: Option<Composition>,
    }
}

wire_object! {
    /// A batch of a consumable: what its maker made in one go.
    pub struct BatchDocument {
        /// Code in your organisation.
        pub code: Code,
        /// Code of the consumable.
        pub consumable: Code,
        /// Lot number of the maker.
        pub lot: Option<String>,
        /// Day it was received.
        pub received_on: Option<Date>,
        /// Its certificate.
        pub certificate: Option<CertificateDocument>,
        /// Anything else worth knowing.
        pub note: Option<String>,
    }
}

impl BatchDocument {
    /// As the check reads it, with what was done with its portions.
    #[must_use]
    pub fn compile(&self, code: &str, events: &[EventRow]) -> Batch {
        Batch {
            code: code.to_owned(),
            consumable: self.consumable.to_string(),
            tested_hydrogen: self.certificate.as_ref().and_then(|it| it.hydrogen),
            portions: portions(events),
        }
    }

    /// What is wrong across fields.
    pub(super) fn faults(&self) -> Vec<FieldError> {
        let hash = self.certificate.as_ref().and_then(|it| it.sha256.as_deref());
        let is_hash =
            |text: &str| text.len() == 64 && text.bytes().all(|byte| byte.is_ascii_hexdigit());
        let fault = hash.filter(|text| !is_hash(text)).map(|_| FieldError {
            pointer: "/certificate/sha256".to_owned(),
            detail: "expected the 64 hexadecimal digits of a SHA-256".to_owned(),
        });
        fault.into_iter().collect()
    }
}
