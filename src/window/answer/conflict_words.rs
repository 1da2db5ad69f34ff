//! A conflict in words.

use super::{
    conflict::Contradiction,
    stray_cause::{Cause, Stray},
};
use crate::{
    check::Variable,
    window::space::{Derived, LimitEnd, Side, Space, Subject},
};

/// The limits, what each would have to become, and what they are kept for.
pub(super) fn of(space: &Space, members: &[Contradiction], cause: &Cause) -> String {
    let asked = (Subject::Derived(Derived::Leg), Side::Lowest);
    let asks = |member: &&Contradiction| (member.limit.subject, member.limit.side) == asked;
    let stray = stray_words(cause, members.len());
    if let Some(leg) = members.iter().find(asks) {
        let others = members.iter().filter(|member| !asks(member));
        let parts: Vec<_> = others.map(|member| against_leg(space, member)).collect();
        let fewer = leg.needed.filter(|_| leg.enough).map_or_else(String::new, |leg| {
            format!(" One run gives at most {leg} here: more runs.")
        });
        let against =
            if parts.is_empty() { "no run gives it".to_owned() } else { parts.join("; ") };
        return format!("{} leg in one run: {against}.{fewer}{stray}", leg.limit.at);
    }
    let parts: Vec<_> = members
        .iter()
        .map(|member| {
            let limit = member.limit.said(space.system);
            member.needed.map_or_else(
                || limit.clone(),
                |needed| format!("{limit}, where {needed} would be needed{}", reach(space, member)),
            )
        })
        .collect();
    let start = if parts.len() == 1 { "This cannot hold" } else { "These cannot hold together" };
    format!("{start}: {}.{stray}", parts.join("; "))
}

/// What else has to give way for a change to help.
fn reach(space: &Space, member: &Contradiction) -> String {
    if member.enough {
        return String::new();
    }
    if member.with.is_empty() {
        return ", which alone is not enough".to_owned();
    }
    let other = |end: &LimitEnd| {
        let end = end.in_units(space.system);
        format!("the {} of {}", end.at, end.holder)
    };
    let others: Vec<_> = member.with.iter().map(other).collect();
    format!(", in place of {} too", others.join(" and "))
}

fn against_leg(space: &Space, member: &Contradiction) -> String {
    let LimitEnd { subject, side, at, holder, .. } = &member.limit.in_units(space.system);
    let side = match side {
        Side::Lowest => "at least",
        Side::Highest => "at most",
    };
    match member.needed {
        Some(needed) => {
            let reach = reach(space, member);
            format!("needs {subject} of {needed} here{reach}; {holder} allows {side} {at}")
        }
        None => format!("{holder} allows {subject} of {side} {at}"),
    }
}

fn stray_words(cause: &Cause, limits: usize) -> String {
    let (strays, link) = match cause {
        Cause::None => return String::new(),
        Cause::Any(strays) => (strays, " or "),
        Cause::All(strays) => (strays, " and "),
    };
    let parts: Vec<_> = strays.iter().map(|stray| stray_name(*stray)).collect();
    let they = if limits == 1 { "it would" } else { "they could" };
    format!(" Without {}, which limits are kept for, {they}.", parts.join(link))
}

fn stray_name(stray: Stray) -> String {
    let name = |variable: Variable| Subject::Variable(variable).to_string();
    match stray {
        Stray::Error(variable) => {
            format!("the error of the instrument that reads the {}", name(variable))
        }
        Stray::Hand(variable) => format!("what the hand strays in {}", name(variable)),
    }
}
