//! Linear programmes by the dual simplex method.
//!
//! It starts at the corner of the box that the objective points to, which is the optimum without any
//! face, and takes in one violated face after the other. So an optimum comes with the faces that bind
//! it, and an empty set with faces that contradict each other (Farkas' lemma).

use super::{DIM, ON_FACE, Polytope, Vector, corner::Corner};

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
        let mut corner = Corner::of_box(self, objective);
        for round in 0..MOST_ROUNDS {
            let by_number = round >= FREE_CHOICE;
            let Some(point) = corner.point() else { return Optimum::Stalled };
            let entering = self.most_violated(&point, by_number);
            let normal = entering.map_or([0.0; DIM], |number| self.row(number).normal);
            let Some(shares) = corner.shares([objective, &normal]) else {
                return Optimum::Stalled;
            };
            let of = |wanted: fn(&[f64; 2]) -> bool| -> Vec<usize> {
                let wanted = (0..DIM).filter(|place| wanted(&shares[*place]));
                wanted.map(|place| corner.number(place)).collect()
            };
            let Some(entering) = entering else {
                return Optimum::At { point, binding: of(|[price, _]| *price > NO_SHARE) };
            };
            let Some(place) = leaving(&corner, &shares, by_number) else {
                let mut contradictory = of(|[_, share]| *share < -NO_SHARE);
                contradictory.push(entering);
                return Optimum::Empty { contradictory };
            };
            corner.exchange(place, entering);
        }
        Optimum::Stalled
    }

    /// Number of the half-space that a point lies farthest beyond, or of the first that it lies beyond.
    fn most_violated(&self, point: &Vector, by_number: bool) -> Option<usize> {
        let (mut worst, mut most) = (None, ON_FACE);
        for (number, face) in self.faces.iter().enumerate() {
            if face.excess_beyond(point, most) {
                (worst, most) = (Some(number), face.excess(point));
                if by_number {
                    return worst;
                }
            }
        }
        for (axis, [below, above]) in self.off_box(point).enumerate() {
            if below.max(above) > most {
                (worst, most) = (Some(self.end(axis, above > below)), below.max(above));
                if by_number {
                    return worst;
                }
            }
        }
        worst
    }
}

/// The place in the corner whose price would fall below zero first. Each place has its price and its share.
fn leaving(corner: &Corner<'_>, shares: &[[f64; 2]; DIM], by_number: bool) -> Option<usize> {
    let ratio = |place: usize| shares[place][0].max(0.0) / shares[place][1];
    let open = || (0..DIM).filter(|place| shares[*place][1] > NO_SHARE);
    let least = open().map(ratio).reduce(f64::min)?;
    let first = open().filter(|place| ratio(*place) <= least + NO_SHARE);
    if by_number {
        first.min_by_key(|place| corner.number(*place))
    } else {
        first.max_by(|a, b| shares[*a][1].total_cmp(&shares[*b][1]))
    }
}
