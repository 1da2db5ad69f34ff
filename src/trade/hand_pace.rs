//! A travel speed as a hand can follow it: cover this length in that time.
//!
//! Nobody sees 230 mm/min; everybody can cover 300 mm in 78 s by a watch.

use std::fmt;

use super::{
    rounding::{down_to_step, up_to_step},
    run_time,
};
use crate::quantity::{Duration, DurationKind, QuantityError, RunLength, Span, TravelSpeed};

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

/// The whole seconds of an interval, so that a watch read to the second stays inside; `None` where it has none.
/// Noise of the last bits takes none away.
///
/// # Errors
/// [`QuantityError::NotFinite`], which no interval of times can cause.
pub fn whole_seconds(
    time: &Span<DurationKind>,
) -> Result<Option<Span<DurationKind>>, QuantityError> {
    let least = Duration::computed(up_to_step(time.low().seconds(), 1.0))?;
    let most = Duration::computed(down_to_step(time.high().seconds(), 1.0))?;
    Ok(Span::new(least, most).ok())
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Own arithmetic: 12 in at 4 and at 7 in/min take 180 and 102.86 s. In bits, 180 s are a little less.
    #[test]
    fn whole_seconds_lie_inside_and_none_is_lost_to_the_last_bits() {
        let time =
            |speed: &str| run_time("12 in".parse().unwrap(), speed.parse().unwrap()).unwrap();
        let whole = |low, high| whole_seconds(&Span::new(low, high).unwrap()).unwrap();
        let seconds = whole(time("7 in/min"), time("4 in/min")).unwrap();
        assert_eq!(
            (seconds.low().to_string(), seconds.high().to_string()),
            ("103 s".into(), "180 s".into())
        );
        assert_eq!(whole("59.1 s".parse().unwrap(), "59.9 s".parse().unwrap()), None);
    }

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
