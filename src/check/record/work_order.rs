//! A customer's job.

use crate::{
    check::{CodeEdition, Demands, OwnedRanges},
    trade::JointKind,
};

/// One weld of the job, under the caller's own id.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct WorkOrderWeld {
    /// The caller's id.
    pub id: String,
    /// Butt or fillet.
    pub joint: Option<JointKind>,
}

/// What the customer requires.
#[derive(Debug, Clone, PartialEq)]
pub struct WorkOrder {
    /// Number of the work order.
    pub number: String,
    /// Governing code and edition.
    pub code: CodeEdition,
    /// Procedures the customer has accepted; `None` where all released ones are.
    pub accepted_procedures: Option<Vec<String>>,
    /// Tests that the customer demands.
    pub demands: Demands,
    /// Limits the customer adds.
    pub ranges: OwnedRanges,
    /// Welds of the job.
    pub welds: Vec<WorkOrderWeld>,
}
