//! Linear programmes by the dual simplex method on as many faces as there are axes.
//!
//! It starts at the corner of the box that the objective points to, which is the optimum without any
//! face, and takes in one violated face after the other. So an optimum comes with the faces that bind
//! it, and an empty set with faces that contradict each other (Farkas' lemma).

use super::{
    DIM, HalfSpace, ON_FACE, Polytope, Vector,
    eliminate::{solve, transposed},
};

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

/// The half-spaces whose faces meet in the present corner.
type Basis = [usize; DIM];

impl Polytope {
    /// A point of the polytope with the largest value of an objective.
    pub(in crate::window) fn maximise(&self, objective: &Vector) -> Optimum {
        if let Some(axis) = (0..DIM).find(|axis| self.low[*axis] > self.high[*axis] + ON_FACE) {
            let contradictory = vec![self.end(axis, false), self.end(axis, true)];
            return Optimum::Empty { contradictory };
        }
        let mut basis: Basis = std::array::from_fn(|axis| self.end(axis, objective[axis] >= 0.0));
        for round in 0..MOST_ROUNDS {
            let by_number = round >= FREE_CHOICE;
            let rows = basis.map(|number| self.row(number));
            let Some(point) = meeting(&rows) else { return Optimum::Stalled };
            let entering = self.most_violated(&point, by_number);
            let normal = entering.map_or([0.0; DIM], |number| self.row(number).normal);
            let Some((prices, shares)) = shares(&rows, objective, &normal) else {
                return Optimum::Stalled;
            };
            let of = |values: &Vector, wanted: fn(f64) -> bool| -> Vec<usize> {
                (0..DIM).filter(|place| wanted(values[*place])).map(|place| basis[place]).collect()
            };
            let Some(entering) = entering else {
                return Optimum::At { point, binding: of(&prices, |price| price > NO_SHARE) };
            };
            let Some(place) = leaving(&basis, &shares, &prices, by_number) else {
                let mut contradictory = of(&shares, |share| share < -NO_SHARE);
                contradictory.push(entering);
                return Optimum::Empty { contradictory };
            };
            basis[place] = entering;
        }
        Optimum::Stalled
    }

    fn most_violated(&self, point: &Vector, by_number: bool) -> Option<usize> {
        let mut worst: Option<(usize, f64)> = None;
        for number in 0..self.len() {
            let Some(excess) = self.violated(number, point) else { continue };
            if worst.is_none_or(|(_, most)| excess > most) {
                if by_number {
                    return Some(number);
                }
                worst = Some((number, excess));
            }
        }
        worst.map(|(number, _)| number)
    }
}

/// Where the faces of a basis meet.
fn meeting(rows: &[HalfSpace; DIM]) -> Option<Vector> {
    let found = solve(DIM, rows.map(|row| row.normal), rows.map(|row| [row.bound]))?;
    Some(found.map(|[value]| value))
}

/// What the objective pays for each face of the basis, and the share of each in another normal.
fn shares(
    rows: &[HalfSpace; DIM],
    objective: &Vector,
    normal: &Vector,
) -> Option<(Vector, Vector)> {
    let columns = transposed(&rows.map(|row| row.normal));
    let both = std::array::from_fn(|axis| [objective[axis], normal[axis]]);
    let found = solve(DIM, columns, both)?;
    Some((found.map(|[price, _]| price), found.map(|[_, share]| share)))
}

/// The place in the basis whose price would fall below zero first.
fn leaving(basis: &Basis, shares: &Vector, prices: &Vector, by_number: bool) -> Option<usize> {
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
