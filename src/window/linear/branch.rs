//! The best point whose settings are whole numbers of steps, by branch and bound.

use super::{AXES, Polytope, Vector};

/// Parts looked at before the search gives up.
const MOST_PARTS: usize = 20_000;
/// A setting this close to a whole number of steps, as a share, is one.
const ON_STEP: f64 = 1e-9;
/// Costs closer than this are equal; the first found stays.
const SAME_COST: f64 = 1e-9;

/// Outcome of the search.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(in crate::window) enum OnLattice {
    /// The best point and its cost.
    Best(Vector, f64),
    /// No point of the lattice lies in the polytope.
    NoStepFits,
    /// Not decided within the bound of the search.
    GaveUp,
}

/// The point of least cost with every stepped axis at a whole number of steps. `relaxed` gives the
/// best point of a polytope when steps do not count, and its cost; a step belongs to the setting, not
/// to its logarithm.
pub(in crate::window) fn on_lattice(
    polytope: &Polytope,
    steps: &[Option<f64>; AXES],
    relaxed: &dyn Fn(&Polytope) -> Option<(Vector, f64)>,
) -> OnLattice {
    let mut open = vec![polytope.clone()];
    let mut best: Option<(Vector, f64)> = None;
    for _ in 0..MOST_PARTS {
        let Some(part) = open.pop() else {
            return best.map_or(OnLattice::NoStepFits, |(at, cost)| OnLattice::Best(at, cost));
        };
        let Some((point, cost)) = relaxed(&part) else { continue };
        if best.is_some_and(|(_, least)| cost > least - SAME_COST) {
            continue;
        }
        match farthest_from_step(&point, steps) {
            Some((axis, step)) => split(&part, &point, (axis, step), &mut open),
            None => {
                if let Some(found) = relaxed(&snapped(&part, &point, steps)) {
                    best = Some(found);
                }
            }
        }
    }
    OnLattice::GaveUp
}

/// The stepped axis that lies farthest between two steps.
fn farthest_from_step(point: &Vector, steps: &[Option<f64>; AXES]) -> Option<(usize, f64)> {
    let off = |axis: usize| {
        let step = steps[axis]?;
        let count = point[axis].exp() / step;
        let off = (count - count.round()).abs();
        (off > ON_STEP * count.max(1.0)).then_some((axis, step, off))
    };
    let worst = (0..AXES).filter_map(off).max_by(|a, b| a.2.total_cmp(&b.2))?;
    Some((worst.0, worst.1))
}

/// Both sides of the gap between two steps; the nearer one is looked at first.
fn split(part: &Polytope, point: &Vector, (axis, step): (usize, f64), open: &mut Vec<Polytope>) {
    let count = point[axis].exp() / step;
    let above = part.between(axis, (count.ceil() * step).ln(), part.high[axis]);
    let below = part.between(axis, part.low[axis], (count.floor() * step).ln());
    let order = if count - count.floor() < 0.5 { [above, below] } else { [below, above] };
    open.extend(order.into_iter().filter(|side| side.low[axis] <= side.high[axis]));
}

/// The part with every stepped axis held exactly on its step.
fn snapped(part: &Polytope, point: &Vector, steps: &[Option<f64>; AXES]) -> Polytope {
    let mut held = part.clone();
    for (axis, step) in steps.iter().enumerate() {
        if let Some(step) = step {
            let value = ((point[axis].exp() / step).round() * step).ln();
            held = held.held(axis, value);
        }
    }
    held
}
