//! The part all checks of a numeric variable share: one finding for each limit.

use crate::quantity::{AmountRange, Kind, Range};

use super::{Case, Check, Finding, Force, Given, Limit, Outcome, Owner, Place, Ranges, Shown};

/// Words of one numeric check. Each check has its own; none is shared.
pub struct Words {
    /// What happens below the limit.
    pub below: &'static str,
    /// What happens above the limit.
    pub above: &'static str,
    /// How to get up to the limit, completed by the value: "Raise the current to at least".
    pub raise: &'static str,
    /// How to get down to the limit, completed by the value.
    pub lower: &'static str,
    /// What to state when nothing is given.
    pub state: &'static str,
}

/// One finding for every recorded limit of the variable.
pub fn against_limits<K: Kind>(
    case: &Case<'_>,
    check: &Check,
    given: Option<&Given<K>>,
    pick: fn(&Ranges) -> Option<Range<K>>,
    words: &Words,
    findings: &mut Vec<Finding>,
) {
    findings.extend(case.limits(pick).iter().map(|limit| against(check, given, limit, words)));
}

/// The finding of one value against one limit.
pub fn against<K: Kind>(
    check: &Check,
    given: Option<&Given<K>>,
    limit: &Limit<K>,
    words: &Words,
) -> Finding {
    let Some(given) = given else { return not_given(check, limit, words) };
    let outcome = match given.place(&limit.range) {
        Place::Inside => Outcome::Inside,
        Place::EdgeInside => Outcome::EdgeInside,
        Place::EdgeOutside => Outcome::EdgeOutside,
        Place::Outside => Outcome::Outside,
    };
    let shown = shown(given);
    let allowed = limit.range.amounts();
    let (remedy, consequence) = match outcome {
        Outcome::Inside => (None, None),
        _ => advice(given, &limit.range, words),
    };
    Finding {
        check: check.code,
        variable: check.variable,
        outcome,
        force: limit.force,
        reason: reason(outcome, &shown, &allowed, &limit.owner),
        given: shown,
        allowed: Shown::Range(allowed),
        owner: limit.owner.clone(),
        remedy,
        consequence,
        accuracy_unknown: given.accuracy_unknown(),
    }
}

/// A finding that the variable does not exist for this process or joint.
pub fn not_applicable(check: &Check, owner: Owner, reason: impl Into<String>) -> Finding {
    Finding {
        check: check.code,
        variable: check.variable,
        outcome: Outcome::NotApplicable,
        force: Force::Required,
        given: Shown::Nothing,
        allowed: Shown::Nothing,
        owner,
        reason: reason.into(),
        remedy: None,
        consequence: None,
        accuracy_unknown: false,
    }
}

fn not_given<K: Kind>(check: &Check, limit: &Limit<K>, words: &Words) -> Finding {
    let allowed = limit.range.amounts();
    Finding {
        check: check.code,
        variable: check.variable,
        outcome: Outcome::NotGiven,
        force: limit.force,
        given: Shown::Nothing,
        allowed: Shown::Range(allowed),
        owner: limit.owner.clone(),
        reason: format!("The setup does not say; {} sets {allowed}.", limit.owner),
        remedy: Some(words.state.to_owned()),
        consequence: None,
        accuracy_unknown: false,
    }
}

/// A single value as an amount, an interval as a range.
fn shown<K: Kind>(given: &Given<K>) -> Shown {
    match given.span.single() {
        Some(value) => Shown::Amount(value.amount()),
        None => Shown::Range(given.span.amounts()),
    }
}

fn reason(outcome: Outcome, given: &Shown, allowed: &AmountRange, owner: &Owner) -> String {
    match outcome {
        Outcome::Inside => format!("{given} is inside {allowed} of {owner}."),
        Outcome::EdgeInside => format!(
            "{given} is shown inside {allowed} of {owner}, but the instrument's error could put it outside."
        ),
        Outcome::EdgeOutside => format!(
            "{given} is shown outside {allowed} of {owner}; the instrument's error cannot excuse it."
        ),
        _ => format!("{given} is outside {allowed} of {owner}."),
    }
}

/// Which end is broken or nearest, and what to do about it.
fn advice<K: Kind>(
    given: &Given<K>,
    range: &Range<K>,
    words: &Words,
) -> (Option<String>, Option<&'static str>) {
    let error = given.uncertainty().unwrap_or(0.0);
    let below = range.min().filter(|min| !given.span.low().at_least(*min));
    let above = range.max().filter(|max| !given.span.high().at_most(*max));
    match (below, above) {
        (Some(min), Some(max)) => {
            let remedy = format!("{} {min} and {} {max}.", words.raise, lower_case(words.lower));
            (Some(remedy), Some(words.below))
        }
        (Some(min), None) => (Some(format!("{} {min}.", words.raise)), Some(words.below)),
        (None, Some(max)) => (Some(format!("{} {max}.", words.lower)), Some(words.above)),
        (None, None) => edge_advice(given, range, words, error),
    }
}

/// Shown inside, too near an end for the instrument.
fn edge_advice<K: Kind>(
    given: &Given<K>,
    range: &Range<K>,
    words: &Words,
    error: f64,
) -> (Option<String>, Option<&'static str>) {
    let near_min = range.min().filter(|min| given.span.low().canonical() - error < min.canonical());
    match (near_min, range.max()) {
        (Some(min), _) => (
            Some(format!("Stay further above {min} than the instrument's error, or use a better instrument.")),
            Some(words.below),
        ),
        (None, Some(max)) => (
            Some(format!("Stay further below {max} than the instrument's error, or use a better instrument.")),
            Some(words.above),
        ),
        (None, None) => (None, None),
    }
}

fn lower_case(text: &str) -> String {
    let mut chars = text.chars();
    chars.next().map_or_else(String::new, |first| first.to_lowercase().chain(chars).collect())
}
