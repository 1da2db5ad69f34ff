//! Limits on what follows from the settings: size of a run, deposition rate, heat input by cooling
//! time or preheat, the output line of a power source.

use super::{
    CURRENT, Derived, FEED, Holder, LimitEnd, SPEED, Side, Space, Subject, VOLTAGE, end_of, ends,
};
use crate::{
    check::{Force, Variable},
    quantity::{
        Amount, Area, AreaKind, Current, DepositionRateKind, HeatInputKind, Leg, Range, ShareKind,
        Span, TravelSpeed, WireFeed,
    },
    trade::LinearCharacteristic,
    window::linear::{AXES, DIM, Vector},
};

/// Chords that replace the curve of an output line.
const CHORDS: usize = 6;

/// What one run deposits: its cross-section at one feed and one travel speed, over everything that is
/// not known exactly: rates printed at several feeds, or the wire's mass and its efficiency. It grows with
/// feed over speed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RunSize {
    /// Wire feed speed of the cross-section.
    pub feed: WireFeed,
    /// Travel speed of it.
    pub speed: TravelSpeed,
    /// The cross-section there.
    pub area: Span<AreaKind>,
}

impl RunSize {
    /// Logarithm of the least cross-section in mm² at a feed of 1 m/min and a speed of 1 mm/min.
    pub(in crate::window) fn least(&self) -> f64 {
        self.log(self.area.low())
    }

    /// The same of the greatest.
    pub(in crate::window) fn most(&self) -> f64 {
        self.log(self.area.high())
    }

    fn log(&self, area: Area) -> f64 {
        (area.mm2() * self.speed.mm_per_min() / self.feed.m_per_min()).ln()
    }
}

/// The output line of a drooping source between two currents: volts at most what is left of the open
/// circuit.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OutputLine {
    /// The line.
    pub line: LinearCharacteristic,
    /// Lowest current it is used at.
    pub from: Current,
    /// Highest current.
    pub to: Current,
}

impl Space {
    /// At least this leg in one run, for the least cross-section and the most convex face. A setup is advised of it,
    /// as by the check of the leg; a plan that makes the fillet in one run requires it.
    pub fn leg_at_least(
        &mut self,
        leg: Leg,
        size: &RunSize,
        shape: &Span<ShareKind>,
        force: Force,
    ) {
        let limit = leg_end(Side::Lowest, leg, &Holder::Job, force);
        self.leg(limit, size, shape);
    }

    /// Not surely more than this leg in one run, for the same cross-section and face. Advice.
    pub fn leg_at_most(
        &mut self,
        leg: Leg,
        size: &RunSize,
        shape: &Span<ShareKind>,
        holder: &Holder,
    ) {
        let limit = leg_end(Side::Highest, leg, holder, Force::Advised);
        self.leg(limit, size, shape);
    }

    fn leg(&mut self, limit: LimitEnd, size: &RunSize, shape: &Span<ShareKind>) {
        let per_ratio = size.area.low().mm2() * size.speed.mm_per_min() / size.feed.m_per_min();
        // Area = per_ratio · w / v; a leg goes with its square root.
        let constant = 0.5 * (per_ratio * 2.0 / shape.high().ratio()).ln();
        let mut weights = [0.0; AXES];
        (weights[FEED], weights[SPEED]) = (0.5, -0.5);
        self.add(weights, constant, limit);
    }

    /// A range of the cross-section of one run, each end for the least favourable cross-section.
    pub fn run_area(&mut self, wanted: &Range<AreaKind>, size: &RunSize) {
        let ends = (size.least(), size.most());
        self.run_within(wanted, ends, (&Holder::Job, Force::Required, false));
    }

    /// The same as somebody advises of it.
    pub fn run_advised(&mut self, wanted: &Range<AreaKind>, size: &RunSize, holder: &Holder) {
        let ends = (size.least(), size.most());
        self.run_within(wanted, ends, (holder, Force::Advised, false));
    }

    /// A range of the cross-section of each of many runs, by what is surely laid. The hand's strays do not count:
    /// over many runs they even out.
    pub fn run_planned(&mut self, planned: &Range<AreaKind>, size: &RunSize) {
        let ends = (size.least(), size.least());
        self.run_within(planned, ends, (&Holder::Job, Force::Required, true));
    }

    fn run_within(
        &mut self,
        wanted: &Range<AreaKind>,
        (lowest, highest): (f64, f64),
        (holder, force, of_aim): (&Holder, Force, bool),
    ) {
        let mut weights = [0.0; AXES];
        (weights[FEED], weights[SPEED]) = (1.0, -1.0);
        let subject = Subject::Derived(Derived::RunArea);
        for (side, at) in ends(&wanted.amounts()) {
            let constant = match side {
                Side::Lowest => lowest,
                Side::Highest => highest,
            };
            let limit = end_of(subject, side, at, holder, force);
            let before = self.faces.len();
            self.add(weights, constant, limit);
            self.faces[before..].iter_mut().for_each(|face| face.of_aim = of_aim);
        }
    }

    /// A range of the deposition rate, where one feed deposits between two rates.
    pub fn deposition_rate(
        &mut self,
        wanted: &Range<DepositionRateKind>,
        feed: WireFeed,
        at_feed: &Span<DepositionRateKind>,
    ) {
        let mut weights = [0.0; AXES];
        weights[FEED] = 1.0;
        for (side, at) in ends(&wanted.amounts()) {
            let rate = match side {
                Side::Lowest => at_feed.low(),
                Side::Highest => at_feed.high(),
            };
            let constant = (rate.kg_per_h() / feed.m_per_min()).ln();
            let subject = Subject::Derived(Derived::DepositionRate);
            let limit = end_of(subject, side, at, &Holder::Job, Force::Required);
            self.add(weights, constant, limit);
        }
    }

    /// A range of heat input that something else asks for.
    pub fn heat_input(&mut self, why: Derived, range: &Range<HeatInputKind>) {
        let before = (self.faces.len(), self.unresolved.len());
        self.limit(Variable::HeatInput, &range.amounts(), &Holder::Job, Force::Required);
        let named = |limit: &mut LimitEnd| limit.subject = Subject::Derived(why);
        self.faces[before.0..].iter_mut().for_each(|face| named(&mut face.limit));
        self.unresolved[before.1..].iter_mut().for_each(|left| named(&mut left.limit));
    }

    /// Volts and amps under the output line of the source, by chords below the curve in logarithms. The
    /// gap is the largest share of the volts that the chords give away.
    pub fn output_line(&mut self, source: &OutputLine, holder: &Holder) {
        let (open, short) = (source.line.open_circuit.volts(), source.line.short_circuit.amperes());
        let volts = |amperes: f64| (open * (1.0 - amperes / short)).ln();
        let (from, to) = (source.from.amperes().ln(), source.to.amperes().min(0.99 * short).ln());
        if from >= to {
            return;
        }
        for number in 0..CHORDS {
            let at = |place: usize| from + (to - from) * count(place) / count(CHORDS);
            let (left, right) = (at(number), at(number + 1));
            let slope = (volts(right.exp()) - volts(left.exp())) / (right - left);
            let foot = volts(left.exp()) - slope * left;
            let gap = (0..=8)
                .map(|place| left + (right - left) * count(place) / 8.0)
                .map(|x| volts(x.exp()) - slope * x - foot)
                .fold(0.0, f64::max);
            let mut weights = [0.0; AXES];
            (weights[VOLTAGE], weights[CURRENT]) = (1.0, -slope);
            self.push_line(weights, foot, gap, source, holder);
        }
        let range = Range::new(Some(source.from), Some(source.to)).map(|range| range.amounts());
        if let Ok(range) = range {
            self.limit(Variable::Current, &range, holder, Force::Required);
        }
    }

    fn push_line(
        &mut self,
        weights: [f64; AXES],
        bound: f64,
        gap: f64,
        source: &OutputLine,
        holder: &Holder,
    ) {
        let at: Amount = source.line.open_circuit.amount();
        let subject = Subject::Derived(Derived::OutputLine);
        let limit = end_of(subject, Side::Highest, at, holder, Force::Required).linearised(gap);
        self.faces.push(super::Face { weights, bound, limit, of_aim: false });
    }
}

fn leg_end(side: Side, leg: Leg, holder: &Holder, force: Force) -> LimitEnd {
    end_of(Subject::Derived(Derived::Leg), side, leg.amount(), holder, force)
}

/// The direction in which the cross-section of a run grows, or falls.
pub(in crate::window) fn towards_size(sign: f64) -> Vector {
    let mut way = [0.0; DIM];
    (way[FEED], way[SPEED]) = (sign, -sign);
    way
}

/// Small counts as numbers.
fn count(number: usize) -> f64 {
    f64::from(u32::try_from(number).unwrap_or(u32::MAX))
}
