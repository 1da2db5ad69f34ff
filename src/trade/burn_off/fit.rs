//! The burn-off equation fitted to a consumable's own operating points.

use super::{
    BurnOff, BurnOffError,
    equation::mm_per_s,
    least_squares::{Row, Solution, solve},
};
use crate::{
    quantity::{
        ArcMelting, Current, CurrentKind, ElectricalStickOut, ElectricalStickOutKind, Kind,
        Quantity, ResistanceMelting, Share, Span, WireFeed, WireFeedKind,
    },
    trade::{coded, formula},
};

formula! {
    /// Fit of both coefficients.
    pub const BURN_OFF_FIT {
        name: "burn-off-fit",
        equation: "least squares of w = alpha I + beta L I^2, or of w / I = alpha + beta (L I)",
        source: "burn-off; least squares with two coefficients, 95 % prediction interval by Student's t",
        validity: "points of one consumable, diameter, gas and polarity; two points give coefficients, \
                   three give a scatter; only inside the points",
        confidence: Derived,
    }
}

/// Stick-outs closer together than this ratio count as one: a hand holds no better (common
/// practice, no source).
pub(super) const ONE_STICK_OUT: f64 = 1.1;

coded! {
    /// Which form of the equation is fitted: where the scatter is the same in mm/s, the first;
    /// where it grows with the current, the second.
    pub enum BurnOffForm: "form of the burn-off fit" {
        /// `w = alpha I + beta L I²`.
        Feed = "feed",
        /// `w / I = alpha + beta (L I)`.
        FeedPerCurrent = "feed-per-current",
    }
}

coded! {
    /// Where the effect of the stick-out comes from.
    pub enum StickOutEffect: "source of the stick-out effect" {
        /// The points have several stick-outs.
        FromData = "from-data",
        /// The points have one stick-out, or there are none: a stated default with a wide band.
        Default = "default",
    }
}

/// One operating point.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BurnOffPoint {
    /// Wire feed speed.
    pub feed: WireFeed,
    /// Current that followed.
    pub current: Current,
    /// Electrical stick-out at it.
    pub stick_out: ElectricalStickOut,
}

/// What the operating points cover.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BurnOffSpan {
    /// Wire feed speeds.
    pub feed: Span<WireFeedKind>,
    /// Currents.
    pub current: Span<CurrentKind>,
    /// Stick-outs.
    pub stick_out: Span<ElectricalStickOutKind>,
}

/// A fit, with what it rests on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BurnOffFit {
    pub(super) model: BurnOff,
    pub(super) form: BurnOffForm,
    pub(super) span: BurnOffSpan,
    pub(super) solution: Solution,
    points: usize,
}

impl BurnOffFit {
    /// Number of coefficients that the points of every fit determine; fewer are no fit.
    pub const RANK: u8 = 2;

    /// Fits the equation to operating points, [`BURN_OFF_FIT`].
    ///
    /// # Errors
    /// [`BurnOffError::TooFewPoints`] for fewer than two, [`BurnOffError::OneDirection`] where they
    /// do not separate both effects, [`BurnOffError::Unphysical`] for a negative coefficient.
    pub fn new(points: &[BurnOffPoint], form: BurnOffForm) -> Result<Self, BurnOffError> {
        let rows = points.iter().map(|point| row(point, form)).collect::<Result<Vec<_>, _>>()?;
        let solution = solve(&rows)?;
        let [alpha, beta] = solution.coefficients;
        if alpha < 0.0 || beta < 0.0 {
            return Err(BurnOffError::Unphysical { alpha, beta });
        }
        let model = BurnOff {
            arc: ArcMelting::computed(alpha)?,
            resistance: ResistanceMelting::computed(beta)?,
        };
        let none = || BurnOffError::TooFewPoints { given: points.len(), needed: 2 };
        let span = BurnOffSpan {
            feed: covered(points.iter().map(|point| point.feed)).ok_or_else(none)?,
            current: covered(points.iter().map(|point| point.current)).ok_or_else(none)?,
            stick_out: covered(points.iter().map(|point| point.stick_out)).ok_or_else(none)?,
        };
        Ok(Self { model, form, span, solution, points: points.len() })
    }

    /// The coefficients.
    #[must_use]
    pub const fn model(&self) -> BurnOff {
        self.model
    }

    /// The form that was fitted.
    #[must_use]
    pub const fn form(&self) -> BurnOffForm {
        self.form
    }

    /// Number of operating points.
    #[must_use]
    pub const fn points(&self) -> usize {
        self.points
    }

    /// Standard deviation of the residuals as a share of the mean; `None` for two points, which
    /// leave none.
    ///
    /// # Errors
    /// [`BurnOffError::Quantity`] where the mean is zero.
    pub fn residual(&self) -> Result<Option<Share>, BurnOffError> {
        let relative = self.solution.sigma.map(|sigma| Share::computed(sigma / self.solution.mean));
        Ok(relative.transpose()?)
    }

    /// What the points cover.
    #[must_use]
    pub const fn span(&self) -> BurnOffSpan {
        self.span
    }

    /// Whether the points themselves show what the stick-out does.
    #[must_use]
    pub fn stick_out_effect(&self) -> StickOutEffect {
        let [low, high] = [self.span.stick_out.low().mm(), self.span.stick_out.high().mm()];
        if high > ONE_STICK_OUT * low { StickOutEffect::FromData } else { StickOutEffect::Default }
    }
}

/// One equation of the fit.
pub(super) fn row(point: &BurnOffPoint, form: BurnOffForm) -> Result<Row, BurnOffError> {
    let (w, current) = (mm_per_s(point.feed), point.current.amperes());
    let length = point.stick_out.mm();
    if w <= 0.0 || current <= 0.0 || length <= 0.0 {
        return Err(BurnOffError::NotPositive);
    }
    Ok(match form {
        BurnOffForm::Feed => Row { x: [current, length * current * current], y: w },
        BurnOffForm::FeedPerCurrent => Row { x: [1.0, length * current], y: w / current },
    })
}

fn covered<K: Kind>(values: impl Iterator<Item = Quantity<K>> + Clone) -> Option<Span<K>> {
    let low = values.clone().reduce(Quantity::min)?;
    Span::new(low, values.reduce(Quantity::max)?).ok()
}
