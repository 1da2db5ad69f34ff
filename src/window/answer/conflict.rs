//! Why nothing is left: limits that cannot hold together, none of them spare, and what each would have
//! to become.

use std::cmp::Ordering;

use super::{
    amounts::{rounded_in, times},
    conflict_words,
    seen::{is_seen, keep_to_seen},
    stray_cause,
};
use crate::{
    quantity::{Amount, UnitSystem},
    window::{
        linear::{DIM, DRIFT, Optimum, Polytope, along},
        space::{Face, LimitEnd, Region, Side, Space},
    },
};

/// One limit of a conflict.
#[derive(Debug, Clone, PartialEq)]
pub struct Contradiction {
    /// The limit.
    pub limit: LimitEnd,
    /// What its end would have to become for something to be left, rounded to the roomy side; `None`
    /// where no end that an arc is seen at would do, or none within the reach of the data.
    pub needed: Option<Amount>,
    /// Whether that alone is enough.
    pub enough: bool,
    /// Limits on the same end that would have to give way as far: with them it is enough. Empty where it is
    /// enough alone, or where other limits stand in the way as well.
    pub with: Vec<LimitEnd>,
}

/// Limits that cannot hold together; without any one of them the others can.
#[derive(Debug, Clone, PartialEq)]
pub struct ConflictSet {
    /// The limits; empty where rounding kept the question from being decided.
    pub members: Vec<Contradiction>,
    /// The conflict in words.
    pub words: String,
}

impl ConflictSet {
    pub(super) fn undecided() -> Self {
        let words = "Whether anything is left could not be decided; nothing is allowed by this.";
        Self { members: Vec::new(), words: words.to_owned() }
    }
}

/// Filters a set of contradictory half-spaces, limit by limit, until none is spare. What the data reach is held all the
/// time and filtered last: beyond them nothing is known, so no other limit is spare because of what lies there.
pub(super) fn of(space: &Space, region: &Region, contradictory: &[usize]) -> ConflictSet {
    let is_reach = |limit: &usize| space.faces[*limit].is_reach();
    let limit_of = |number: &usize| region.faces.get(*number).copied();
    let reach = region.faces.iter().copied().filter(is_reach);
    let mut left: Vec<usize> = contradictory.iter().filter_map(limit_of).chain(reach).collect();
    if !is_empty(&part(region, &|limit| left.contains(&limit))) {
        left = (0..space.faces.len()).collect();
    }
    left.sort_unstable_by_key(|limit| (is_reach(limit), *limit));
    left.dedup();
    for limit in left.clone() {
        let without: Vec<_> = left.iter().copied().filter(|other| *other != limit).collect();
        if is_empty(&part(region, &|other| without.contains(&other))) {
            left = without;
        }
    }
    let members = left.iter().map(|limit| named(space, region, *limit));
    let members: Vec<_> = members.map(|limit| relaxed(space, region, limit, &left)).collect();
    let words = conflict_words::of(space, &members, &stray_cause::of(space, region));
    ConflictSet { members, words }
}

/// The limit to be named for one: a response reaches no farther than somebody allows, and then that is the one.
fn named(space: &Space, region: &Region, limit: usize) -> usize {
    let Face { limit: end, .. } = &space.faces[limit];
    let is_alike = |other: &usize| {
        let Face { limit: other, of_aim, .. } = &space.faces[*other];
        (other.subject, other.side) == (end.subject, end.side)
            && !of_aim
            && other.at.compare(end.at) == Some(Ordering::Equal)
    };
    let first = || region.faces.iter().copied().find(is_alike);
    if space.faces[limit].is_reach() { first().unwrap_or(limit) } else { limit }
}

/// The polytope with some of its limits.
pub(super) fn part(region: &Region, wanted: &dyn Fn(usize) -> bool) -> Polytope {
    let pairs = region.polytope.faces.iter().zip(&region.faces);
    let faces = pairs.filter(|(_, limit)| wanted(**limit)).map(|(face, _)| *face).collect();
    Polytope { faces, low: region.polytope.low, high: region.polytope.high }
}

pub(super) fn is_empty(polytope: &Polytope) -> bool {
    matches!(polytope.maximise(&[0.0; DIM]), Optimum::Empty { .. })
}

/// A limit given way by more than this, as a logarithm, is none.
const MOST_GIVEN: f64 = 60.0;

/// What the end of one limit would have to become: against all other limits, else against all but those on
/// the same end, else against those of the conflict; never beyond what the data reach.
fn relaxed(space: &Space, region: &Region, limit: usize, conflict: &[usize]) -> Contradiction {
    let end = &space.faces[limit].limit;
    let is_same = |other: usize| {
        let other = &space.faces[other].limit;
        (other.subject, other.side) == (end.subject, end.side)
    };
    let least = |wanted: &dyn Fn(usize) -> bool| {
        given_way(space, region, limit, wanted).and_then(|beyond| moved(end, beyond))
    };
    let written = |needed| in_figures(needed, end, space.system);
    let found = |needed, enough, with| {
        let needed = written(needed).filter(|needed| is_seen(end.subject, *needed));
        let (enough, with) = if needed.is_some() { (enough, with) } else { (false, Vec::new()) };
        Contradiction { limit: end.clone(), needed, enough, with }
    };
    if space.faces[limit].is_reach() {
        return Contradiction { limit: end.clone(), needed: None, enough: false, with: Vec::new() };
    }
    if let Some(needed) = least(&|_| true) {
        return found(needed, true, Vec::new());
    }
    let is_reach = |other: usize| space.faces[other].is_reach();
    if let Some(needed) = least(&|other| !is_same(other) || is_reach(other)) {
        let mut others: Vec<usize> =
            region.faces.iter().copied().filter(|at| *at != limit).collect();
        others.dedup();
        let stricter = |other: &usize| {
            let order = space.faces[*other].limit.at.compare(needed);
            let within = if end.side == Side::Highest { Ordering::Less } else { Ordering::Greater };
            is_same(*other) && order == Some(within)
        };
        let with = others.iter().filter(|other| stricter(other));
        let with = with.map(|other| space.faces[*other].limit.clone()).collect();
        return found(needed, false, with);
    }
    match least(&|other| conflict.contains(&other) || is_reach(other)) {
        Some(needed) => found(needed, false, Vec::new()),
        None => Contradiction { limit: end.clone(), needed: None, enough: false, with: Vec::new() },
    }
}

/// How far one limit has to give way to others, as a logarithm; `None` where that does not help.
fn given_way(
    space: &Space,
    region: &Region,
    limit: usize,
    wanted: &dyn Fn(usize) -> bool,
) -> Option<f64> {
    let mut polytope = part(region, &|other| other != limit && wanted(other));
    keep_to_seen(space, region, &mut polytope);
    let pairs = region.polytope.faces.iter().zip(&region.faces);
    // How far it gives way stands on the axis of the drift, which is not used here.
    for (face, _) in pairs.filter(|(_, other)| **other == limit) {
        let mut giving = *face;
        giving.normal[DRIFT] = -1.0;
        polytope.faces.push(giving);
    }
    polytope.high[DRIFT] = MOST_GIVEN;
    polytope.highest(&along(DRIFT, -1.0)).map(|(_, value)| -value)
}

/// The end of a limit that has given way.
fn moved(end: &LimitEnd, beyond: f64) -> Option<Amount> {
    let factor = if end.side == Side::Highest { beyond.exp() } else { (-beyond).exp() };
    times(end.at, factor)
}

/// A value to be compared with an end, in the unit that the end was typed in, rounded to the roomy side.
fn in_figures(needed: Amount, end: &LimitEnd, system: UnitSystem) -> Option<Amount> {
    let unit = end.at.unit_typed().unwrap_or_else(|| needed.kind().answer_unit(system));
    rounded_in(unit, needed, end.side == Side::Highest)
}
