//! The part all checks of a numeric variable share: one finding for each limit.

use crate::quantity::{Kind, Range, TemperatureKind};

use super::{
    CarriedEnds, CarriedHeat, Case, Check, Findings, Force, Given, GuardFactor, Limit, Mark,
    Outcome, Owner, Ranges, Shown, Told, Variable,
    remedy::{accuracy_remedy, advice, difference, in_words},
    worded::worded,
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
    pick: impl Fn(&Ranges) -> &Option<Range<K>>,
    words: &Words,
    findings: &mut Findings,
) {
    if findings.has_settled(words.variable) {
        return;
    }
    if let Some(lack) = case.lacks(words.variable) {
        not_applicable(findings, check, || lack.to_string());
        return;
    }
    let stated = stated.into();
    case.authorities().for_each(|authority| {
        if let Some(range) = pick(authority.ranges()) {
            let limit = Limit { range, source: authority.into(), force: authority.force() };
            against(findings, check, &stated, &limit, words);
        }
    });
}

/// One finding for every limit of a temperature that follows from an owner's limit of the other one, or that a run has
/// from the other runs of its procedure. Unheated metal breaks no maximum: one is held against what is stated.
pub fn against_carried(
    case: &Case<'_>,
    check: &Check,
    stated: &Stated<'_, TemperatureKind>,
    pick: impl Fn(&CarriedHeat) -> &CarriedEnds,
    words: &Words,
    findings: &mut Findings,
) {
    if findings.has_settled(words.variable) || case.lacks(words.variable).is_some() {
        return;
    }
    for authority in case.authorities() {
        for range in pick(authority.ranges().carried()).limits() {
            let is_asked_for = range.min().is_some() || matches!(stated, Stated::Known(_));
            if is_asked_for {
                let limit = Limit { range, source: authority.into(), force: authority.force() };
                against(findings, check, stated, &limit, words);
            }
        }
    }
}

/// The finding of one value against one limit.
#[inline]
pub fn against<K: Kind>(
    findings: &mut Findings,
    check: &Check,
    stated: &Stated<'_, K>,
    limit: &Limit<'_, K>,
    words: &Words,
) {
    let is_plain = matches!(stated, Stated::Known(given) if given.is_plainly_inside(limit.range));
    if !(is_plain && findings.pass(limit.force)) {
        against_closely(findings, check, stated, limit, words);
    }
}

/// The same, with all that may have to be said of it.
fn against_closely<K: Kind>(
    findings: &mut Findings,
    check: &Check,
    stated: &Stated<'_, K>,
    limit: &Limit<'_, K>,
    words: &Words,
) {
    let (variable, force) = (words.variable, limit.force);
    let mark = |outcome, accuracy_unknown| Mark {
        check: check.code,
        variable,
        outcome,
        force,
        accuracy_unknown,
    };
    match stated {
        Stated::Known(given) => {
            let guard = findings.guard();
            let outcome = Outcome::from(given.place(limit.range, guard));
            findings.note_read(
                mark(outcome, given.accuracy_unknown()),
                || {
                    given
                        .conformity(limit.range, guard)
                        .filter(|shown| shown.is_near() || !shown.provable)
                },
                || judged(outcome, given, (limit, guard), words),
            );
        }
        Stated::Missing(why) => {
            findings.note(mark(Outcome::NotGiven, false), || not_given(why, limit, words));
        }
        Stated::Nothing => findings.note(mark(Outcome::NotGiven, false), || {
            let why = format!("The setup does not state the {}", in_words(variable));
            not_given(&why, limit, words)
        }),
    }
}

/// The words of a stated value.
fn judged<K: Kind>(
    outcome: Outcome,
    given: &Given<K>,
    (limit, guard): (&Limit<'_, K>, GuardFactor),
    words: &Words,
) -> Told {
    let owner = limit.source.owner();
    let (remedy, consequence) = match outcome {
        Outcome::Inside => (accuracy_remedy(given, words.variable), None),
        _ => advice(given, limit.range, guard, words),
    };
    let apart = shown(given).apart_from(&limit.range.amounts());
    Told {
        reason: reason(outcome, given, apart.as_ref(), (limit, guard), &owner),
        given: apart.unwrap_or_else(|| shown(given)),
        allowed: Shown::Range(limit.range.amounts()),
        owner,
        remedy,
        consequence,
    }
}

/// A finding that the variable does not exist for this process or joint.
pub fn not_applicable<R: Into<String>>(
    findings: &mut Findings,
    check: &Check,
    reason: impl FnOnce() -> R,
) {
    let mark = Mark {
        check: check.code,
        variable: check.variable,
        outcome: Outcome::NotApplicable,
        force: Force::Required,
        accuracy_unknown: false,
    };
    findings.note(mark, || Told {
        given: Shown::Nothing,
        allowed: Shown::Nothing,
        owner: Owner::SERVICE,
        reason: reason().into(),
        remedy: None,
        consequence: None,
    });
}

/// The words of a value that is missing.
fn not_given<K: Kind>(why: &str, limit: &Limit<'_, K>, words: &Words) -> Told {
    let (allowed, owner) = (limit.range.amounts(), limit.source.owner());
    Told {
        given: Shown::Nothing,
        allowed: Shown::Range(allowed),
        reason: worded(format_args!("{why}; {owner} sets {allowed}.")),
        owner,
        remedy: Some(words.state.to_owned()),
        consequence: None,
    }
}

/// A single value as an amount, an interval as a range.
pub fn shown<K: Kind>(given: &Given<K>) -> Shown {
    match given.span.single() {
        Some(value) => Shown::Amount(value.amount()),
        None => Shown::Range(given.span.amounts()),
    }
}

/// One sentence: the value, how it lies, the limit and who sets it. The value as it is told apart from the limit, where
/// it has to be.
fn reason<K: Kind>(
    outcome: Outcome,
    given: &Given<K>,
    apart: Option<&Shown>,
    (limit, guard): (&Limit<'_, K>, GuardFactor),
    owner: &Owner,
) -> String {
    let allowed = Shown::Range(limit.range.amounts());
    let value = apart.cloned().unwrap_or_else(|| shown(given).beside(allowed.unit_typed()));
    let limit_words = match limit.force {
        Force::Required => format_args!("the limit of {allowed} set by {owner}"),
        Force::Advised => format_args!("the advice of {owner}, {allowed}"),
    };
    let beyond = beyond(given, limit.range);
    match outcome {
        Outcome::Inside => worded(format_args!("{value} is inside {limit_words}.")),
        Outcome::EdgeInside if !given.can_prove(limit.range, guard) => format!(
            "{value} is shown inside {limit_words}, but this instrument cannot prove conformity to this \
             limit: its error of {} to each side leaves nothing of it.",
            difference(given.guard_band(guard), limit.range)
        ),
        Outcome::EdgeInside => format!(
            "{value} is shown inside {limit_words}, but the instrument's error could put it outside."
        ),
        Outcome::EdgeOutside => format!(
            "{value} is shown {beyond} {limit_words}; the instrument's error cannot excuse it."
        ),
        _ => worded(format_args!("{value} is {beyond} {limit_words}.")),
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
