//! One organisation's released records, compiled in memory for checking.
//!
//! The way of a check opens no connection: keys, settings and records are all here. A write refreshes
//! its own process before it answers; other replicas follow a notice and a poll.

mod follow;
mod holder;
mod load;
mod store;

pub use follow::follow;
pub use holder::{KeyHolder, Rulebooks};

use std::sync::atomic::{AtomicI64, Ordering};

use time::Duration;
use uuid::Uuid;

use crate::{check::Book, organisation::OrganisationSettings};

/// One organisation's rulebook. Never changed in place.
#[derive(Debug)]
pub struct Rulebook {
    /// Organisation.
    pub organisation: Uuid,
    /// Number of the last rule-changing audit entry it holds.
    pub version: i64,
    /// Choices of the organisation.
    pub settings: OrganisationSettings,
    /// Records in force.
    pub book: Book,
    /// Milliseconds after the epoch of [`Rulebooks`] when the version was last confirmed.
    confirmed: AtomicI64,
}

impl Rulebook {
    /// Time since the version was last confirmed, at a moment given in milliseconds after the epoch
    /// of the holder.
    fn age_at(&self, now: i64) -> Duration {
        Duration::milliseconds((now - self.confirmed.load(Ordering::Relaxed)).max(0))
    }

    fn confirm(&self, now: i64) {
        self.confirmed.fetch_max(now, Ordering::Relaxed);
    }
}
