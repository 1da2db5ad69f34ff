//! The nearest point of a polytope, by the dual active-set method of Goldfarb and Idnani (1983) with
//! a unit matrix.

use super::{DIM, HalfSpace, ON_FACE, Polytope, Vector, dot, eliminate::solve};

const MOST_ROUNDS: usize = 2_000;
/// Directions shorter than this lie in the faces already taken.
const NO_LENGTH: f64 = 1e-10;

/// Faces that hold the point, with what each pulls.
struct Active {
    rows: Vec<HalfSpace>,
    pulls: Vec<f64>,
}

impl Polytope {
    /// The point with the least `Σ (x - from)²`; `None` where the polytope is empty. All axes count
    /// the same.
    pub(in crate::window) fn nearest(&self, from: &Vector) -> Option<Vector> {
        let mut point = *from;
        let mut active = Active { rows: Vec::new(), pulls: Vec::new() };
        for _ in 0..MOST_ROUNDS {
            let Some(violated) = self.worst(&point) else { return Some(point) };
            if !active.take_in(violated, &mut point) {
                return None;
            }
        }
        None
    }

    fn worst(&self, point: &Vector) -> Option<HalfSpace> {
        let rows = (0..self.len()).map(|number| self.row(number));
        let beyond = rows.map(|row| (row.excess(point), row));
        let worst = beyond.max_by(|a, b| a.0.total_cmp(&b.0))?;
        (worst.0 > ON_FACE / 2.0).then_some(worst.1)
    }
}

impl Active {
    /// Moves the point onto a violated face, letting go of faces that would push instead of pull;
    /// `false` where there is no such point.
    fn take_in(&mut self, face: HalfSpace, point: &mut Vector) -> bool {
        let mut pull = 0.0;
        for _ in 0..MOST_ROUNDS {
            let Some((way, shares)) = self.way(&face) else { return false };
            let free = dot(&way, &way) > NO_LENGTH * dot(&face.normal, &face.normal);
            let to_face = (dot(&face.normal, point) - face.bound) / dot(&way, &face.normal);
            let let_go = self.first_to_go(&shares);
            let step = match (free, let_go) {
                (false, None) => return false,
                (false, Some((_, step))) => step,
                (true, None) => to_face,
                (true, Some((_, step))) => step.min(to_face),
            };
            if free {
                point.iter_mut().zip(&way).for_each(|(x, way)| *x -= step * way);
            }
            self.pulls.iter_mut().zip(&shares).for_each(|(own, share)| *own -= step * share);
            pull += step;
            match let_go {
                Some((place, at)) if !free || at < to_face => {
                    self.rows.remove(place);
                    self.pulls.remove(place);
                }
                _ => {
                    self.rows.push(face);
                    self.pulls.push(pull);
                    return true;
                }
            }
        }
        false
    }

    /// The part of a normal that no active face spans, and the shares of those faces in the rest.
    fn way(&self, face: &HalfSpace) -> Option<(Vector, Vec<f64>)> {
        let count = self.rows.len();
        let mut products = [[0.0; DIM]; DIM];
        let mut own = [[0.0]; DIM];
        for (place, row) in self.rows.iter().enumerate() {
            for (other, of) in self.rows.iter().enumerate() {
                products[place][other] = dot(&row.normal, &of.normal);
            }
            own[place] = [dot(&row.normal, &face.normal)];
        }
        let solved = solve(count, products, own)?;
        let shares: Vec<f64> = solved[..count].iter().map(|[share]| *share).collect();
        let mut way = face.normal;
        for (row, share) in self.rows.iter().zip(&shares) {
            (0..DIM).for_each(|axis| way[axis] -= share * row.normal[axis]);
        }
        Some((way, shares))
    }

    /// The face whose pull ends first, and after which step.
    fn first_to_go(&self, shares: &[f64]) -> Option<(usize, f64)> {
        let steps = self.pulls.iter().zip(shares).enumerate();
        steps
            .filter(|(_, (_, share))| **share > NO_LENGTH)
            .map(|(place, (pull, share))| (place, pull.max(0.0) / share))
            .min_by(|a, b| a.1.total_cmp(&b.1))
    }
}
