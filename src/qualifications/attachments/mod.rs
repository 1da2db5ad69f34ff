//! Attachments of a qualification record: the paper record, reports, photos.
//!
//! What is attached is evidence: its hash stands in the audit chain, its bytes never change, and a
//! withdrawn attachment stays readable and is marked.

mod add;
mod list;
mod media;
mod read;
mod store;
mod withdraw;

pub use list::AttachmentOut;

use utoipa_axum::{router::OpenApiRouter, routes};

use crate::http::AppState;

/// Largest attachment, in bytes: 10 MiB.
const LARGEST: usize = 10 * 1024 * 1024;

/// Routes of attachments.
pub(super) fn router() -> OpenApiRouter<AppState> {
    OpenApiRouter::new()
        .routes(routes!(list::list_attachments, add::add_attachment))
        .routes(routes!(read::read_attachment))
        .routes(routes!(withdraw::withdraw_attachment))
}
