//! A travel speed as a hand can follow it: cover this length in that time.
//!
//! Nobody sees 230 mm/min; everybody can cover 300 mm in 78 s by a watch.

use std::fmt;

use super::run_time;
use crate::quantity::{Duration, QuantityError, RunLength, TravelSpeed};

/// A length and the time to cover it, for a mark on the plate and a watch.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HandPace {
    /// Length along the joint.
    pub length: RunLength,
    /// Time for it.
    pub time: Duration,
}

impl HandPace {
    /// The pace of a travel speed over a length, by [`RUN_TIME`](super::RUN_TIME).
    ///
    /// # Errors
    /// [`QuantityError::NotFinite`] for a speed of zero.
    pub fn new(length: RunLength, speed: TravelSpeed) -> Result<Self, QuantityError> {
        Ok(Self { length, time: run_time(length, speed)? })
    }
}

/// In words, to the whole second: "cover 300 mm in 78 s".
impl fmt::Display for HandPace {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "cover {} in {:.0} s", self.length, self.time.seconds())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Own arithmetic: 300 mm at 230 mm/min take 78.26 s; 12 in at 10 in/min take 72 s.
    #[test]
    fn a_speed_becomes_a_length_and_a_time() {
        let pace = |length: &str, speed: &str| {
            HandPace::new(length.parse().unwrap(), speed.parse().unwrap()).unwrap().to_string()
        };
        assert_eq!(pace("300 mm", "230 mm/min"), "cover 300 mm in 78 s");
        assert_eq!(pace("12 in", "10 in/min"), "cover 12 in in 72 s");
    }

    #[test]
    fn a_hand_at_rest_has_no_pace() {
        let still = TravelSpeed::computed(0.0).unwrap();
        assert!(HandPace::new("300 mm".parse().unwrap(), still).is_err());
    }
}
