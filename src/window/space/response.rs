//! How the current follows feed and stick-out, between two planes in logarithms.

use crate::{
    check::{Case, Owner},
    quantity::{
        Current, ElectricalStickOut, ElectricalStickOutKind, Share, Span, WireFeed, WireFeedKind,
    },
    trade::{BurnOffFit, BurnOffForm, BurnOffPoint, StickOutEffect},
};

/// `ln I = at + feed · ln w + stick_out · ln L`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(in crate::window) struct Plane {
    pub(in crate::window) feed: f64,
    pub(in crate::window) stick_out: f64,
    pub(in crate::window) at: f64,
}

impl Plane {
    /// The logarithm of the current at logarithms of feed and stick-out.
    pub(in crate::window) fn current(&self, feed: f64, stick_out: f64) -> f64 {
        self.at + self.feed * feed + self.stick_out * stick_out
    }
}

/// The current that follows from feed and stick-out: everywhere in the reach it lies below the highest
/// of the upper planes and above the lowest of the lower ones.
#[derive(Debug, Clone, PartialEq)]
pub struct Response {
    pub(in crate::window) upper: Vec<Plane>,
    pub(in crate::window) lower: Vec<Plane>,
    pub(in crate::window) gap: f64,
    /// Feeds it is known for.
    pub feeds: Span<WireFeedKind>,
    /// Stick-outs it is known for, those that the hand strays to counted in.
    pub stick_outs: Span<ElectricalStickOutKind>,
    /// Whose data it rests on.
    pub owner: Owner,
}

/// How the current enters the window.
#[derive(Debug, Clone, PartialEq)]
pub enum Follows {
    /// It is set, not following.
    IsSet,
    /// Every required limit holds for every current of this response.
    Robust(Box<Response>),
    /// How it follows is not known: it has to be read and kept inside its own limits.
    MustBeRead {
        /// Why.
        reason: String,
    },
}

/// Points of the grid on which a band is laid between two planes.
const FEEDS: usize = 13;
const STICK_OUTS: usize = 9;

/// Points a fit needs before it has a band.
const LEAST_POINTS: usize = 3;

impl Response {
    /// A power law through one point, `I = I0 (w / w0)^p (L / L0)^q`, with a band of `below` and `above`
    /// as shares of the current.
    #[must_use]
    pub fn power_law(
        through: &BurnOffPoint,
        exponents: (Share, Share),
        (below, above): (Share, Share),
        reach: (Span<WireFeedKind>, Span<ElectricalStickOutKind>),
        owner: Owner,
    ) -> Self {
        let (feed, stick_out) = (exponents.0.ratio(), exponents.1.ratio());
        let middle = through.current.amperes().ln()
            - feed * through.feed.m_per_min().ln()
            - stick_out * through.stick_out.mm().ln();
        let plane = |share: f64| Plane { feed, stick_out, at: middle + share.ln_1p() };
        Self {
            upper: vec![plane(above.ratio())],
            lower: vec![plane(-below.ratio())],
            gap: 0.0,
            feeds: reach.0,
            stick_outs: reach.1,
            owner,
        }
    }

    /// The response by the operating points printed for the case, within the feeds and stick-outs given
    /// as logarithms.
    ///
    /// # Errors
    /// Why there is none, in words.
    pub(in crate::window) fn of_data(
        case: &Case<'_>,
        (feeds, stick_outs): ((f64, f64), (f64, f64)),
    ) -> Result<Self, String> {
        let printed = case.printed_data().ok_or("no printed data matches the setup")?;
        let (_, condition) = case.data.ok_or("no printed data matches the setup")?;
        let aim = condition.ranges.stick_out.and_then(|range| range.min().zip(range.max()));
        let (shortest, longest) = aim.ok_or("the printed data has no span of the stick-out")?;
        // Common practice, no source: points are printed for the middle of the printed stick-outs.
        let middle = ElectricalStickOut::computed((shortest.mm() * longest.mm()).sqrt());
        let stick_out = middle.map_err(|error| error.to_string())?;
        let point = |point: &crate::check::record::OperatingPoint| {
            Some(BurnOffPoint { feed: point.wire_feed?, current: point.current, stick_out })
        };
        let points: Vec<_> = condition.points.iter().filter_map(point).collect();
        if points.len() < LEAST_POINTS {
            return Err(format!(
                "{} printed points with a wire feed leave the scatter of the current unknown",
                points.len()
            ));
        }
        let fit = BurnOffFit::new(&points, BurnOffForm::Feed).map_err(|error| error.to_string())?;
        let reach = Reach::of(&fit, feeds, stick_outs)?;
        planes(&fit, &reach, printed.owner())
    }
}

/// Ends of feed and stick-out as logarithms.
#[derive(Debug, Clone, Copy)]
struct Reach {
    feed: (f64, f64),
    stick_out: (f64, f64),
}

impl Reach {
    /// What the data cover of the feeds and stick-outs asked about.
    fn of(fit: &BurnOffFit, feeds: (f64, f64), stick_outs: (f64, f64)) -> Result<Self, String> {
        let span = fit.span();
        let data = span.stick_out;
        // How far the default effect of the stick-out reaches beyond the points.
        let beyond = match fit.stick_out_effect() {
            StickOutEffect::FromData => 1.0,
            StickOutEffect::Default => 1.5,
        };
        let cut = |asked: (f64, f64), low: f64, high: f64, of: &str| {
            let both = (asked.0.max(low.ln()), asked.1.min(high.ln()));
            let none = || format!("the printed data do not reach the allowed {of}");
            (both.0 <= both.1).then_some(both).ok_or_else(none)
        };
        let feed =
            cut(feeds, span.feed.low().m_per_min(), span.feed.high().m_per_min(), "wire feeds")?;
        let (low, high) = (data.low().mm() / beyond, data.high().mm() * beyond);
        Ok(Self { feed, stick_out: cut(stick_outs, low, high, "stick-outs")? })
    }

    /// The reach on either side of the one stick-out of the points, where they have only one.
    fn parts(&self, fit: &BurnOffFit) -> Vec<Self> {
        let middle = fit.span().stick_out.low().mm().ln();
        let (from, to) = self.stick_out;
        let bent = fit.stick_out_effect() == StickOutEffect::Default;
        if bent && from < middle && middle < to {
            let part = |stick_out| Self { stick_out, ..*self };
            vec![part((from, middle)), part((middle, to))]
        } else {
            vec![*self]
        }
    }

    fn at(&self, feed: usize, stick_out: usize) -> (f64, f64) {
        let on = |(low, high): (f64, f64), place: usize, of: usize| {
            let share = f64::from(u32::try_from(place).unwrap_or(0))
                / f64::from(u32::try_from(of - 1).unwrap_or(1));
            low + (high - low) * share
        };
        (on(self.feed, feed, FEEDS), on(self.stick_out, stick_out, STICK_OUTS))
    }
}

type Grid = [[f64; STICK_OUTS]; FEEDS];

/// Planes around the whole band. The default effect of the stick-out bends the band at the stick-out of
/// the points, so each side of it has its own planes.
fn planes(fit: &BurnOffFit, reach: &Reach, owner: Owner) -> Result<Response, String> {
    let parts = reach.parts(fit);
    let bands = parts.iter().map(|part| Ok((*part, bands(fit, part)?)));
    let bands = bands.collect::<Result<Vec<_>, String>>()?;
    let upper: Vec<_> = bands.iter().map(|(part, (_, high))| over(part, high)).collect();
    // Below is above, upside down.
    let down = |grid: &Grid| grid.map(|row| row.map(|current| -current));
    let lower: Vec<_> = bands
        .iter()
        .map(|(part, (low, _))| over(part, &down(low)))
        .map(|plane| Plane { feed: -plane.feed, stick_out: -plane.stick_out, at: -plane.at })
        .collect();
    let mut gap: f64 = 0.0;
    for (part, (low, high)) in &bands {
        for (row, column) in places() {
            let (w, l) = part.at(row, column);
            let all = |planes: &[Plane], of: fn(f64, f64) -> f64| {
                planes.iter().map(|plane| plane.current(w, l)).reduce(of)
            };
            let above = all(&upper, f64::max).map_or(0.0, |top| top - high[row][column]);
            let below = all(&lower, f64::min).map_or(0.0, |bottom| low[row][column] - bottom);
            gap = gap.max(above).max(below);
        }
    }
    let span = |ends: (f64, f64)| (ends.0.exp(), ends.1.exp());
    let (feeds, outs) = (span(reach.feed), span(reach.stick_out));
    Ok(Response {
        upper,
        lower,
        gap,
        feeds: span_of(WireFeed::computed(feeds.0), WireFeed::computed(feeds.1))?,
        stick_outs: span_of(
            ElectricalStickOut::computed(outs.0),
            ElectricalStickOut::computed(outs.1),
        )?,
        owner,
    })
}

/// Both ends of the band on a grid, as logarithms.
fn bands(fit: &BurnOffFit, reach: &Reach) -> Result<(Grid, Grid), String> {
    let mut low: Grid = [[0.0; STICK_OUTS]; FEEDS];
    let mut high = low;
    for (row, column) in places() {
        let (w, l) = reach.at(row, column);
        let feed = WireFeed::computed(w.exp()).map_err(|error| error.to_string())?;
        let out = ElectricalStickOut::computed(l.exp()).map_err(|error| error.to_string())?;
        let band = fit.current_band(feed, out).map_err(|error| error.to_string())?;
        low[row][column] = band.band.low().amperes().ln();
        high[row][column] = band.band.high().amperes().ln();
    }
    Ok((low, high))
}

fn places() -> impl Iterator<Item = (usize, usize)> {
    (0..FEEDS).flat_map(|row| (0..STICK_OUTS).map(move |column| (row, column)))
}

/// A plane above a whole surface. Between grid points a smooth surface leaves the straight line by at
/// most an eighth of its second difference; twice that is allowed for, on each axis.
fn over(reach: &Reach, grid: &Grid) -> Plane {
    let [feed, stick_out] = slopes(reach, grid);
    let flat = Plane { feed, stick_out, at: 0.0 };
    let rest = |(row, column): (usize, usize)| {
        let (w, l) = reach.at(row, column);
        grid[row][column] - flat.current(w, l)
    };
    let top = places().map(rest).fold(f64::NEG_INFINITY, f64::max);
    Plane { at: top + curvature(grid) / 4.0, ..flat }
}

fn span_of<K: crate::quantity::Kind>(
    low: Result<crate::quantity::Quantity<K>, crate::quantity::QuantityError>,
    high: Result<crate::quantity::Quantity<K>, crate::quantity::QuantityError>,
) -> Result<Span<K>, String> {
    let low = low.map_err(|error| error.to_string())?;
    let high = high.map_err(|error| error.to_string())?;
    Span::new(low, high).map_err(|error| error.to_string())
}

/// Mean slopes of a surface over the whole reach.
fn slopes(reach: &Reach, grid: &Grid) -> [f64; 2] {
    let mean = |values: Vec<f64>| {
        values.iter().sum::<f64>() / f64::from(u32::try_from(values.len()).unwrap_or(1))
    };
    let over = |(from, to): (f64, f64), rises: Vec<f64>| {
        if to - from > 1e-9 { mean(rises) / (to - from) } else { 0.0 }
    };
    let by_feed = (0..STICK_OUTS).map(|c| grid[FEEDS - 1][c] - grid[0][c]).collect();
    let by_stick_out = (0..FEEDS).map(|r| grid[r][STICK_OUTS - 1] - grid[r][0]).collect();
    [over(reach.feed, by_feed), over(reach.stick_out, by_stick_out)]
}

/// Sum over both axes of the largest second difference.
fn curvature(grid: &Grid) -> f64 {
    let bend = |a: f64, b: f64, c: f64| (a - 2.0 * b + c).abs();
    let down = (1..FEEDS - 1).flat_map(|r| {
        (0..STICK_OUTS).map(move |c| bend(grid[r - 1][c], grid[r][c], grid[r + 1][c]))
    });
    let across = (0..FEEDS).flat_map(|r| {
        (1..STICK_OUTS - 1).map(move |c| bend(grid[r][c - 1], grid[r][c], grid[r][c + 1]))
    });
    down.fold(0.0, f64::max) + across.fold(0.0, f64::max)
}

/// A band around a current, for the settings of an answer.
pub(in crate::window) fn current_span(
    low: f64,
    high: f64,
) -> Option<Span<crate::quantity::CurrentKind>> {
    Span::new(Current::computed(low.exp()).ok()?, Current::computed(high.exp()).ok()?).ok()
}
