//! Tests that a job demands, as setups and work orders write them.

use crate::{check::Demands, quantity::Temperature, wire::wire_object};

wire_object! {
    /// Tests that a job demands. What is left out is unknown, and where the procedure's support depends on
    /// it, nothing is allowed.
    pub struct DemandsDocument {
        /// Whether impact tests are required.
        pub impact_required: Option<bool>,
        /// Temperature of the required impact tests.
        pub impact_temperature: Option<Temperature>,
        /// Whether hardness tests are required.
        pub hardness_required: Option<bool>,
    }
}

impl DemandsDocument {
    /// As the check reads it.
    #[must_use]
    pub const fn compile(&self) -> Demands {
        Demands {
            impact_required: self.impact_required,
            impact_temperature: self.impact_temperature,
            hardness_required: self.hardness_required,
        }
    }
}
