//! Half-spaces in few dimensions: the exact answers of the window, on plain logarithms.
//!
//! Nothing here knows a quantity. Every axis has two finite ends, so every programme is bounded.

mod branch;
mod corner;
mod eliminate;
mod projection;
mod simplex;

pub(super) use branch::{OnLattice, on_lattice};
pub(super) use simplex::Optimum;

/// Axes of the settings.
pub(super) const AXES: usize = 6;
/// One more for the common drift.
pub(super) const DIM: usize = AXES + 1;
/// Where the common drift stands.
pub(super) const DRIFT: usize = AXES;

/// A point or a direction.
pub(super) type Vector = [f64; DIM];

/// Points this far beyond a face still count as on it: a tenth of the tolerance of comparisons, so
/// that what is answered passes every comparison.
pub(super) const ON_FACE: f64 = 1e-10;

/// All points with `normal · x <= bound`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct HalfSpace {
    pub(super) normal: Vector,
    pub(super) bound: f64,
}

/// Half-spaces inside a box. Faces are numbered as they stand; behind them, for each axis, the lower
/// and the upper end of the box.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Polytope {
    pub(super) faces: Vec<HalfSpace>,
    pub(super) low: Vector,
    pub(super) high: Vector,
}

/// Sum of products. Written out, so that it needs no loop and adds in pairs.
#[inline]
pub(super) fn dot(a: &Vector, b: &Vector) -> f64 {
    let [a0, a1, a2, a3, a4, a5, a6] = a;
    let [b0, b1, b2, b3, b4, b5, b6] = b;
    ((a0 * b0 + a1 * b1) + (a2 * b2 + a3 * b3)) + ((a4 * b4 + a5 * b5) + a6 * b6)
}

/// A direction along one axis.
pub(super) fn along(axis: usize, length: f64) -> Vector {
    let mut direction = [0.0; DIM];
    direction[axis] = length;
    direction
}

impl HalfSpace {
    /// How far a point lies beyond the face; negative inside.
    pub(super) fn excess(&self, point: &Vector) -> f64 {
        let length = dot(&self.normal, &self.normal).sqrt().max(1.0);
        (dot(&self.normal, point) - self.bound) / length
    }

    /// The largest sum of products in a box.
    fn highest_in(&self, low: &Vector, high: &Vector) -> f64 {
        let ends = self.normal.iter().zip(low).zip(high);
        ends.map(|((length, low), high)| (length * low).max(length * high)).sum()
    }

    /// Whether a point lies farther beyond the face than this, which is not negative.
    #[inline]
    pub(super) fn excess_beyond(&self, point: &Vector, least: f64) -> bool {
        // The length is 1 at least, and dividing by it makes nothing larger.
        dot(&self.normal, point) - self.bound > least && self.excess(point) > least
    }
}

impl Polytope {
    /// Number of half-spaces, the ends of the box among them.
    pub(super) fn len(&self) -> usize {
        self.faces.len() + 2 * DIM
    }

    /// One half-space by its number.
    pub(super) fn row(&self, number: usize) -> HalfSpace {
        match number.checked_sub(self.faces.len()) {
            None => self.faces[number],
            Some(end) if end % 2 == 0 => {
                HalfSpace { normal: along(end / 2, -1.0), bound: -self.low[end / 2] }
            }
            Some(end) => HalfSpace { normal: along(end / 2, 1.0), bound: self.high[end / 2] },
        }
    }

    /// Number of an end of the box.
    pub(super) fn end(&self, axis: usize, upper: bool) -> usize {
        self.faces.len() + 2 * axis + usize::from(upper)
    }

    /// How far a point lies below and above the box on each axis.
    fn off_box(&self, point: &Vector) -> impl Iterator<Item = [f64; 2]> {
        let ends = self.low.iter().zip(&self.high).zip(point);
        ends.map(|((low, high), at)| [low - at, at - high])
    }

    /// Whether a point lies in it.
    pub(super) fn contains(&self, point: &Vector) -> bool {
        let in_box = self.off_box(point).all(|[below, above]| below.max(above) <= ON_FACE);
        in_box && self.faces.iter().all(|face| !face.excess_beyond(point, ON_FACE))
    }

    /// The same with one axis held at a value, without faces that the box keeps by itself; the others are numbered
    /// anew.
    pub(super) fn held(&self, axis: usize, value: f64) -> Self {
        self.between(axis, value, value)
    }

    /// The same with one axis between two values, without faces that the box keeps by itself; the others are
    /// numbered anew.
    pub(super) fn between(&self, axis: usize, low: f64, high: f64) -> Self {
        let mut part = Self { faces: Vec::new(), low: self.low, high: self.high };
        (part.low[axis], part.high[axis]) = (low, high);
        let cuts = |face: &&HalfSpace| face.highest_in(&part.low, &part.high) > face.bound;
        let faces = self.faces.iter().filter(cuts).copied().collect();
        Self { faces, ..part }
    }

    /// Point with the largest value of an objective, and that value; `None` where nothing is left.
    pub(super) fn highest(&self, objective: &Vector) -> Option<(Vector, f64)> {
        match self.maximise(objective) {
            Optimum::At { point, .. } => Some((point, dot(objective, &point))),
            Optimum::Empty { .. } | Optimum::Stalled => None,
        }
    }

    /// Lowest and highest value of one axis.
    pub(super) fn ends_of(&self, axis: usize) -> Option<(f64, f64)> {
        let (_, low) = self.highest(&along(axis, -1.0))?;
        let (_, high) = self.highest(&along(axis, 1.0))?;
        Some((-low, high.max(-low)))
    }
}

#[cfg(test)]
mod tests;
