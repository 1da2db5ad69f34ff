//! Linear programmes by the dual simplex method on as many faces as there are axes.
//!
//! It starts at the corner of the box that the objective points to, which is the optimum without any
//! face, and takes in one violated face after the other. So an optimum comes with the faces that bind
//! it, and an empty set with faces that contradict each other (Farkas' lemma).

use super::{DIM, ON_FACE, Polytope, Vector, eliminate::solve};

/// Rounds after which the choice goes by number only, which cannot cycle (Bland).
const FREE_CHOICE: usize = 200;
/// Rounds after which rounding must have led the method astray.
const MOST_ROUNDS: usize = 4_000;
/// Shares of a face below this are noise.
const NO_SHARE: f64 = 1e-9;

/// Outcome of a linear programme.
#[derive(Debug, Clone, PartialEq)]
pub(in crate::window) enum Optimum {
    /// A point of largest value, and the numbers of the half-spaces that bind it.
    At {
        /// The point.
        point: Vector,
        /// Half-spaces without which the value would be larger.
        binding: Vec<usize>,
    },
    /// No point is in all half-spaces; these contradict each other.
    Empty {
        /// Numbers of half-spaces.
        contradictory: Vec<usize>,
    },
    /// Rounding led astray; nothing is known.
    Stalled,
}

impl Polytope {
    /// A point of the polytope with the largest value of an objective.
    pub(in crate::window) fn maximise(&self, objective: &Vector) -> Optimum {
        if let Some(axis) = (0..DIM).find(|axis| self.low[*axis] > self.high[*axis] + ON_FACE) {
            let contradictory = vec![self.end(axis, false), self.end(axis, true)];
            return Optimum::Empty { contradictory };
        }
        let mut basis: Vec<usize> =
            (0..DIM).map(|axis| self.end(axis, objective[axis] >= 0.0)).collect();
        for round in 0..MOST_ROUNDS {
            let Some((point, prices)) = self.corner(&basis, objective) else {
                return Optimum::Stalled;
            };
            let Some(entering) = self.most_violated(&point, round >= FREE_CHOICE) else {
                let pairs = basis.iter().zip(&prices);
                let binding = pairs.filter(|(_, price)| **price > NO_SHARE).map(|(at, _)| *at);
                return Optimum::At { point, binding: binding.collect() };
            };
            let Some(shares) = solve(self.columns(&basis), self.row(entering).normal.to_vec())
            else {
                return Optimum::Stalled;
            };
            match leaving(&basis, &shares, &prices, round >= FREE_CHOICE) {
                Some(place) => basis[place] = entering,
                None => {
                    let pairs = basis.iter().zip(&shares);
                    let against = pairs.filter(|(_, share)| **share < -NO_SHARE).map(|(at, _)| *at);
                    let contradictory = against.chain([entering]).collect();
                    return Optimum::Empty { contradictory };
                }
            }
        }
        Optimum::Stalled
    }

    /// Where the faces of the basis meet, and what the objective pays for each of them.
    fn corner(&self, basis: &[usize], objective: &Vector) -> Option<(Vector, Vec<f64>)> {
        let rows: Vec<_> = basis.iter().map(|number| self.row(*number)).collect();
        let normals = rows.iter().map(|row| row.normal.to_vec()).collect();
        let meeting = solve(normals, rows.iter().map(|row| row.bound).collect())?;
        let prices = solve(self.columns(basis), objective.to_vec())?;
        let mut point = [0.0; DIM];
        point.copy_from_slice(&meeting);
        Some((point, prices))
    }

    /// The normals of the basis as columns.
    fn columns(&self, basis: &[usize]) -> Vec<Vec<f64>> {
        let rows: Vec<_> = basis.iter().map(|number| self.row(*number).normal).collect();
        (0..DIM).map(|axis| rows.iter().map(|normal| normal[axis]).collect()).collect()
    }

    fn most_violated(&self, point: &Vector, by_number: bool) -> Option<usize> {
        let excess = |number: &usize| self.row(*number).excess(point);
        let mut violated = (0..self.len()).filter(|number| excess(number) > ON_FACE);
        if by_number {
            return violated.next();
        }
        violated.max_by(|a, b| excess(a).total_cmp(&excess(b)))
    }
}

/// The place in the basis whose price would fall below zero first.
fn leaving(basis: &[usize], shares: &[f64], prices: &[f64], by_number: bool) -> Option<usize> {
    let ratio = |place: &usize| prices[*place].max(0.0) / shares[*place];
    let open = || (0..DIM).filter(|place| shares[*place] > NO_SHARE);
    let least = open().map(|place| ratio(&place)).reduce(f64::min)?;
    let first = open().filter(|place| ratio(place) <= least + NO_SHARE);
    if by_number {
        first.min_by_key(|place| basis[*place])
    } else {
        first.max_by(|a, b| shares[*a].total_cmp(&shares[*b]))
    }
}
