//! Why nothing is left: limits that cannot hold together, none of them spare, and what each would have
//! to become.

use super::amounts::{rounded, times};
use crate::{
    quantity::Amount,
    window::{
        linear::{DIM, DRIFT, Optimum, Polytope, along},
        space::{Derived, LimitEnd, Region, Side, Space, Subject},
    },
};

/// One limit of a conflict.
#[derive(Debug, Clone, PartialEq)]
pub struct Contradiction {
    /// The limit.
    pub limit: LimitEnd,
    /// What its end would have to become for something to be left, rounded to the roomy side; `None`
    /// where no end of it would do.
    pub needed: Option<Amount>,
    /// Whether that alone is enough; otherwise other limits stand in the way as well.
    pub enough: bool,
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

/// Filters a set of contradictory half-spaces, limit by limit, until none is spare.
pub(super) fn of(space: &Space, region: &Region, contradictory: &[usize]) -> ConflictSet {
    let limit_of = |number: &usize| region.faces.get(*number).copied();
    let mut left: Vec<usize> = contradictory.iter().filter_map(limit_of).collect();
    left.sort_unstable();
    left.dedup();
    if !is_empty(&part(region, &|limit| left.contains(&limit))) {
        left = (0..space.faces.len()).collect();
    }
    for limit in left.clone() {
        let without: Vec<_> = left.iter().copied().filter(|other| *other != limit).collect();
        if is_empty(&part(region, &|other| without.contains(&other))) {
            left = without;
        }
    }
    let member = |limit: &usize| {
        let (needed, enough) = relaxed(space, region, *limit, &left);
        Contradiction { limit: space.faces[*limit].limit.clone(), needed, enough }
    };
    let members: Vec<_> = left.iter().map(member).collect();
    let words = words(&members);
    ConflictSet { members, words }
}

/// The polytope with some of its limits.
fn part(region: &Region, wanted: &dyn Fn(usize) -> bool) -> Polytope {
    let pairs = region.polytope.faces.iter().zip(&region.faces);
    let faces = pairs.filter(|(_, limit)| wanted(**limit)).map(|(face, _)| *face).collect();
    Polytope { faces, low: region.polytope.low, high: region.polytope.high }
}

fn is_empty(polytope: &Polytope) -> bool {
    matches!(polytope.maximise(&[0.0; DIM]), Optimum::Empty { .. })
}

/// A limit given way by more than this, as a logarithm, is none.
const MOST_GIVEN: f64 = 60.0;

/// What the end of one limit would have to become: against all other limits, else against those of the
/// conflict.
fn relaxed(
    space: &Space,
    region: &Region,
    limit: usize,
    conflict: &[usize],
) -> (Option<Amount>, bool) {
    let least = |wanted: &dyn Fn(usize) -> bool| {
        let mut polytope = part(region, &|other| other != limit && wanted(other));
        let pairs = region.polytope.faces.iter().zip(&region.faces);
        // How far it gives way stands on the axis of the drift, which is not used here.
        for (face, _) in pairs.filter(|(_, other)| **other == limit) {
            let mut giving = *face;
            giving.normal[DRIFT] = -1.0;
            polytope.faces.push(giving);
        }
        polytope.high[DRIFT] = MOST_GIVEN;
        polytope.highest(&along(DRIFT, -1.0)).map(|(_, value)| -value)
    };
    let against_all = least(&|_| true);
    let enough = against_all.is_some();
    let beyond = against_all.or_else(|| least(&|other| conflict.contains(&other)));
    let Some(beyond) = beyond else { return (None, false) };
    let limit = &space.faces[limit].limit;
    let up = limit.side == Side::Highest;
    let factor = if up { beyond.exp() } else { (-beyond).exp() };
    (times(limit.at, factor).and_then(|needed| rounded(needed, up, space.system)), enough)
}

fn words(members: &[Contradiction]) -> String {
    let asks = |member: &&Contradiction| member.limit.subject == Subject::Derived(Derived::Leg);
    if let Some(leg) = members.iter().find(asks) {
        let others = members.iter().filter(|member| !asks(member));
        let parts: Vec<_> = others.map(against_leg).collect();
        let fewer = leg.needed.map_or_else(String::new, |leg| {
            format!(" One run gives at most {leg} here: more runs.")
        });
        return format!("{} leg in one run: {}.{fewer}", leg.limit.at, parts.join("; "));
    }
    let parts: Vec<_> = members
        .iter()
        .map(|member| {
            member.needed.map_or_else(
                || member.limit.to_string(),
                |needed| format!("{}, where {needed} would be needed", member.limit),
            )
        })
        .collect();
    format!("These cannot hold together: {}.", parts.join("; "))
}

fn against_leg(member: &Contradiction) -> String {
    let LimitEnd { subject, side, at, holder, .. } = &member.limit;
    let side = match side {
        Side::Lowest => "at least",
        Side::Highest => "at most",
    };
    match member.needed {
        Some(needed) => {
            format!("needs {subject} of {needed} here; {holder} allows {side} {at}")
        }
        None => format!("{holder} allows {subject} of {side} {at}"),
    }
}
