//! The part all checks of a numeric variable share: one finding for each limit.

use crate::quantity::{Kind, Quantity, Range};

use super::{
    Case, Check, Finding, Force, Given, Limit, Outcome, Owner, Ranges, Shown, Variable,
    remedy::{accuracy_remedy, advice, in_words},
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
    /// Nothing: the setup does not state the variable.
    Nothing,
}

impl<'a, K: Kind> From<Option<&'a Given<K>>> for Stated<'a, K> {
    fn from(given: Option<&'a Given<K>>) -> Self {
        given.map_or(Self::Nothing, Self::Known)
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
        Stated::Nothing => {
            let why = format!("The setup does not state the {}", in_words(words.variable));
            return not_given(check, &why, limit, words);
        }
    };
    let outcome = Outcome::from(given.place(&limit.range));
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
        reason: reason(outcome, given, limit),
        given: shown(given),
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

/// One sentence: the value, how it lies, the limit and who sets it.
fn reason<K: Kind>(outcome: Outcome, given: &Given<K>, limit: &Limit<K>) -> String {
    let value = in_units_of(given, &limit.range);
    let (allowed, owner) = (limit.range.amounts(), &limit.owner);
    let limit_words = match limit.force {
        Force::Required => format!("the limit of {allowed} set by {owner}"),
        Force::Advised => format!("the advice of {owner}, {allowed}"),
    };
    let beyond = beyond(given, &limit.range);
    match outcome {
        Outcome::Inside => format!("{value} is inside {limit_words}."),
        Outcome::EdgeInside => format!(
            "{value} is shown inside {limit_words}, but the instrument's error could put it outside."
        ),
        Outcome::EdgeOutside => format!(
            "{value} is shown {beyond} {limit_words}; the instrument's error cannot excuse it."
        ),
        _ => format!("{value} is {beyond} {limit_words}."),
    }
}

/// On which side of its limit a value lies that is not inside.
fn beyond<K: Kind>(given: &Given<K>, range: &Range<K>) -> &'static str {
    let below = range.min().is_some_and(|min| !given.span.low().at_least(min));
    let above = range.max().is_some_and(|max| !given.span.high().at_most(max));
    match (below, above) {
        (true, false) => "below",
        (false, true) => "above",
        _ => "partly outside",
    }
}

/// The value as typed; a computed one in the units the limit was typed in, so that both compare at
/// sight.
fn in_units_of<K: Kind>(given: &Given<K>, range: &Range<K>) -> String {
    let (low, high) = (given.span.low(), given.span.high());
    let typed_limit = range.min().or(range.max()).and_then(Quantity::as_entered);
    match typed_limit.and_then(|typed| typed.unit.system) {
        Some(system) if low.as_entered().is_none() && high.as_entered().is_none() => {
            let written = |end: Quantity<K>| {
                let (number, unit) = end.amount().written(Some(system));
                format!("{number} {}", unit.symbol)
            };
            match given.span.single() {
                Some(value) => written(value),
                None => format!("{} to {}", written(low), written(high)),
            }
        }
        _ => shown(given).to_string(),
    }
}
