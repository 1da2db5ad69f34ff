//! What a kind of record has to say about itself.

use sqlx::PgConnection;

use super::Head;
use crate::{
    database::TenantTx,
    http::problem::{FieldError, Problem},
    wire::{FromWire, ToWire},
};

/// Kinds of record.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Kind {
    /// Value of the `kind` column.
    pub column: &'static str,
    /// Name in the singular, for messages.
    pub name: &'static str,
    /// Part of the path.
    pub path: &'static str,
}

/// A document that is kept as a record.
pub trait RecordDocument: FromWire + ToWire + Clone + Send + Sync + 'static {
    /// Kind of record.
    const KIND: Kind;

    /// State of a new record: `current`, or `draft` where a second person has to release it.
    const FIRST_STATE: &'static str = "current";

    /// States that a record of this kind can stand in.
    const STATES: &'static [&'static str] = &["current", "withdrawn"];

    /// Whether checks may answer otherwise after a change of such a record.
    const CHANGES_RULES: bool = true;

    /// The code inside the document.
    fn code(&self) -> &str;

    /// Pointer of the member that holds the code.
    const CODE_POINTER: &'static str = "/code";

    /// What is wrong across fields, beyond what reading found.
    fn faults(&self) -> Vec<FieldError>;

    /// Codes of other records the document names: pointer, kind and code.
    fn references(&self) -> Vec<(String, Kind, String)> {
        Vec::new()
    }

    /// Whether the record as it stands takes a new revision for this reason.
    ///
    /// # Errors
    /// Where it does not.
    fn may_revise(head: &Head, reason: Option<&str>) -> Result<(), Problem> {
        let _ = (head, reason);
        Ok(())
    }

    /// What else a withdrawal for this reason means for this kind of record.
    fn withdrawn(
        tx: &mut TenantTx,
        code: &str,
        reason: &str,
    ) -> impl Future<Output = Result<(), Problem>> + Send {
        let _ = (tx, code, reason);
        async { Ok(()) }
    }

    /// Writes the projections that belong to this document, in the transaction that writes it.
    fn project(
        &self,
        db: &mut PgConnection,
        organisation: uuid::Uuid,
        revision: i32,
    ) -> impl Future<Output = sqlx::Result<()>> + Send;
}
