//! Volts and current that go with the wire feed by printed points: faces inside the printed band.

use std::slice;

use super::{Derived, FEED, Face, Holder, ORDER, Side, Space, Subject, amount, end_of};
use crate::{
    check::{Force, Owner, PrintedFit, Variable},
    quantity::{AmountRange, RELATIVE_TOLERANCE},
    window::linear::AXES,
};

/// Feeds or stick-outs that a window asks about, as logarithms.
#[derive(Debug, Clone, Copy)]
pub(in crate::window) struct Asked {
    /// The least and the greatest.
    pub(in crate::window) ends: (f64, f64),
    /// The one at which ends of limits are stated, if it is among those that are left; else the middle.
    pub(in crate::window) stated: Option<f64>,
}

impl Asked {
    pub(super) const fn middle(&self) -> f64 {
        f64::midpoint(self.ends.0, self.ends.1)
    }

    /// Where ends of limits are stated, between these.
    pub(super) fn shown(&self, (from, to): (f64, f64)) -> f64 {
        let is_left = |stated: &f64| (from..=to).contains(stated);
        self.stated.filter(is_left).unwrap_or(f64::midpoint(from, to))
    }
}

/// A straight line between two printed points, feeds and values not as logarithms.
#[derive(Debug, Clone, Copy)]
struct Line {
    from: (f64, f64),
    to: (f64, f64),
}

/// A straight line in logarithms.
#[derive(Debug, Clone, Copy)]
struct Slant {
    slope: f64,
    at: f64,
}

/// Straight lines in logarithms on the safe side of what is printed, and how much of it they give away at most.
#[derive(Debug, Clone)]
struct Edge {
    slants: Vec<Slant>,
    gap: f64,
}

impl Space {
    /// Advises of values of an axis and feeds that go together as the printed ones do, which the check compares; of
    /// a current that follows by itself, every one that can.
    ///
    /// # Errors
    /// Why the window cannot hold that, in words.
    pub(in crate::window) fn printed_for_feeds(
        &mut self,
        (axis, derived): (usize, Derived),
        fit: &PrintedFit<'_>,
        feeds: &Asked,
        owner: &Owner,
    ) -> Result<(), String> {
        let none = || "the printed points do not reach the allowed wire feeds".to_owned();
        let lines = lines(fit.curve.points(), feeds.ends);
        let (first, last) = lines.first().zip(lines.last()).ok_or_else(none)?;
        let (from, to) = (first.from.0, last.to.0);
        let (below, above) = ((-fit.share).ln_1p(), fit.share.ln_1p());
        let edges = [Side::Lowest, Side::Highest].map(|side| Edge::beside(&lines, side));
        if edges.iter().map(|edge| edge.gap).sum::<f64>() >= above - below {
            return Err(
                "the printed points bend too much for straight faces between them".to_owned()
            );
        }
        self.stay_at_printed_feeds((from, to), feeds.ends, owner).ok_or_else(none)?;
        let feed = feeds.shown((from.ln(), to.ln())).exp();
        let there = fit.curve.between(feed, feed).ok_or_else(none)?;
        let holder = Holder::Record(owner.clone());
        for (edge, (side, shown, beyond)) in
            edges.iter().zip([(Side::Lowest, there.0, below), (Side::Highest, there.1, above)])
        {
            let shown = shown.ln() + beyond;
            let end = amount(ORDER[axis], shown.exp());
            let end = end.ok_or_else(|| "what is printed is no number".to_owned())?;
            let mut limit = end_of(Subject::Derived(derived), side, end, &holder, Force::Advised);
            if edge.gap > RELATIVE_TOLERANCE {
                limit = limit.linearised(edge.gap);
            }
            for slant in &edge.slants {
                let mut weights = [0.0; AXES];
                (weights[axis], weights[FEED]) = (1.0, -slant.slope);
                self.add(weights, shown - (slant.at + beyond), limit.clone());
            }
        }
        Ok(())
    }

    /// Nothing is extrapolated: where more feeds are allowed than printed, the advice keeps to the printed ones. Not
    /// where nothing would be left with that: a feed chosen beyond them is not advised against.
    fn stay_at_printed_feeds(
        &mut self,
        printed: (f64, f64),
        asked: (f64, f64),
        owner: &Owner,
    ) -> Option<()> {
        let holder = Holder::ResponseData(owner.clone());
        let beyond = |end: f64, asked: f64| {
            ((end.ln() - asked).abs() > RELATIVE_TOLERANCE)
                .then(|| amount(Variable::WireFeed, end))
                .flatten()
        };
        let range =
            AmountRange { min: beyond(printed.0, asked.0), max: beyond(printed.1, asked.1) };
        let is_held =
            |face: &Face| (&face.limit.holder, face.limit.force) == (&holder, Force::Advised);
        // Volts and current are printed for the same feeds.
        if !self.faces.iter().any(is_held) {
            let mut within = self.clone();
            within.limit(Variable::WireFeed, &range, &holder, Force::Required);
            if !within.is_open(Force::Required) {
                return None;
            }
            self.limit(Variable::WireFeed, &range, &holder, Force::Advised);
        }
        Some(())
    }
}

/// The lines between neighbouring points, as far as these feeds go.
fn lines(points: &[(f64, f64)], (low, high): (f64, f64)) -> Vec<Line> {
    let (low, high) = (low.exp(), high.exp());
    let line = |pair: &[(f64, f64)]| {
        let [start, end] = *pair else { return None };
        let (from, to) = (low.max(start.0), high.min(end.0));
        if start.0 >= end.0 || from > to {
            return None;
        }
        let at = |feed: f64| {
            let share = (feed - start.0) / (end.0 - start.0);
            (feed, start.1 + (end.1 - start.1) * share)
        };
        Some(Line { from: at(from), to: at(to) })
    };
    points.windows(2).filter_map(line).collect()
}

impl Line {
    /// Least and greatest `ln value - slope · ln feed` on the line: at its ends, or where the value rises just by this
    /// power of the feed. On `value = a + b · feed` that is at `feed = slope · a / (b · (1 - slope))`.
    fn beside(&self, slope: f64) -> (f64, f64) {
        let at = |(feed, value): (f64, f64)| value.ln() - slope * feed.ln();
        let (first, last) = (at(self.from), at(self.to));
        let (mut low, mut high) = (first.min(last), first.max(last));
        let rise = (self.to.1 - self.from.1) / (self.to.0 - self.from.0);
        let foot = self.from.1 - rise * self.from.0;
        let feed = slope * foot / (rise * (1.0 - slope));
        if self.from.0 < feed && feed < self.to.0 {
            let there = at((feed, foot + rise * feed));
            (low, high) = (low.min(there), high.max(there));
        }
        (low, high)
    }
}

impl Edge {
    /// One line for all feeds, with the slope of a printed line or of the chord, or one for each printed line: those
    /// that give less away. Above, at each feed the lowest
    /// of the lines counts, so that each has to be safe only where its own printed line is; below, the highest.
    fn beside(lines: &[Line], side: Side) -> Self {
        let slope = |start: (f64, f64), end: (f64, f64)| {
            let run = (end.0 / start.0).ln();
            if run > RELATIVE_TOLERANCE { (end.1 / start.1).ln() / run } else { 0.0 }
        };
        let safe = |slope: f64, lines: &[Line]| {
            let ends = lines.iter().map(|line| line.beside(slope));
            let at = match side {
                Side::Highest => ends.map(|(low, _)| low).fold(f64::INFINITY, f64::min),
                Side::Lowest => ends.map(|(_, high)| high).fold(f64::NEG_INFINITY, f64::max),
            };
            Slant { slope, at }
        };
        let given_away = |slant: &Slant| {
            let lost = lines.iter().map(|line| {
                let (low, high) = line.beside(slant.slope);
                if side == Side::Highest { high - slant.at } else { slant.at - low }
            });
            lost.fold(0.0, f64::max)
        };
        let of = |slants: Vec<Slant>| {
            let gap = slants.iter().map(given_away).fold(0.0, f64::max);
            Self { slants, gap }
        };
        let own = || lines.iter().map(|line| slope(line.from, line.to));
        let chord = lines.first().zip(lines.last());
        let chord = chord.map(|(first, last)| slope(first.from, last.to));
        let ones = own().chain(chord).map(|slope| of(vec![safe(slope, lines)]));
        let each = lines.iter().zip(own());
        let each = of(each.map(|(line, slope)| safe(slope, slice::from_ref(line))).collect());
        ones.fold(each, |best, one| if one.gap <= best.gap { one } else { best })
    }
}
