//! The current that a feed and a stick-out will draw, as a band.

use super::{BurnOff, BurnOffError, BurnOffFit, BurnOffForm, StickOutEffect, equation::mm_per_s};
use crate::{
    quantity::{
        ArcMelting, Current, CurrentKind, ElectricalStickOut, Kind, Quantity, Range,
        ResistanceMelting, Share, ShareKind, Span, WireFeed,
    },
    trade::{coded, corners::span_of, formula},
};

formula! {
    /// What the stick-out does where the operating points show only one.
    pub const DEFAULT_STICK_OUT_EFFECT {
        name: "default-stick-out-effect",
        equation: "resistance does 15 to 65 percent of the melting; at constant feed \
                   w = (1 - s) w (I / I0) + s w (L / L0) (I / I0)^2",
        source: "generic coefficients, from memory, give 30 to 50 percent; widened on both sides",
        validity: "from two thirds to one and a half times the stick-out of the points",
        confidence: Memory,
    }
}

/// Least and greatest share of resistance in the melting, by default.
const DEFAULT_SHARE: (f64, f64) = (0.15, 0.65);

/// How far from the one stick-out of the points the default reaches.
const DEFAULT_REACH: f64 = 1.5;

/// No band is narrower than this share on either side, however well the points lie on a curve:
/// printed points are smoothed and instruments differ (common practice, no source).
const LEAST_HALF_WIDTH: f64 = 0.05;

/// Points needed for a band: two leave no scatter.
const POINTS_FOR_A_BAND: usize = 3;

coded! {
    /// What a predicted current rests on.
    pub enum BurnOffBasis: "basis of the predicted current" {
        /// The consumable's own operating points.
        Fitted = "fitted-to-the-consumable",
        /// Generic coefficients, from memory.
        Generic = "generic-from-memory",
    }
}

/// A predicted current.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CurrentBand {
    /// What the equation itself says.
    pub central: Current,
    /// Where the current will lie.
    pub band: Span<CurrentKind>,
    /// What it rests on.
    pub basis: BurnOffBasis,
    /// Where the effect of the stick-out comes from.
    pub stick_out_effect: StickOutEffect,
}

impl BurnOffBasis {
    /// Whether required limits may be held for every current of the band. Generic coefficients may
    /// not narrow anything, and no band forbids by itself.
    #[must_use]
    pub fn may_narrow(self) -> bool {
        self == Self::Fitted
    }
}

impl BurnOffFit {
    /// The current at a feed and a stick-out: 95 % prediction interval, at least 5 % to each side.
    ///
    /// # Errors
    /// [`BurnOffError::OutsideData`] beyond the operating points, [`BurnOffError::TooFewPoints`]
    /// for a fit to two points, whose scatter is unknown.
    pub fn current_band(
        &self,
        feed: WireFeed,
        stick_out: ElectricalStickOut,
    ) -> Result<CurrentBand, BurnOffError> {
        self.covers(feed, stick_out)?;
        let reference = self.reference(stick_out);
        let central = self.model.current(feed, reference)?;
        let gap = self.feed_half_width(central, reference)?;
        let at = |feed: f64| self.model.current(WireFeed::computed(feed.max(0.0))?, reference);
        let least =
            |sign: f64| Current::computed(central.amperes() * (1.0 + sign * LEAST_HALF_WIDTH));
        let low = at(feed.m_per_min() - gap)?.min(least(-1.0)?);
        let high = at(feed.m_per_min() + gap)?.max(least(1.0)?);
        let band = span_of(Ok(low), Ok(high))?;
        inside(band, self.span.current)?;
        self.moved(
            CurrentBand {
                central,
                band,
                basis: BurnOffBasis::Fitted,
                stick_out_effect: self.stick_out_effect(),
            },
            feed,
            (reference, stick_out),
        )
    }

    /// What a change of the stick-out at constant feed does to the current: the ratio of the new
    /// current to the old, as a band.
    ///
    /// # Errors
    /// As [`Self::current_band`], for either stick-out.
    pub fn current_ratio(
        &self,
        feed: WireFeed,
        from: ElectricalStickOut,
        to: ElectricalStickOut,
    ) -> Result<Span<ShareKind>, BurnOffError> {
        self.covers(feed, from)?;
        self.covers(feed, to)?;
        let reference = self.reference(from);
        let current = self.model.current(feed, reference)?;
        let shares = self.resistive_shares(feed, current, reference)?;
        let ratio = |share: Share| {
            let there = local(feed, current, reference, share)?;
            let new = there.current(feed, to)?.amperes();
            Ok::<_, BurnOffError>(Share::computed(new / there.current(feed, from)?.amperes())?)
        };
        let [one, other] = [ratio(shares.low())?, ratio(shares.high())?];
        Ok(span_of(Ok(one.min(other)), Ok(one.max(other)))?)
    }

    /// The band moved from the points' one stick-out to the one asked for.
    fn moved(
        &self,
        at_data: CurrentBand,
        feed: WireFeed,
        (from, to): (ElectricalStickOut, ElectricalStickOut),
    ) -> Result<CurrentBand, BurnOffError> {
        if from == to {
            return Ok(at_data);
        }
        let ratio = self.current_ratio(feed, from, to)?;
        let times = |current: Current, share: f64| Current::computed(current.amperes() * share);
        let middle = f64::midpoint(ratio.low().ratio(), ratio.high().ratio());
        Ok(CurrentBand {
            central: times(at_data.central, middle)?,
            band: span_of(
                times(at_data.band.low(), ratio.low().ratio()),
                times(at_data.band.high(), ratio.high().ratio()),
            )?,
            ..at_data
        })
    }

    /// Where the fit itself holds: the stick-out asked for, or the one that all points share.
    fn reference(&self, stick_out: ElectricalStickOut) -> ElectricalStickOut {
        let data = self.span.stick_out;
        match self.stick_out_effect() {
            StickOutEffect::FromData => stick_out,
            StickOutEffect::Default => stick_out.max(data.low()).min(data.high()),
        }
    }

    /// Refuses what lies beyond the operating points.
    fn covers(&self, feed: WireFeed, stick_out: ElectricalStickOut) -> Result<(), BurnOffError> {
        inside(Span::one(feed), self.span.feed)?;
        let data = self.span.stick_out;
        let reach = match self.stick_out_effect() {
            StickOutEffect::FromData => data,
            StickOutEffect::Default => span_of(
                ElectricalStickOut::computed(data.low().mm() / DEFAULT_REACH),
                ElectricalStickOut::computed(data.high().mm() * DEFAULT_REACH),
            )?,
        };
        inside(Span::one(stick_out), reach)
    }

    /// Half the width of the prediction interval, as a feed in m/min.
    fn feed_half_width(
        &self,
        current: Current,
        stick_out: ElectricalStickOut,
    ) -> Result<f64, BurnOffError> {
        let (amperes, length) = (current.amperes(), stick_out.mm());
        let half = match self.form {
            BurnOffForm::Feed => self.solution.half_width([amperes, length * amperes * amperes]),
            BurnOffForm::FeedPerCurrent => {
                self.solution.half_width([1.0, length * amperes]).map(|half| half * amperes)
            }
        };
        let half = half.ok_or_else(|| self.too_few())?;
        // mm/s to m/min.
        Ok(half * 0.06)
    }

    /// Least and greatest share of resistance in the melting at a point of the fit.
    fn resistive_shares(
        &self,
        feed: WireFeed,
        current: Current,
        stick_out: ElectricalStickOut,
    ) -> Result<Span<ShareKind>, BurnOffError> {
        let (low, high) = match self.stick_out_effect() {
            StickOutEffect::Default => DEFAULT_SHARE,
            StickOutEffect::FromData => {
                let half = self.solution.second_half_width().ok_or_else(|| self.too_few())?;
                let per_beta = stick_out.mm() * current.amperes().powi(2) / mm_per_s(feed);
                let share = |beta: f64| (beta * per_beta).clamp(0.0, 1.0);
                let beta = self.model.resistance.per_s_a2();
                (share(beta - half), share(beta + half))
            }
        };
        Ok(span_of(Share::computed(low), Share::computed(high))?)
    }

    fn too_few(&self) -> BurnOffError {
        BurnOffError::TooFewPoints { given: self.points(), needed: POINTS_FOR_A_BAND }
    }
}

/// Coefficients that go through one point with a given share of resistance.
fn local(
    feed: WireFeed,
    current: Current,
    stick_out: ElectricalStickOut,
    share: Share,
) -> Result<BurnOff, BurnOffError> {
    let (w, amperes) = (mm_per_s(feed), current.amperes());
    let resistance = share.ratio() * w / (stick_out.mm() * amperes * amperes);
    Ok(BurnOff {
        arc: ArcMelting::computed((1.0 - share.ratio()) * w / amperes)?,
        resistance: ResistanceMelting::computed(resistance)?,
    })
}

/// Refuses values that do not touch what the points cover.
pub(super) fn inside<K: Kind>(given: Span<K>, data: Span<K>) -> Result<(), BurnOffError> {
    let outside = |given: Quantity<K>| BurnOffError::OutsideData {
        given: given.amount(),
        data: data.amounts(),
    };
    if Range::from(data).touches(&given) { Ok(()) } else { Err(outside(given.low())) }
}
