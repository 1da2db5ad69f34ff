//! One welding place: power source, feeder and gun.

use crate::{
    check::Ranges,
    quantity::{Current, Diameter, Mass, Share, Voltage},
    trade::Waveform,
};

/// A point of the rating plate: this current, at this duty cycle.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RatedPoint {
    /// Rated current.
    pub current: Current,
    /// Rated load voltage.
    pub voltage: Option<Voltage>,
    /// Duty cycle of a ten-minute period.
    pub duty: Share,
}

/// Rating of the gun.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct GunRating {
    /// Rated current.
    pub current: Current,
    /// Duty cycle of a ten-minute period.
    pub duty: Share,
}

/// What one station can do.
#[derive(Debug, Clone, PartialEq)]
pub struct Station {
    /// Code in this organisation.
    pub code: String,
    /// Name in words.
    pub name: String,
    /// Outputs the power source can be switched to; empty where not stated.
    pub waveforms: Vec<Waveform>,
    /// Rating plate, in any order.
    pub rated: Vec<RatedPoint>,
    /// Rating of the gun.
    pub gun: Option<GunRating>,
    /// Diameters the feeder's rolls take; empty where not stated.
    pub diameters: Vec<Diameter>,
    /// Heaviest spool the feeder takes.
    pub heaviest_spool: Option<Mass>,
    /// What the source and feeder can be set to.
    pub ranges: Ranges,
}

impl Station {
    /// Highest current on the rating plate.
    #[must_use]
    pub fn rated_current(&self) -> Option<Current> {
        self.rated.iter().map(|point| point.current).reduce(Current::max)
    }

    /// Highest current that the source carries all the time, at a duty cycle of 100 %.
    #[must_use]
    pub fn continuous_current(&self) -> Option<Current> {
        let always = Share::computed(1.0).ok()?;
        let points = self.rated.iter().filter(|point| point.duty.at_least(always));
        points.map(|point| point.current).reduce(Current::max)
    }

    /// Highest rated load voltage.
    #[must_use]
    pub fn rated_voltage(&self) -> Option<Voltage> {
        self.rated.iter().filter_map(|point| point.voltage).reduce(Voltage::max)
    }
}
