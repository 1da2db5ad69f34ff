//! How far an instrument may be off, and what kind of statement says so.

use rust_decimal::{Decimal, prelude::ToPrimitive};

use crate::{
    quantity::{Kind, Quantity, QuantityError, Share, Unit},
    trade::coded,
};

coded! {
    /// What the figure of an accuracy says, and so how the errors of the instrument are spread.
    pub enum ErrorModel: "meaning of an accuracy" {
        /// Expanded uncertainty at coverage factor 2, as a calibration certificate gives it: errors are
        /// normal with half of it as standard uncertainty (JCGM 100:2008, 4.3.3 and 6.2).
        Expanded = "expanded-uncertainty",
        /// No error is larger, as a data sheet, a class or a verification gives it: every error up to the
        /// figure is as likely, with the figure over the root of 3 as standard uncertainty (JCGM 100:2008,
        /// 4.3.7).
        Largest = "maximum-permissible-error",
    }
}

impl ErrorModel {
    /// Standard uncertainty for a figure of one.
    #[must_use]
    pub fn standard_share(self) -> f64 {
        match self {
            Self::Expanded => 0.5,
            Self::Largest => 3.0_f64.sqrt().recip(),
        }
    }

    /// Expanded uncertainty at coverage factor 2 for a figure of one.
    #[must_use]
    pub fn expanded_share(self) -> f64 {
        2.0 * self.standard_share()
    }
}

/// The figure of an accuracy.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum ErrorSize<K: Kind> {
    /// A share of the value read, as the number stands on the scale it was read on: 1 % of 300 °F are 3 degrees
    /// Fahrenheit.
    OfReading(Share),
    /// A share of the end of the scale.
    OfFullScale {
        /// The share.
        share: Share,
        /// End of the scale.
        full_scale: Quantity<K>,
    },
    /// The same amount everywhere on the scale: a difference, see [`Accuracy::absolute`].
    Absolute(Quantity<K>),
}

/// How far an instrument may be off.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Accuracy<K: Kind> {
    /// Not stated, or the instrument's calibration has lapsed. Never taken as zero.
    Unknown,
    /// A figure and what it means.
    Known(ErrorModel, ErrorSize<K>),
}

/// How far a reading may be off, in canonical units.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct ErrorAt {
    /// What the figure means.
    pub model: ErrorModel,
    /// The figure, not negative.
    pub figure: f64,
}

impl ErrorAt {
    /// No error at all: the value was set or is nominal.
    pub const NONE: Self = Self { model: ErrorModel::Expanded, figure: 0.0 };

    /// Standard uncertainty.
    pub fn standard(self) -> f64 {
        self.figure * self.model.standard_share()
    }

    /// Expanded uncertainty at coverage factor 2.
    pub fn expanded(self) -> f64 {
        self.figure * self.model.expanded_share()
    }
}

impl<K: Kind> Accuracy<K> {
    /// An expanded uncertainty (coverage factor 2) as a share of the value read.
    #[must_use]
    pub const fn of_reading(share: Share) -> Self {
        Self::Known(ErrorModel::Expanded, ErrorSize::OfReading(share))
    }

    /// An expanded uncertainty (coverage factor 2) that is the same everywhere on the scale.
    #[must_use]
    pub const fn of_amount(amount: Quantity<K>) -> Self {
        Self::Known(ErrorModel::Expanded, ErrorSize::Absolute(amount))
    }

    /// An expanded uncertainty (coverage factor 2) that is the same everywhere on the scale, as typed. It
    /// is a difference of two values, so the plausible span of the kind does not hold for it (0.5 A is no
    /// welding current), nor does the zero of the unit: 9 °F more is 5 °C more.
    ///
    /// # Errors
    /// [`QuantityError::UnknownUnit`] for a unit this kind does not have,
    /// [`QuantityError::NotFinite`] where the number does not fit.
    pub fn absolute(number: Decimal, unit: &str) -> Result<Self, QuantityError> {
        let named = |known: &&Unit| known.symbol == unit || known.also.contains(&unit);
        let unit = K::INFO.units.iter().find(named).ok_or_else(|| QuantityError::UnknownUnit {
            given: unit.to_owned(),
            quantity: K::INFO.name,
            known: K::INFO.units.iter().map(|unit| unit.symbol).collect(),
        })?;
        let number = number.abs().to_f64().unwrap_or(f64::NAN);
        Quantity::computed(number * unit.factor.0 / unit.factor.1).map(Self::of_amount)
    }

    /// How far a reading may be off that stands so far from the zero of its scale, in canonical units; `None` where
    /// unknown.
    pub(crate) fn at_reading(&self, reading: f64) -> Option<ErrorAt> {
        let Self::Known(model, size) = self else { return None };
        let figure = match size {
            ErrorSize::OfReading(share) => share.ratio() * reading.abs(),
            ErrorSize::OfFullScale { share, full_scale } => {
                share.ratio() * full_scale.distance_on_scale()
            }
            ErrorSize::Absolute(amount) => amount.canonical().abs(),
        };
        Some(ErrorAt { model: *model, figure })
    }
}

impl<K: Kind> ErrorSize<K> {
    /// Whether a reading lies on the scale of the instrument, as far as its end is stated.
    #[must_use]
    pub fn scale_holds(&self, reading: Quantity<K>) -> bool {
        match self {
            Self::OfFullScale { full_scale, .. } => reading.at_most(*full_scale),
            Self::OfReading(_) | Self::Absolute(_) => true,
        }
    }

    /// The figure times a factor: an expanded uncertainty at another coverage factor.
    ///
    /// # Errors
    /// [`QuantityError::NotFinite`] for an overflow.
    pub fn times(self, factor: f64) -> Result<Self, QuantityError> {
        let share = |share: Share| Share::computed(share.ratio() * factor);
        Ok(match self {
            Self::OfReading(part) => Self::OfReading(share(part)?),
            Self::OfFullScale { share: part, full_scale } => {
                Self::OfFullScale { share: share(part)?, full_scale }
            }
            Self::Absolute(amount) => {
                Self::Absolute(Quantity::computed(amount.canonical() * factor)?)
            }
        })
    }
}
