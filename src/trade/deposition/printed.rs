//! Deposition rate of a wire by the operating points printed for it.

use crate::{
    quantity::{
        DepositionRate, DepositionRateKind, Kind, LinearMassKind, Quantity, QuantityError, Span,
        WireFeed, WireFeedKind,
    },
    trade::{corners::span_of, formula},
};

formula! {
    /// Deposition rate of a wire by operating points printed for it.
    ///
    /// Metal per length of wire, rate over feed, hardly changes with the feed, so between two points the rate is
    /// taken as linear, and beyond the outermost ones that metal as theirs.
    pub const PRINTED_DEPOSITION_RATE {
        name: "printed-deposition-rate",
        equation: "DR = DR1 + (DR2 - DR1) * (w - w1) / (w2 - w1) from the printed feed w1 to the next one, \
                   w2; beyond the outermost DR = DR1 * w / w1",
        source: "deposition rates printed for the wire; straight lines between them",
        validity: "the diameter, gas, polarity and positions that the data is printed for; while the arc \
                   burns; no pauses",
        confidence: Derived,
    }
}

/// Deposition rates printed for one wire in one condition, by wire feed speed.
#[derive(Debug, Clone, PartialEq)]
pub struct PrintedRates {
    /// By rising feed, no two alike.
    points: Vec<Point>,
    feeds: Span<WireFeedKind>,
    metal: Span<LinearMassKind>,
}

/// One feed; two rates where the data has several lines for it.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Point {
    feed: WireFeed,
    low: DepositionRate,
    high: DepositionRate,
}

impl PrintedRates {
    /// The rates of these points; `None` where there are none, or none that a number can hold. A point without feed or
    /// rate says nothing.
    #[must_use]
    pub fn of(printed: impl IntoIterator<Item = (WireFeed, DepositionRate)>) -> Option<Self> {
        let known = |(feed, rate): &(WireFeed, DepositionRate)| {
            feed.m_per_min() > 0.0 && rate.kg_per_h() > 0.0
        };
        let point = |(feed, rate)| Point { feed, low: rate, high: rate };
        let mut points: Vec<_> = printed.into_iter().filter(known).map(point).collect();
        points.sort_by(|a, b| a.feed.canonical().total_cmp(&b.feed.canonical()));
        points.dedup_by(|next, kept| {
            let same = next.feed == kept.feed;
            if same {
                (kept.low, kept.high) = (kept.low.min(next.low), kept.high.max(next.high));
            }
            same
        });
        let feeds = Span::new(points.first()?.feed, points.last()?.feed).ok()?;
        let metal = per_length(&points).ok()?;
        Some(Self { points, feeds, metal })
    }

    /// From the lowest to the highest printed feed.
    #[must_use]
    pub const fn feeds(&self) -> Span<WireFeedKind> {
        self.feeds
    }

    /// Least and greatest deposition rate over a span of feeds, by [`PRINTED_DEPOSITION_RATE`].
    ///
    /// # Errors
    /// [`QuantityError::NotFinite`] on overflow.
    pub fn at(
        &self,
        feeds: &Span<WireFeedKind>,
    ) -> Result<Span<DepositionRateKind>, QuantityError> {
        let (from, to) = (feeds.low().m_per_min(), feeds.high().m_per_min());
        // Straight lines have their extremes at their ends.
        let inside = self.points.iter().filter(|point| {
            let feed = point.feed.m_per_min();
            from < feed && feed < to
        });
        let inside = inside.flat_map(|point| [point.low.kg_per_h(), point.high.kg_per_h()]);
        ends(self.lines(from).into_iter().chain(self.lines(to)).chain(inside))
    }

    /// Least and greatest metal per length of wire over all feeds. Between two points the metal lies between
    /// theirs: each is a weighted mean of theirs, by the feeds.
    #[must_use]
    pub const fn per_length(&self) -> Span<LinearMassKind> {
        self.metal
    }

    /// The rates at a feed in m/min, in kg/h: through the low ends of the points, and through the high ends.
    fn lines(&self, w: f64) -> [f64; 2] {
        let of = |point: &Point| [point.low.kg_per_h(), point.high.kg_per_h()];
        let above = self.points.partition_point(|point| point.feed.m_per_min() < w);
        let (before, after) = (above.checked_sub(1), self.points.get(above));
        match (before.and_then(|before| self.points.get(before)), after) {
            (Some(left), Some(right)) => {
                let (from, to) = (left.feed.m_per_min(), right.feed.m_per_min());
                let share = (w - from) / (to - from);
                let ([low, high], [next_low, next_high]) = (of(left), of(right));
                let between = |rate: f64, next: f64| rate * (1.0 - share) + next * share;
                [between(low, next_low), between(high, next_high)]
            }
            (Some(only), None) | (None, Some(only)) => {
                of(only).map(|rate| rate * w / only.feed.m_per_min())
            }
            (None, None) => [f64::INFINITY; 2],
        }
    }
}

/// Least and greatest metal per length of wire at the points.
fn per_length(points: &[Point]) -> Result<Span<LinearMassKind>, QuantityError> {
    let metal =
        |rate: DepositionRate, feed: WireFeed| rate.kg_per_h() * 1_000.0 / 60.0 / feed.m_per_min();
    let of = |point: &Point| [metal(point.low, point.feed), metal(point.high, point.feed)];
    ends(points.iter().flat_map(of))
}

/// The least and the greatest of some values in the canonical unit, none of which is not a number.
fn ends<K: Kind>(values: impl Iterator<Item = f64>) -> Result<Span<K>, QuantityError> {
    let none = (f64::INFINITY, f64::NEG_INFINITY);
    let (low, high) = values.fold(none, |(low, high), value| (low.min(value), high.max(value)));
    span_of(Quantity::computed(low), Quantity::computed(high))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Points of an invented wire of 1/16 in.
    const POINTS: [(&str, &str); 4] = [
        ("350 in/min", "12.8 lb/h"),
        ("150 in/min", "5.5 lb/h"),
        ("280 in/min", "10.2 lb/h"),
        ("210 in/min", "7.7 lb/h"),
    ];

    fn rates(points: &[(&str, &str)]) -> PrintedRates {
        let parsed = points.iter().map(|(w, rate)| (w.parse().unwrap(), rate.parse().unwrap()));
        PrintedRates::of(parsed).unwrap()
    }

    /// Rate at a feed or over a span of feeds, in lb/h.
    fn at(rates: &PrintedRates, low: &str, high: &str) -> (f64, f64) {
        let feeds = Span::new(low.parse().unwrap(), high.parse().unwrap()).unwrap();
        let span = rates.at(&feeds).unwrap();
        // 1 lb = 0.453 592 37 kg, by definition.
        (span.low().kg_per_h() / 0.453_592_37, span.high().kg_per_h() / 0.453_592_37)
    }

    fn near((low, high): (f64, f64), expected: (f64, f64)) -> bool {
        (low - expected.0).abs() < 1e-4 && (high - expected.1).abs() < 1e-4
    }

    /// Own arithmetic, in lb/h and in/min: at 300, 10.2 + 20 / 70 * 2.6 = 10.942 86; at 180, 5.5 + 30 / 60 * 2.2 =
    /// 6.6; at a printed feed the printed rate. Below the first point 5.5 / 150 * 100 = 3.666 67, above the last
    /// 12.8 / 350 * 400 = 14.628 57.
    #[test]
    fn rates_are_straight_between_points_and_keep_the_metal_beyond() {
        let rates = rates(&POINTS);
        for (feed, expected) in [
            ("300 in/min", 10.942_86),
            ("180 in/min", 6.6),
            ("280 in/min", 10.2),
            ("350 in/min", 12.8),
            ("100 in/min", 3.666_67),
            ("400 in/min", 14.628_57),
        ] {
            let rate = at(&rates, feed, feed);
            assert!(near(rate, (expected, expected)), "{feed}: {rate:?}");
        }
        assert_eq!(rates.feeds().low().to_string(), "150 in/min");
        assert_eq!(rates.feeds().high().to_string(), "350 in/min");
    }

    /// A line that falls is no mistake of ours to mend: the highest rate may lie inside a span of feeds.
    #[test]
    fn the_extremes_of_a_span_of_feeds_count() {
        let bent = rates(&[("5 m/min", "2 kg/h"), ("6 m/min", "3 kg/h"), ("7 m/min", "2.8 kg/h")]);
        let span = Span::new("5.5 m/min".parse().unwrap(), "7 m/min".parse().unwrap()).unwrap();
        let rate = bent.at(&span).unwrap();
        assert_eq!((rate.low().kg_per_h(), rate.high().kg_per_h()), (2.5, 3.0));
    }

    /// Own arithmetic: 1 lb/h at 1 in/min is 453.592 37 / 60 / 0.0254 = 297.633 g/m; 10.2 / 280 = 0.036 428 6
    /// makes 10.8423 g/m, 5.5 / 150 = 0.036 666 7 makes 10.9132 g/m.
    #[test]
    fn metal_per_length_lies_between_that_of_the_points() {
        let rates = rates(&POINTS);
        let metal = rates.per_length();
        assert!((metal.low().g_per_m() - 10.842_3).abs() < 1e-4, "{}", metal.low());
        assert!((metal.high().g_per_m() - 10.913_2).abs() < 1e-4, "{}", metal.high());
        for tenth in 0..=500 {
            let feed = WireFeed::computed(2.0 + f64::from(tenth) / 50.0).unwrap();
            let rate = rates.at(&Span::one(feed)).unwrap().low().kg_per_h();
            let per_metre = rate * 1_000.0 / 60.0 / feed.m_per_min();
            assert!((10.842_2..=10.913_3).contains(&per_metre), "{feed}: {per_metre}");
        }
    }

    /// Two lines for one feed, such as of two voltages, are a band; a single point holds by its metal.
    #[test]
    fn several_lines_for_one_feed_are_a_band() {
        let rates = rates(&[("6 m/min", "2 kg/h"), ("8 m/min", "3.2 kg/h"), ("8 m/min", "3 kg/h")]);
        let at = |feed: &str| rates.at(&Span::one(feed.parse().unwrap())).unwrap();
        let ends = |feed: &str| (at(feed).low().to_string(), at(feed).high().to_string());
        assert_eq!(ends("8 m/min"), ("3 kg/h".to_owned(), "3.2 kg/h".to_owned()));
        assert_eq!(ends("7 m/min"), ("2.5 kg/h".to_owned(), "2.6 kg/h".to_owned()));
        assert_eq!(ends("4 m/min"), ("1.333 kg/h".to_owned(), "1.333 kg/h".to_owned()));
    }

    #[test]
    fn nothing_is_made_of_no_points() {
        assert_eq!(PrintedRates::of([]), None);
        let nothing = DepositionRate::computed(0.0).unwrap();
        assert_eq!(PrintedRates::of([("8 m/min".parse().unwrap(), nothing)]), None);
    }
}
