//! Everything between the service and PostgreSQL.

mod audit;
mod pool;
mod ranges;
mod tenant;

pub mod private;

pub use audit::{Change, Hashed, canonical_bytes, document_hash};
pub use pool::{migrate, open};
pub use ranges::{decimal, numrange};
pub use tenant::{Actor, Committed, TenantTx};
