//! Requests per key.

use std::{
    num::NonZeroU32,
    sync::{
        OnceLock,
        atomic::{AtomicI64, Ordering},
    },
};

use governor::{DefaultDirectRateLimiter, Quota};
use time::OffsetDateTime;

use crate::http::problem::{Problem, TOO_MANY};

/// Lets each key ask so many times a second, with a burst of the same size.
#[derive(Debug, Clone, Copy)]
pub struct Limiter(Quota);

impl Limiter {
    /// A limiter for this rate.
    #[must_use]
    pub const fn per_second(rate: NonZeroU32) -> Self {
        Self(Quota::per_second(rate))
    }

    /// Admits one request of a key.
    ///
    /// # Errors
    /// 429 when the key has asked too often.
    pub fn admit(&self, key: &KeyUse) -> Result<(), Problem> {
        let pace = key.pace.get_or_init(|| DefaultDirectRateLimiter::direct(self.0));
        pace.check().map_err(|_| {
            Problem::new(&TOO_MANY, "This key has asked too often; wait a second.").retry_after(1)
        })
    }
}

/// How a key is used. A key that is read anew goes on with its own.
#[derive(Debug, Default)]
pub struct KeyUse {
    /// Unix seconds of the last use that is not in the database yet; zero for none.
    last: AtomicI64,
    /// Made at the first request: which rate holds is the server's.
    pace: OnceLock<DefaultDirectRateLimiter>,
}

impl KeyUse {
    /// Notes that the key is used.
    pub fn touch(&self) {
        let now = OffsetDateTime::now_utc().unix_timestamp();
        // Within a second nothing is written, so that processors do not take the place away from each other.
        if self.last.load(Ordering::Relaxed) != now {
            self.last.store(now, Ordering::Relaxed);
        }
    }

    /// The last use that is not in the database yet, in Unix seconds.
    #[must_use]
    pub fn unwritten(&self) -> Option<i64> {
        Some(self.last.load(Ordering::Relaxed)).filter(|seconds| *seconds > 0)
    }

    /// Notes that this use is in the database, unless the key was used again in the meantime.
    pub fn written(&self, seconds: i64) {
        let relaxed = Ordering::Relaxed;
        let _ = self.last.compare_exchange(seconds, 0, relaxed, relaxed);
    }
}
