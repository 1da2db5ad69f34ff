//! The canonical document of a work order.

use crate::{
    check::record::{WorkOrder, WorkOrderWeld},
    trade::JointKind,
    wire::{Code, CodeEditionDocument, DemandsDocument, Limits, wire_object},
};

wire_object! {
    /// One weld of the job.
    pub struct WeldDocument {
        /// Your own id of the weld.
        pub id: String,
        /// Butt or fillet.
        pub joint: Option<JointKind>,
    }
}

wire_object! {
    /// A customer's job, as your ERP knows it.
    pub struct WorkOrderDocument {
        /// Number of the work order.
        pub number: Code,
        /// Title in words.
        pub title: Option<String>,
        /// Governing code and edition.
        pub code: CodeEditionDocument,
        /// Procedures the customer has accepted; all released ones where left out.
        pub accepted_procedures: Option<Vec<Code>>,
        /// Tests that the customer demands; unknown where left out.
        pub demands: Option<DemandsDocument>,
        /// Limits the customer adds.
        pub limits: Option<Limits>,
        /// Welds of the job.
        pub welds: Vec<WeldDocument>,
        /// Your own reference.
        pub reference: Option<String>,
    }
}

impl WorkOrderDocument {
    /// As the check reads it.
    #[must_use]
    pub fn compile(&self, number: &str) -> WorkOrder {
        let weld = |weld: &WeldDocument| WorkOrderWeld { id: weld.id.clone(), joint: weld.joint };
        let numbers = |list: &Vec<Code>| list.iter().map(ToString::to_string).collect();
        WorkOrder {
            number: number.to_owned(),
            code: self.code.compile(),
            accepted_procedures: self.accepted_procedures.as_ref().map(numbers),
            demands: self.demands.as_ref().map(DemandsDocument::compile).unwrap_or_default(),
            ranges: self.limits.as_ref().map(Limits::compile).unwrap_or_default(),
            welds: self.welds.iter().map(weld).collect(),
        }
    }
}
