//! Whether a proposed fact lies inside what a limit allows.

use std::cmp::Ordering;

use super::Standing;
use crate::{
    qualify::{
        Limit, Proposal,
        facts::{Fact, Side, proposed_parts},
        range::{Allowed, Bound, GasWindow, Interval, MetalCover, Missing, Spread, Whose},
    },
    quantity::{Amount, AmountRange, compare},
    trade::{Confidence, Gas},
};

/// How a fact stands to a limit, and how well the cell that decides was confirmed.
pub(super) fn fit(limit: &Limit, fact: Option<&Fact>) -> (Standing, Confidence) {
    let plain = |standing| (standing, limit.confidence);
    match (&limit.allowed, fact) {
        (Allowed::Met, _) | (Allowed::NoPreheat(_), None) => plain(Standing::Inside),
        (Allowed::NotMet(_), _) => plain(Standing::Outside),
        (Allowed::Unknown(missing), _) => plain(Standing::NotJudged(missing.clone())),
        // Without a filler or a gas of its own there is nothing to hold against the limit.
        (_, None) => {
            plain(Standing::NotJudged(Missing::new(Whose::Proposal, limit.variable.to_string())))
        }
        (Allowed::Interval(interval) | Allowed::NoPreheat(interval), Some(Fact::Range(range))) => {
            plain(within(interval, *range))
        }
        (Allowed::Spread(spread), Some(Fact::Range(range))) => plain(yes(narrow(*spread, *range))),
        (Allowed::Words(allowed), Some(Fact::Words(words))) => {
            plain(yes(words.iter().all(|word| allowed.contains(word))))
        }
        (Allowed::Gas(window), Some(Fact::Gas(gas))) => plain(gas_inside(window, gas)),
        (Allowed::Metals(cover), Some(Fact::Metals(sides))) => {
            let (standing, doubtful) = metals(cover, sides);
            (standing, if doubtful { Confidence::Memory } else { limit.confidence })
        }
        _ => plain(Standing::NotJudged(Missing::new(Whose::Proposal, limit.variable.to_string()))),
    }
}

/// Whether a range lies within the shares of one value: the highest value that its lower end allows is at
/// least the lowest one that its upper end allows. A range without an end is as wide as can be.
fn narrow(spread: Spread, range: AmountRange) -> bool {
    let (Some(min), Some(max)) = (range.min, range.max) else { return false };
    let of_low = min.canonical() * 100.0 / (100.0 - spread.minus);
    let of_high = max.canonical() * 100.0 / (100.0 + spread.plus);
    compare(of_high, of_low, 0.0).is_le()
}

pub(super) const fn yes(inside: bool) -> Standing {
    if inside { Standing::Inside } else { Standing::Outside }
}

/// A proposed range inside an interval. An end that the interval bounds and the proposal leaves open lies
/// outside. Kinds that differ, as arc energy and heat input, are not compared.
pub(super) fn within(interval: &Interval, range: AmountRange) -> Standing {
    let low = interval.min.map(|min| at_end(min, range.min, Ordering::Less));
    let high = interval.max.map(|max| at_end(max, range.max, Ordering::Greater));
    let ends = [low, high];
    if let Some(Some(unknown)) = ends.iter().find(|end| matches!(end, Some(Standing::NotJudged(_))))
    {
        return unknown.clone();
    }
    yes(!ends.contains(&Some(Standing::Outside)))
}

fn at_end(bound: Bound, given: Option<Amount>, beyond: Ordering) -> Standing {
    let Some(given) = given else { return Standing::Outside };
    match given.compare(bound.amount) {
        None => Standing::NotJudged(Missing::new(
            Whose::Proposal,
            format!(
                "{} as recorded; {} is another basis",
                bound.amount.kind().name,
                given.kind().name
            ),
        )),
        Some(Ordering::Equal) => yes(bound.included),
        Some(order) => yes(order != beyond),
    }
}

/// Each proposed part beside a tested one, in either order.
pub(super) fn each_part(intervals: &[Interval], parts: &[AmountRange]) -> Standing {
    let fits = |order: &[usize]| {
        parts.iter().zip(order).all(|(part, at)| {
            intervals.get(*at).is_some_and(|own| within(own, *part) == Standing::Inside)
        })
    };
    match (intervals.len(), parts.len()) {
        (2, 2) => yes(fits(&[0, 1]) || fits(&[1, 0])),
        (1, _) => yes(fits(&vec![0; parts.len()])),
        (_, 1) => yes((0..intervals.len()).any(|at| fits(&[at]))),
        _ => Standing::NotJudged(Missing::new(Whose::Proposal, "the joint as two parts")),
    }
}

/// The thinner of the proposed parts: lower end of the thinnest, upper end of the one that is thinner at its
/// upper end.
pub(super) fn thinnest(proposal: &Proposal) -> Option<Fact> {
    let parts = proposed_parts(proposal)?;
    let least = |ends: Vec<Option<Amount>>| {
        let known = ends.into_iter().flatten();
        known.reduce(|a, b| if b.compare(a) == Some(Ordering::Less) { b } else { a })
    };
    let min = least(parts.iter().map(|part| part.min).collect());
    let min = min.filter(|_| parts.iter().all(|part| part.min.is_some()));
    let max = least(parts.iter().map(|part| part.max).collect());
    Some(Fact::Range(AmountRange { min, max }))
}

fn gas_inside(window: &GasWindow, gas: &Gas) -> Standing {
    match (gas.group(), gas.mixture()) {
        (None, _) => yes(window.none),
        _ if window.none => Standing::Outside,
        (_, Some(mixture)) => yes(window.shares.iter().all(|(component, low, high)| {
            let share = mixture.share(*component);
            *low <= share && share <= *high
        })),
        (Some(group), None) => {
            let can_lie_inside = window
                .shares
                .iter()
                .all(|(component, low, high)| group.can_hold(*component, *low, *high));
            if can_lie_inside {
                Standing::NotJudged(Missing::new(Whose::Proposal, "the composition of the gas"))
            } else {
                Standing::Outside
            }
        }
    }
}

/// Whether a pair is covered, and whether by a cell that was hard to read.
fn metals(cover: &MetalCover, sides: &[Side]) -> (Standing, bool) {
    let unknown = |fact: &str| Standing::NotJudged(Missing::new(Whose::Proposal, fact));
    let [a, b] = sides else { return (unknown("the base metals as two parts"), false) };
    let (Some(group_a), Some(group_b)) = (a.group, b.group) else {
        return (unknown("the base-metal group of each part"), false);
    };
    let pair = (group_a.group().max(group_b.group()), group_a.group().min(group_b.group()));
    if !cover.pairs.contains(&pair) {
        return (Standing::Outside, false);
    }
    let doubtful = cover.doubtful.contains(&pair);
    let straight = beside(cover, [(a, 0), (b, 1)]);
    let crossed = beside(cover, [(a, 1), (b, 0)]);
    (better(straight, crossed), doubtful)
}

fn better(a: Standing, b: Standing) -> Standing {
    match (a, b) {
        (Standing::Inside, _) | (_, Standing::Inside) => Standing::Inside,
        (Standing::NotJudged(missing), _) | (_, Standing::NotJudged(missing)) => {
            Standing::NotJudged(missing)
        }
        _ => Standing::Outside,
    }
}

/// The notes of the matrix, with each proposed part laid beside one tested part.
fn beside(cover: &MetalCover, pairs: [(&Side, usize); 2]) -> Standing {
    let mut all = Standing::Inside;
    for (side, at) in pairs {
        match cover.tested.get(at).map_or(Standing::Outside, |tested| note(cover, side, tested)) {
            Standing::Outside => return Standing::Outside,
            Standing::NotJudged(missing) => all = Standing::NotJudged(missing),
            _ => {}
        }
    }
    all
}

fn note(cover: &MetalCover, side: &Side, tested: &Side) -> Standing {
    let (Some(proposed), Some(group)) = (side.group, tested.group) else {
        return Standing::Outside;
    };
    let notes = &cover.notes;
    if notes.equal_or_lower_yield.contains(&group.group()) {
        return match (side.specified_yield, tested.specified_yield) {
            (Some(given), Some(tested)) => yes(given.at_most(tested)),
            (None, _) => Standing::NotJudged(Missing::new(
                Whose::Proposal,
                "the specified minimum yield strength of each part",
            )),
            (_, None) => Standing::NotJudged(Missing::new(
                Whose::Record,
                "the specified minimum yield strength of each part",
            )),
        };
    }
    let lower = notes.same_or_lower_sub_group.contains(&group.group());
    let same = notes.same_sub_group.contains(&group.group());
    // A part of another group than the tested one beside it has no sub-group to compare.
    if proposed.group() != group.group() || !(lower || same) {
        return Standing::Inside;
    }
    let unknown = |whose| Standing::NotJudged(Missing::new(whose, "the sub-group of each part"));
    match (proposed.sub_group(), group.sub_group()) {
        (Some(given), Some(tested)) if lower => yes(given <= tested),
        (Some(given), Some(tested)) => yes(given == tested),
        (None, _) => unknown(Whose::Proposal),
        (_, None) => unknown(Whose::Record),
    }
}

/// A proposed fact in words.
pub(super) fn in_words(fact: &Fact) -> String {
    match fact {
        Fact::Readings { mean, .. } => mean.to_string(),
        Fact::Range(range) => range.to_string(),
        Fact::Words(words) => words.join(", "),
        Fact::Gas(Gas::Mixture(mixture)) => mixture.designation(),
        Fact::Gas(Gas::Group(group)) => group.to_string(),
        Fact::Gas(Gas::None) => "none".to_owned(),
        Fact::Metals(sides) => {
            let one = |side: &Side| {
                let group = side.group.map_or_else(|| "unknown".to_owned(), |g| g.to_string());
                let strength = side.specified_yield.map(|stress| format!(" of {stress}"));
                format!("{group}{}", strength.unwrap_or_default())
            };
            sides.iter().map(one).collect::<Vec<_>>().join(" and ")
        }
    }
}
