//! Base metals, on the wire.

use crate::{
    http::problem::FieldError,
    qualify::record::{BaseMetal, D11Group, DeliveryCondition, PNumber},
    quantity::Stress,
    records::plausible,
    trade::{Composition, MetalGroup},
    wire::wire_object,
};

wire_object! {
    /// P-Number of ASME IX.
    pub struct PNumberDocument {
        /// The number with its letter, as `1` or `5A`.
        pub number: String,
        /// Group number, for work with toughness requirements.
        pub group: Option<u8>,
    }
}

wire_object! {
    /// The metal of one part, as certificate and standard state it.
    pub struct BaseMetalDocument {
        /// Standard of the metal, as `EN 10025-2`.
        pub standard: Option<String>,
        /// Grade, as `S355J2`.
        pub grade: Option<String>,
        /// Delivery condition.
        pub condition: Option<DeliveryCondition>,
        /// Group or sub-group of ISO/TR 15608.
        pub group: Option<MetalGroup>,
        /// P-Number of ASME IX.
        pub p_number: Option<PNumberDocument>,
        /// Base-metal group of AWS D1.1.
        pub d11_group: Option<D11Group>,
        /// Specified minimum yield strength of the grade.
        pub specified_yield: Option<Stress>,
        /// Heat number.
        pub heat_number: Option<String>,
        /// Inspection certificate, as `3.1` of EN 10204 with its number.
        pub certificate: Option<String>,
        /// Heat analysis; an element that is left out is unknown.
        pub heat_analysis: Option<Composition>,
    }
}

impl PNumberDocument {
    /// As the rules read it.
    pub(crate) fn compile(&self) -> PNumber {
        PNumber { number: self.number.clone(), group: self.group }
    }
}

impl BaseMetalDocument {
    /// What is wrong across its fields; `at` is its place.
    pub(in crate::qualifications) fn faults(&self, at: &str) -> Vec<FieldError> {
        let p_number = self.p_number.as_ref().map(PNumberDocument::compile);
        plausible::other_metal(
            [format!("{at}/d11_group"), format!("{at}/p_number/number")],
            (self.d11_group, p_number.as_ref()),
            self.group.as_slice(),
        )
    }

    pub(super) fn compile(&self) -> BaseMetal {
        BaseMetal {
            standard: self.standard.clone(),
            grade: self.grade.clone(),
            condition: self.condition,
            group: self.group,
            p_number: self.p_number.as_ref().map(PNumberDocument::compile),
            d11_group: self.d11_group,
            specified_yield: self.specified_yield,
            heat_number: self.heat_number.clone(),
            certificate: self.certificate.clone(),
            heat_analysis: self.heat_analysis.clone(),
        }
    }
}
