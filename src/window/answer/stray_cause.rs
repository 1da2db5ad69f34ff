//! Errors of instruments and strays of the hand that alone keep limits from holding together.

use super::conflict::is_empty;
use crate::{
    check::{Force, Variable},
    window::{
        linear::{AXES, Polytope, Vector},
        space::{CURRENT, Face, ORDER, Region, Space, axis_of},
    },
};

/// What every limit is kept for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Stray {
    /// The error of the instrument that reads a variable.
    Error(Variable),
    /// What the hand strays in a variable.
    Hand(Variable),
}

/// Strays without which limits could hold together.
#[derive(Debug, PartialEq, Eq)]
pub(super) enum Cause {
    /// None.
    None,
    /// Without any one of these.
    Any(Vec<Stray>),
    /// Without all of these together; each of them is needed for it.
    All(Vec<Stray>),
}

/// The strays that a region owes it to that nothing is left of it: without them something would be. None where the
/// advised region would be another one without them.
pub(super) fn of(space: &Space, region: &Region) -> Cause {
    let is_advised = |limit: &usize| space.faces[*limit].limit.force == Force::Advised;
    if space.is_read_for_strays && region.faces.iter().any(is_advised) {
        return Cause::None;
    }
    let strays: Vec<_> = (0..AXES).flat_map(|axis| on(space, axis)).collect();
    let helps = |without: &[Stray]| !is_empty(&eased(space, region, without));
    let alone: Vec<_> = strays.iter().copied().filter(|stray| helps(&[*stray])).collect();
    match (alone.is_empty(), helps(&strays)) {
        (false, _) => Cause::Any(alone),
        (true, true) => Cause::All(irreducible(strays, helps)),
        (true, false) => Cause::None,
    }
}

/// Those of some strays that help together, without which the others do not.
fn irreducible(strays: Vec<Stray>, helps: impl Fn(&[Stray]) -> bool) -> Vec<Stray> {
    let mut left = strays.clone();
    for stray in strays {
        let without: Vec<_> = left.iter().copied().filter(|other| *other != stray).collect();
        if helps(&without) {
            left = without;
        }
    }
    left
}

/// Strays on one axis; an interval that was chosen is none, and of one value that was chosen the hand strays too.
fn on(space: &Space, axis: usize) -> impl Iterator<Item = Stray> + use<> {
    let error = space.has_error(axis);
    let hand = hand(space, axis, 1.0) > 0.0 && !space.intervals[axis];
    let variable = ORDER[axis];
    let error = error.then_some(Stray::Error(variable));
    error.into_iter().chain(hand.then_some(Stray::Hand(variable)))
}

/// All limits, each with the room that it keeps for some strays given back.
fn eased(space: &Space, region: &Region, without: &[Stray]) -> Polytope {
    let mut polytope = region.polytope.clone();
    for (half_space, number) in polytope.faces.iter_mut().zip(&region.faces) {
        let face = &space.faces[*number];
        if !face.of_aim {
            let kept = without.iter().map(|stray| kept(space, *stray, face, &half_space.normal));
            half_space.bound += kept.sum::<f64>();
        }
    }
    polytope
}

/// Room that a half-space keeps for a stray. A current that follows is no axis of it: its weight is the face's.
fn kept(space: &Space, stray: Stray, face: &Face, normal: &Vector) -> f64 {
    let (Stray::Error(variable) | Stray::Hand(variable)) = stray;
    let Some(axis) = axis_of(variable) else { return 0.0 };
    match stray {
        Stray::Error(_) => space.error_on(axis, face, normal),
        Stray::Hand(_) if axis == CURRENT => hand(space, axis, face.weights[CURRENT]),
        Stray::Hand(_) => hand(space, axis, normal[axis]),
    }
}

fn hand(space: &Space, axis: usize, weight: f64) -> f64 {
    let stray = space.stray(axis);
    if weight > 0.0 { weight * stray.up } else { -weight * stray.down }
}
