//! The part all checks of a numeric variable share: one finding for each limit.

use crate::quantity::{AmountRange, Kind, Range};

use super::{
    Case, Check, Finding, Force, Given, Limit, Outcome, Owner, Ranges, Shown, Variable,
    remedy::{accuracy_remedy, advice},
};

/// Words of one numeric variable in its check. None is shared with another check.
pub struct Words {
    /// The variable they speak about.
    pub variable: Variable,
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

impl Words {
    /// All of them, for the registry.
    pub const fn texts(&self) -> [&'static str; 5] {
        [self.below, self.above, self.raise, self.lower, self.state]
    }
}

/// What a setup says about one variable, stated or computed.
#[derive(Debug)]
pub enum Stated<'a, K: Kind> {
    /// A value or an interval.
    Known(&'a Given<K>),
    /// Nothing, and why, as the start of a sentence.
    Missing(&'a str),
}

impl<'a, K: Kind> From<Option<&'a Given<K>>> for Stated<'a, K> {
    fn from(given: Option<&'a Given<K>>) -> Self {
        given.map_or(Self::Missing("The setup does not say"), Self::Known)
    }
}

/// One finding for every recorded limit of the variable; one that says why, where the case does not
/// have the variable.
pub fn against_limits<'a, K: Kind>(
    case: &Case<'_>,
    check: &Check,
    stated: impl Into<Stated<'a, K>>,
    pick: fn(&Ranges) -> Option<Range<K>>,
    words: &Words,
    findings: &mut Vec<Finding>,
) {
    if let Some(reason) = case.lacks(words.variable) {
        findings.push(not_applicable(check, reason));
        return;
    }
    let stated = stated.into();
    findings.extend(case.limits(pick).iter().map(|limit| against(check, &stated, limit, words)));
}

/// The finding of one value against one limit.
pub fn against<K: Kind>(
    check: &Check,
    stated: &Stated<'_, K>,
    limit: &Limit<K>,
    words: &Words,
) -> Finding {
    let given = match stated {
        Stated::Known(given) => *given,
        Stated::Missing(why) => return not_given(check, why, limit, words),
    };
    let outcome = Outcome::from(given.place(&limit.range));
    let shown = shown(given);
    let allowed = limit.range.amounts();
    let (remedy, consequence) = match outcome {
        Outcome::Inside => (accuracy_remedy(given, words.variable), None),
        _ => advice(given, &limit.range, words),
    };
    Finding {
        check: check.code,
        variable: words.variable,
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
pub fn not_applicable(check: &Check, reason: impl Into<String>) -> Finding {
    Finding {
        check: check.code,
        variable: check.variable,
        outcome: Outcome::NotApplicable,
        force: Force::Required,
        given: Shown::Nothing,
        allowed: Shown::Nothing,
        owner: Owner::Service,
        reason: reason.into(),
        remedy: None,
        consequence: None,
        accuracy_unknown: false,
    }
}

fn not_given<K: Kind>(check: &Check, why: &str, limit: &Limit<K>, words: &Words) -> Finding {
    let allowed = limit.range.amounts();
    Finding {
        check: check.code,
        variable: words.variable,
        outcome: Outcome::NotGiven,
        force: limit.force,
        given: Shown::Nothing,
        allowed: Shown::Range(allowed),
        owner: limit.owner.clone(),
        reason: format!("{why}; {} sets {allowed}.", limit.owner),
        remedy: Some(words.state.to_owned()),
        consequence: None,
        accuracy_unknown: false,
    }
}

/// A single value as an amount, an interval as a range.
pub fn shown<K: Kind>(given: &Given<K>) -> Shown {
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
