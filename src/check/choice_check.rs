//! The part all checks of a choice share: one stated value against a list of allowed ones.

use std::fmt;

use super::{Check, Finding, Force, Outcome, Owner, Shown, remedy::in_words};

/// Words of one check of a choice, as far as it can have to print them. Each check has its own; none
/// is shared.
pub struct Words {
    /// What may happen outside the limit.
    pub consequence: Option<&'static str>,
    /// How to get inside, completed by what is allowed: "Weld by process".
    pub change: Option<&'static str>,
    /// What to state when nothing is given.
    pub state: Option<&'static str>,
    /// What to record when the owner sets no limit.
    pub record: Option<&'static str>,
}

impl Words {
    /// None at all, for those that a check cannot have to print.
    pub const NONE: Self = Self { consequence: None, change: None, state: None, record: None };

    const fn all(&self) -> [Option<&'static str>; 4] {
        [self.consequence, self.change, self.state, self.record]
    }
}

/// How many texts some words have.
pub const fn count(words: &[&Words]) -> usize {
    let (mut texts, mut at) = (0, 0);
    while at < 4 * words.len() {
        texts += words[at / 4].all()[at % 4].is_some() as usize;
        at += 1;
    }
    texts
}

/// Their texts; `N` is what [`count`] says.
pub const fn collect<const N: usize>(words: &[&Words]) -> [&'static str; N] {
    let mut texts = [""; N];
    let (mut filled, mut at) = (0, 0);
    while at < 4 * words.len() {
        if let Some(text) = words[at / 4].all()[at % 4] {
            texts[filled] = text;
            filled += 1;
        }
        at += 1;
    }
    texts
}

/// All texts of the words named, for the registry.
macro_rules! texts {
    ($($words:ident),+) => {{
        const TEXTS: [&str; $crate::check::choice_check::count(&[$(&$words),+])] =
            $crate::check::choice_check::collect(&[$(&$words),+]);
        &TEXTS
    }};
}
pub(crate) use texts;

/// One limit of a choice: who sets it, with which force, in which words.
pub struct Rule<'a> {
    /// The check.
    pub check: &'a Check,
    /// Who sets the limit.
    pub owner: Owner,
    /// Permission or advice.
    pub force: Force,
    /// Words of the limit.
    pub words: &'a Words,
}

impl Rule<'_> {
    /// The finding of a stated value against a list; an empty list sets no limit.
    pub fn one_of<T>(&self, given: Option<T>, allowed: &[T]) -> Finding
    where
        T: PartialEq + fmt::Display + Copy,
    {
        self.judged(given.as_ref(), Shown::words(allowed), !allowed.is_empty(), |value| {
            allowed.contains(value)
        })
    }

    /// The finding of a stated value against a limit shown in words. `known` says whether the owner
    /// sets a limit at all.
    pub fn judged<T: fmt::Display>(
        &self,
        given: Option<&T>,
        allowed: Shown,
        known: bool,
        holds: impl Fn(&T) -> bool,
    ) -> Finding {
        let shown = given.map_or(Shown::Nothing, Shown::word);
        let outcome = match given {
            _ if !known => Outcome::NoLimit,
            None => Outcome::NotGiven,
            Some(value) if holds(value) => Outcome::Inside,
            Some(_) => Outcome::Outside,
        };
        let allowed = if known { allowed } else { Shown::Nothing };
        let reason = self.reason(outcome, &shown, &allowed);
        self.finding(outcome, shown, allowed, reason)
    }

    /// A finding with a reason of its own; remedy and consequence follow from the outcome.
    pub fn finding(
        &self,
        outcome: Outcome,
        given: Shown,
        allowed: Shown,
        reason: impl Into<String>,
    ) -> Finding {
        let words = self.words;
        let (remedy, consequence) = match outcome {
            Outcome::Inside | Outcome::NotApplicable => (None, None),
            Outcome::NotGiven => (words.state.map(str::to_owned), None),
            Outcome::NoLimit => (words.record.map(str::to_owned), None),
            Outcome::EdgeInside | Outcome::EdgeOutside | Outcome::Outside => {
                (words.change.map(|change| completed(change, &allowed)), words.consequence)
            }
        };
        Finding {
            check: self.check.code,
            variable: self.check.variable,
            outcome,
            force: self.force,
            given,
            allowed,
            owner: self.owner.clone(),
            reason: reason.into(),
            remedy,
            consequence,
            accuracy_unknown: false,
        }
    }

    fn reason(&self, outcome: Outcome, given: &Shown, allowed: &Shown) -> String {
        let owner = &self.owner;
        match outcome {
            Outcome::Inside if given == allowed => format!("{given} is what {owner} allows."),
            Outcome::Inside => format!("{given} is among what {owner} allows: {allowed}."),
            Outcome::NotGiven => {
                let variable = in_words(self.check.variable);
                format!("The setup does not state the {variable}; {owner} allows {allowed}.")
            }
            Outcome::NoLimit => format!("A limit is needed here, and none is set by {owner}."),
            _ => format!("{given} is not among what {owner} allows: {allowed}."),
        }
    }
}

/// A remedy with what is allowed behind it.
fn completed(change: &str, allowed: &Shown) -> String {
    match allowed {
        Shown::Nothing => format!("{change}."),
        allowed => format!("{change} {allowed}."),
    }
}
