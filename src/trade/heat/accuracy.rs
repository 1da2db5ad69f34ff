//! How far an instrument may be off.

use rust_decimal::{Decimal, prelude::ToPrimitive};

use crate::quantity::{Kind, Quantity, QuantityError, Share, Unit};

/// How far an instrument may be off, as expanded uncertainty (coverage factor 2).
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Accuracy<K: Kind> {
    /// Not stated, or the instrument's calibration has lapsed. Never taken as zero.
    Unknown,
    /// A share of the value read.
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

impl<K: Kind> Accuracy<K> {
    /// The same amount everywhere on the scale, as typed. It is a difference of two values, so the
    /// plausible span of the kind does not hold for it (0.5 A is no welding current), nor does the
    /// zero of the unit: 9 °F more is 5 °C more.
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
        Quantity::computed(number * unit.factor.0 / unit.factor.1).map(Self::Absolute)
    }

    /// Expanded uncertainty at a reading, both in canonical units; `None` where unknown.
    pub(crate) fn at_reading(&self, reading: f64) -> Option<f64> {
        match self {
            Self::Unknown => None,
            Self::OfReading(share) => Some(share.ratio() * reading.abs()),
            Self::OfFullScale { share, full_scale } => {
                Some(share.ratio() * full_scale.canonical().abs())
            }
            Self::Absolute(amount) => Some(amount.canonical().abs()),
        }
    }
}
