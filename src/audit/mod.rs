//! The audit chain: to read, to hand out, and to prove.

mod beside;
mod chain;
mod export;
mod find;
mod list;
mod offline;
mod store;
mod verify;
mod walk;

pub use chain::{Fault, Place, Proved};
pub use find::{Entry, newest};
pub use offline::{Outcome, Unreadable, prove_file, run};

use std::{sync::Arc, time::Duration};

use tokio::sync::OwnedSemaphorePermit;
use utoipa_axum::{router::OpenApiRouter, routes};

use crate::http::{
    AppState,
    problem::{Problem, UNAVAILABLE},
};

/// Longest wait for another walk to end.
const PATIENCE: Duration = Duration::from_secs(10);

/// Leave to walk a whole chain. Few may at once: each holds a connection to the database for as long as its
/// reader takes.
async fn walking(state: &AppState) -> Result<OwnedSemaphorePermit, Problem> {
    let busy = || {
        let detail = "Other exports and verifications of a chain are under way; try again later.";
        Problem::new(&UNAVAILABLE, detail).retry_after(30)
    };
    let permit = tokio::time::timeout(PATIENCE, Arc::clone(&state.walks).acquire_owned()).await;
    permit.ok().and_then(Result::ok).ok_or_else(busy)
}

/// Routes of this feature.
#[must_use]
pub fn router() -> OpenApiRouter<AppState> {
    OpenApiRouter::new()
        .routes(routes!(list::list_audit_entries))
        .routes(routes!(export::export_audit))
        .routes(routes!(verify::verify_audit))
}
