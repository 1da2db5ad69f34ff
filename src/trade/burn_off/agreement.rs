//! Whether a reading agrees with a consumable's own operating points.

use super::{
    BurnOffError, BurnOffFit, BurnOffPoint, StickOutEffect,
    fit::{ONE_STICK_OUT, row},
    predict::inside,
};
use crate::{
    quantity::{ElectricalStickOut, Share, Span},
    trade::corners::span_of,
};

/// Feeds farther than this share from the fit are far from it (common practice, no source).
const FAR: f64 = 0.15;

impl BurnOffFit {
    /// How far a point's feed lies above (or, negative, below) the fit, as a share of the fit.
    ///
    /// # Errors
    /// [`BurnOffError::OutsideData`] for a current or stick-out beyond the operating points,
    /// [`BurnOffError::NotPositive`] for a point that is none.
    pub fn deviation(&self, point: &BurnOffPoint) -> Result<Share, BurnOffError> {
        row(point, self.form)?;
        inside(Span::one(point.current), self.span.current)?;
        let data = self.span.stick_out;
        let near = match self.stick_out_effect() {
            StickOutEffect::FromData => data,
            StickOutEffect::Default => span_of(
                ElectricalStickOut::computed(data.low().mm() / ONE_STICK_OUT),
                ElectricalStickOut::computed(data.high().mm() * ONE_STICK_OUT),
            )?,
        };
        inside(Span::one(point.stick_out), near)?;
        let expected = self.model.feed(point.current, point.stick_out)?;
        Ok(Share::computed(point.feed.m_per_min() / expected.m_per_min() - 1.0)?)
    }

    /// Whether a point lies more than 15 % from the fit (common practice, no source): worth a
    /// second look at the readings, no more.
    ///
    /// # Errors
    /// As [`Self::deviation`].
    pub fn is_far_from(&self, point: &BurnOffPoint) -> Result<bool, BurnOffError> {
        let deviation = Share::computed(self.deviation(point)?.ratio().abs())?;
        Ok(!deviation.at_most(Share::computed(FAR)?))
    }
}
