//! Instruments whose error is kept inside the limits.

use super::{CURRENT, Face, Space, Stray, axis_of, plausible};
use crate::{
    check::{Force, GuardFactor, Variable, record::InstrumentAccuracy},
    window::linear::{AXES, Vector},
};

/// Accuracy of the instrument that a variable will be read with: limits hold for its whole error.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Guard {
    /// The variable.
    pub variable: Variable,
    /// Accuracy of its instrument.
    pub accuracy: InstrumentAccuracy,
}

/// An error of the whole reading leaves no limit that could be kept.
const MOST: f64 = 1.0 - f64::EPSILON;

/// Error of what one axis is read with. Of several instruments the wider error counts at each reading.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub(super) struct ErrorBand {
    /// Share of the reading.
    share: f64,
    /// The same at every reading, in the unit of the axis.
    fixed: f64,
    /// As a share of the reading, over all readings that are left: the largest, and the least.
    largest: f64,
    least: f64,
}

impl ErrorBand {
    fn hear(&mut self, accuracy: InstrumentAccuracy, width: GuardFactor) {
        let width = width.ratio();
        match accuracy {
            InstrumentAccuracy::OfReading { share, .. } => {
                self.share = self.share.max(width * share.ratio());
            }
            InstrumentAccuracy::OfFullScale { share, full_scale } => {
                self.fixed = self.fixed.max(width * share.ratio() * full_scale.canonical().abs());
            }
            InstrumentAccuracy::Absolute(amount) => {
                self.fixed = self.fixed.max(width * amount.canonical().abs());
            }
        }
    }

    /// As a share of one reading.
    fn at(&self, reading: f64) -> f64 {
        self.share.max(self.fixed / reading).clamp(0.0, MOST)
    }

    /// What a limit on this reading alone gives way by, as a logarithm: the error at the limit itself. A fixed
    /// error moves the limit by itself, whatever the reading.
    fn at_limit(&self, weight: f64, bound: f64) -> f64 {
        let limit = (bound / weight).exp();
        let moved = if weight > 0.0 {
            -(-(self.fixed / limit).min(MOST)).ln_1p()
        } else {
            (self.fixed / limit).ln_1p()
        };
        Stray::share(self.share.min(MOST)).shift(weight).max(weight.abs() * moved)
    }

    /// What a limit gives way by that this reading is one part of, on the safe side.
    fn shift(&self, weight: f64) -> f64 {
        Stray::share(self.largest).shift(weight)
    }

    /// How much of that it need not, at most.
    fn spare(&self, weight: f64) -> f64 {
        (self.shift(weight) - Stray::share(self.least).shift(weight)).max(0.0)
    }
}

impl Space {
    /// Keeps the error of an instrument, as often as the organisation's guard bands are wide, inside every limit. A limit on what it reads alone is moved by the
    /// error itself; where a limit combines several readings, an error that is no share of the reading counts as
    /// the largest share that it is of the readings left.
    pub fn guard(&mut self, guard: &Guard, width: GuardFactor) {
        let Some(axis) = axis_of(guard.variable) else { return };
        let mut band = self.guards[axis];
        band.hear(guard.accuracy, width);
        // Readings that are left are left too with an error that is larger than this.
        (band.largest, band.least) = (band.share.min(MOST), band.share.min(MOST));
        self.guards[axis] = band;
        let (low, high) = self.readings(axis);
        band.largest = band.at(low.exp());
        band.least = band.at(high.exp());
        self.guards[axis] = band;
    }

    /// The least and the greatest reading that required limits leave, as logarithms. Where they leave none because of
    /// what the hand strays, those of a hand that does not: the error is no larger than it would be then.
    fn readings(&self, axis: usize) -> (f64, f64) {
        let ends = |space: &Self| space.region(Force::Required).polytope.ends_of(axis);
        let stray = self.stray(axis);
        let strayed = |(low, high): (f64, f64)| (low - stray.down, high + stray.up);
        let steady = || {
            let mut steady = self.clone();
            for (stray, is_interval) in steady.strays.iter_mut().zip(self.intervals) {
                *stray = if is_interval { *stray } else { Stray::default() };
            }
            ends(&steady)
        };
        ends(self).map(strayed).or_else(steady).unwrap_or_else(|| strayed(plausible(axis)))
    }

    /// What a face gives way by for the errors of readings, with the current replaced by one plane of its response.
    pub(super) fn errors(&self, face: &Face, normal: &Vector) -> f64 {
        (0..AXES).map(|axis| self.error_on(axis, face, normal)).sum()
    }

    /// The same for the error of one reading. A current that follows is read all the same.
    pub(in crate::window) fn error_on(&self, axis: usize, face: &Face, normal: &Vector) -> f64 {
        let band = &self.guards[axis];
        let weight = if axis == CURRENT { face.weights[axis] } else { normal[axis] };
        match only_axis(&face.weights) {
            Some(alone) if alone == axis => band.at_limit(face.weights[axis], face.bound),
            _ if weight == 0.0 => 0.0,
            _ => band.shift(weight),
        }
    }

    /// Whether an error is kept of what one axis is read with.
    pub(in crate::window) fn has_error(&self, axis: usize) -> bool {
        self.guards[axis] != ErrorBand::default()
    }

    /// The same of a sum of several readings that is no limit.
    pub(in crate::window) fn combined_errors(&self, weights: &[f64; AXES], normal: &Vector) -> f64 {
        self.over_readings(weights, normal, None, ErrorBand::shift)
    }

    /// How much of its value a face may lose, as a logarithm, because errors that are no share of the reading count
    /// as their largest share.
    pub(super) fn spare_errors(&self, face: &Face) -> f64 {
        if face.of_aim {
            return 0.0;
        }
        let alone = only_axis(&face.weights);
        let spare = |(normal, _): &(Vector, f64)| {
            self.over_readings(&face.weights, normal, alone, ErrorBand::spare)
        };
        self.substituted(&face.weights).iter().map(spare).fold(0.0, f64::max)
    }

    /// Sums over the readings of a face but the one that it bounds alone. A current that follows is read all the
    /// same.
    fn over_readings(
        &self,
        weights: &[f64; AXES],
        normal: &Vector,
        alone: Option<usize>,
        of: impl Fn(&ErrorBand, f64) -> f64,
    ) -> f64 {
        let weight = |axis: usize| if axis == CURRENT { weights[axis] } else { normal[axis] };
        let counted = (0..AXES).filter(|axis| Some(*axis) != alone && weight(*axis) != 0.0);
        counted.map(|axis| of(&self.guards[axis], weight(axis))).sum()
    }
}

/// The axis that weights bound by itself.
fn only_axis(weights: &[f64; AXES]) -> Option<usize> {
    let mut axes = (0..AXES).filter(|axis| weights[*axis] != 0.0);
    axes.next().filter(|_| axes.next().is_none())
}
