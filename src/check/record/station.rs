//! One welding place: power source, feeder and gun.

use time::Date;

use crate::{
    check::{Accuracy, Ranges, Variable},
    quantity::{Amount, Current, Diameter, Kind, Mass, Share, Voltage, WireFeed},
    trade::{DutyPoint, ErrorModel, ErrorSize, PowerSourceError, RatingPlate, Waveform},
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
    /// Measuring instruments.
    pub instruments: Vec<Instrument>,
    /// Steps in which source and feeder are set.
    pub steps: Steps,
}

/// Smallest steps of what is dialled, as differences; a dial without a record has none.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct Steps {
    /// Step of the current.
    pub current: Option<Current>,
    /// Step of the voltage.
    pub voltage: Option<Voltage>,
    /// Step of the wire feed speed.
    pub wire_feed: Option<WireFeed>,
}

impl Steps {
    /// The step of a variable, without its kind in the type.
    #[must_use]
    pub fn of(&self, variable: Variable) -> Option<Amount> {
        match variable {
            Variable::Current => self.current.map(Current::amount),
            Variable::Voltage => self.voltage.map(Voltage::amount),
            Variable::WireFeed => self.wire_feed.map(WireFeed::amount),
            _ => None,
        }
    }
}

/// A measuring instrument of the station.
#[derive(Debug, Clone, PartialEq)]
pub struct Instrument {
    /// Code of the instrument.
    pub code: String,
    /// Its accuracy; `None` where nobody knows.
    pub accuracy: Option<InstrumentAccuracy>,
    /// What the figure of its accuracy means.
    pub model: ErrorModel,
    /// Last day its calibration holds; `None` where it is not stated.
    pub calibration_due: Option<Date>,
}

/// Figure of the accuracy of an instrument whose kind is known at run time only.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum InstrumentAccuracy {
    /// A share of the reading.
    OfReading(Share),
    /// A share of the end of the scale.
    OfFullScale {
        /// The share.
        share: Share,
        /// End of the scale.
        full_scale: Amount,
    },
    /// The same amount everywhere.
    Absolute(Amount),
}

impl InstrumentAccuracy {
    /// The figure as one of a kind; `None` where it is of another.
    #[must_use]
    pub fn of_kind<K: Kind>(self) -> Option<ErrorSize<K>> {
        Some(match self {
            Self::OfReading(share) => ErrorSize::OfReading(share),
            Self::OfFullScale { share, full_scale } => {
                ErrorSize::OfFullScale { share, full_scale: full_scale.of_kind()? }
            }
            Self::Absolute(amount) => ErrorSize::Absolute(amount.of_kind()?),
        })
    }
}

impl<K: Kind> From<ErrorSize<K>> for InstrumentAccuracy {
    fn from(size: ErrorSize<K>) -> Self {
        match size {
            ErrorSize::OfReading(share) => Self::OfReading(share),
            ErrorSize::OfFullScale { share, full_scale } => {
                Self::OfFullScale { share, full_scale: full_scale.amount() }
            }
            ErrorSize::Absolute(amount) => Self::Absolute(amount.amount()),
        }
    }
}

impl Station {
    /// Accuracy of one of its instruments on a day. An instrument whose calibration has lapsed or has
    /// no date, that is unknown or measures another kind, has an accuracy nobody knows.
    #[must_use]
    pub fn accuracy<K: Kind>(&self, instrument: &str, day: Date) -> Accuracy<K> {
        let instrument = self.instruments.iter().find(|known| known.code == instrument);
        let in_date = instrument.filter(|i| i.calibration_due.is_some_and(|due| day <= due));
        let size = in_date
            .and_then(|instrument| Some((instrument.model, instrument.accuracy?.of_kind()?)));
        size.map_or(Accuracy::Unknown, |(model, size)| Accuracy::Known(model, size))
    }
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

    /// Highest current that the source carries at a share of arc time within ten minutes, as far as the
    /// points of its plate go.
    ///
    /// # Errors
    /// [`PowerSourceError`] without a point, above the duty of every point, or for a plate that contradicts
    /// itself.
    pub fn current_at(&self, arc_on: Share) -> Result<Current, PowerSourceError> {
        let point = |point: &RatedPoint| DutyPoint { current: point.current, duty: point.duty };
        RatingPlate::new(self.rated.iter().map(point).collect())?.current_at(arc_on)
    }

    /// Highest current that the source carries as long as the job asks: for its share of arc time, else all
    /// the time; `None` where the plate does not say.
    #[must_use]
    pub fn lasting_current(&self, arc_on: Option<Share>) -> Option<Current> {
        match arc_on {
            Some(share) => self.current_at(share).ok(),
            None => self.continuous_current(),
        }
    }

    /// Highest rated load voltage.
    #[must_use]
    pub fn rated_voltage(&self) -> Option<Voltage> {
        self.rated.iter().filter_map(|point| point.voltage).reduce(Voltage::max)
    }
}
