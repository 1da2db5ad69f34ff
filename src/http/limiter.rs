//! Requests per key.

use std::num::NonZeroU32;

use governor::{DefaultKeyedRateLimiter, Quota};
use uuid::Uuid;

use super::problem::{Problem, TOO_MANY};

/// Lets each key ask so many times a second, with a burst of the same size.
pub struct Limiter(DefaultKeyedRateLimiter<Uuid>);

impl std::fmt::Debug for Limiter {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str("Limiter")
    }
}

impl Limiter {
    /// A limiter for this rate.
    #[must_use]
    pub fn per_second(rate: NonZeroU32) -> Self {
        Self(DefaultKeyedRateLimiter::keyed(Quota::per_second(rate)))
    }

    /// Admits one request of this key.
    ///
    /// # Errors
    /// 429 when the key has asked too often.
    pub fn admit(&self, key: Uuid) -> Result<(), Problem> {
        self.0.check_key(&key).map_err(|_| {
            Problem::new(&TOO_MANY, "This key has asked too often; wait a second.").retry_after(1)
        })
    }
}
