//! One welding place: power source, feeder and gun.

use time::Date;

use crate::{
    check::{OwnedRanges, Variable},
    quantity::{Amount, Current, Diameter, Kind, KindInfo, Mass, Share, Voltage, WireFeed},
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
    pub ranges: OwnedRanges,
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
    OfReading {
        /// The share.
        share: Share,
        /// The kind of quantity that is read: a share says nothing of it.
        of: &'static KindInfo,
    },
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

/// Why nobody knows the accuracy of an instrument.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("instrument {instrument} of station {station} {lack}")]
pub struct InstrumentGap {
    /// Code of the instrument.
    pub instrument: String,
    /// Code of the station.
    pub station: String,
    /// What it lacks.
    pub lack: InstrumentLack,
}

/// What an instrument lacks for its accuracy to be known.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum InstrumentLack {
    /// The station has no such instrument.
    #[error("is not on record")]
    NotOnRecord,
    /// Its calibration held to an earlier day.
    #[error("is out of calibration: it held until {due}, and the setup is for {day}")]
    Lapsed {
        /// Last day it held.
        due: Date,
        /// Day that is asked about.
        day: Date,
    },
    /// How long its calibration holds is not recorded.
    #[error("has no day on record until which its calibration holds")]
    NoDate,
    /// Its accuracy is not recorded.
    #[error("has no accuracy on record")]
    NotStated,
    /// It reads another kind of quantity than this.
    #[error("reads no {0}")]
    OtherKind(&'static str),
    /// The reading lies beyond the end of its scale.
    #[error("is read beyond the end of its scale")]
    BeyondScale,
}

impl InstrumentLack {
    /// What to do about it.
    #[must_use]
    pub const fn remedy(self) -> &'static str {
        match self {
            Self::NotOnRecord => {
                "Name an instrument of the station, or leave it out and state the accuracy."
            }
            Self::Lapsed { .. } | Self::NoDate => {
                "Have it calibrated and record until when that holds, or read a calibrated one."
            }
            Self::NotStated => "Record its accuracy, or state it with the value.",
            Self::OtherKind(_) => {
                "Name the instrument that reads this, or leave it out and state the accuracy."
            }
            Self::BeyondScale => "Read it with an instrument whose scale goes that far.",
        }
    }
}

impl InstrumentAccuracy {
    /// The figure as one of a kind; `None` where it is of another.
    #[must_use]
    pub fn of_kind<K: Kind>(self) -> Option<ErrorSize<K>> {
        Some(match self {
            Self::OfReading { share, of } if of == K::INFO => ErrorSize::OfReading(share),
            Self::OfReading { .. } => return None,
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
            ErrorSize::OfReading(share) => Self::OfReading { share, of: K::INFO },
            ErrorSize::OfFullScale { share, full_scale } => {
                Self::OfFullScale { share, full_scale: full_scale.amount() }
            }
            ErrorSize::Absolute(amount) => Self::Absolute(amount.amount()),
        }
    }
}

impl Station {
    /// The figure of the accuracy of one of its instruments on a day, and what it means.
    ///
    /// # Errors
    /// [`InstrumentGap`] where nobody knows it.
    pub fn known_accuracy<K: Kind>(
        &self,
        code: &str,
        day: Date,
    ) -> Result<(ErrorModel, ErrorSize<K>), InstrumentGap> {
        let gap =
            |lack| InstrumentGap { instrument: code.to_owned(), station: self.code.clone(), lack };
        let instrument = self.instruments.iter().find(|known| known.code == code);
        let instrument = instrument.ok_or_else(|| gap(InstrumentLack::NotOnRecord))?;
        match instrument.calibration_due {
            Some(due) if day <= due => {}
            Some(due) => return Err(gap(InstrumentLack::Lapsed { due, day })),
            None => return Err(gap(InstrumentLack::NoDate)),
        }
        let accuracy = instrument.accuracy.ok_or_else(|| gap(InstrumentLack::NotStated))?;
        let of_kind =
            accuracy.of_kind().ok_or_else(|| gap(InstrumentLack::OtherKind(K::INFO.name)));
        of_kind.map(|size| (instrument.model, size))
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
