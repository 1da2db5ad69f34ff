//! Half-spaces in few dimensions: the exact answers of the window, on plain logarithms.
//!
//! Nothing here knows a quantity. Every axis has two finite ends, so every programme is bounded.

mod branch;
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

/// Sum of products.
pub(super) fn dot(a: &Vector, b: &Vector) -> f64 {
    a.iter().zip(b).map(|(a, b)| a * b).sum()
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

    /// How far a point lies beyond a half-space, by its number; `None` where it lies in it.
    pub(super) fn violated(&self, number: usize, point: &Vector) -> Option<f64> {
        let excess = match number.checked_sub(self.faces.len()) {
            None => {
                let face = &self.faces[number];
                // Its length is 1 at least, and dividing by it makes nothing larger.
                let undivided = dot(&face.normal, point) - face.bound;
                if undivided <= ON_FACE { undivided } else { face.excess(point) }
            }
            Some(end) if end % 2 == 0 => self.low[end / 2] - point[end / 2],
            Some(end) => point[end / 2] - self.high[end / 2],
        };
        (excess > ON_FACE).then_some(excess)
    }

    /// Number of an end of the box.
    pub(super) fn end(&self, axis: usize, upper: bool) -> usize {
        self.faces.len() + 2 * axis + usize::from(upper)
    }

    /// Whether a point lies in it.
    pub(super) fn contains(&self, point: &Vector) -> bool {
        (0..self.len()).all(|number| self.violated(number, point).is_none())
    }

    /// The same with one axis held at a value.
    pub(super) fn held(&self, axis: usize, value: f64) -> Self {
        self.between(axis, value, value)
    }

    /// The same with one axis between two values.
    pub(super) fn between(&self, axis: usize, low: f64, high: f64) -> Self {
        let mut part = self.clone();
        part.low[axis] = low;
        part.high[axis] = high;
        part
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
