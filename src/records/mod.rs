//! Records: what consumables, procedures, qualification records, stations and work orders have in common.
//! One head row, every revision one canonical document that is only inserted, one answer form, one way to
//! list them.

mod answer;
mod create;
mod document;
mod endpoints;
mod listing;
pub mod plausible;
mod read;
mod revise;
mod second_person;
mod store;
mod withdraw;

pub use answer::{RecordAnswer, RecordBody, RevisionInForce, etag};
pub use create::create;
pub use document::{Kind, RecordDocument};
pub(crate) use endpoints::record_endpoints;
pub use listing::{Column, Filter, Listing, PageQuery, RecordFilter, list, positions_meant};
pub use read::{ReadQuery, ReasonQuery, holds_already, read};
pub use revise::revise;
pub use second_person::{Signing, hold_second_person};
pub use store::{Head, Stored, find, find_revision, lock, move_head};
pub use withdraw::{WithdrawalIn, withdraw};
