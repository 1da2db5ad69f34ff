//! Travel speed of a run from its length and its arc time.
//!
//! It is the forward speed of the bead along the joint, never the speed of the gun along a weave: taking that one
//! understates the energy per length four- or fivefold.

use super::{corners::span_of, formula};
use crate::quantity::{
    Duration, DurationKind, QuantityError, RunLength, RunLengthKind, Span, TravelSpeed,
    TravelSpeedKind,
};

formula! {
    /// Mean travel speed of a run.
    pub const TRAVEL_SPEED {
        name: "travel-speed",
        equation: "v = L * 60 / t; L in mm, t in s, v in mm/min",
        source: "definition of speed",
        validity: "one run; L along the joint, not along a weave; t while the arc burned, stops left out",
        confidence: Derived,
    }
}

/// Travel speed from length and arc time, [`TRAVEL_SPEED`].
///
/// # Errors
/// [`QuantityError::NotFinite`] for a time of zero.
pub fn travel_speed(length: RunLength, time: Duration) -> Result<TravelSpeed, QuantityError> {
    TravelSpeed::computed(length.mm() * 60.0 / time.seconds())
}

/// Travel speed over intervals of length and arc time.
///
/// # Errors
/// As [`travel_speed`].
pub fn travel_speed_span(
    length: &Span<RunLengthKind>,
    time: &Span<DurationKind>,
) -> Result<Span<TravelSpeedKind>, QuantityError> {
    span_of(travel_speed(length.low(), time.high()), travel_speed(length.high(), time.low()))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// 300 mm in 60 to 75 s: 300 down to 240 mm/min (own arithmetic).
    #[test]
    fn the_longest_time_is_the_slowest_speed() {
        let time = Span::new("60 s".parse().unwrap(), "75 s".parse().unwrap()).unwrap();
        let speed = travel_speed_span(&Span::one("300 mm".parse().unwrap()), &time).unwrap();
        assert_eq!(speed.low(), "240 mm/min".parse().unwrap());
        assert_eq!(speed.high(), "300 mm/min".parse().unwrap());
    }

    #[test]
    fn no_time_has_no_speed() {
        let zero = Duration::computed(0.0).unwrap();
        assert!(travel_speed("300 mm".parse().unwrap(), zero).is_err());
    }
}
