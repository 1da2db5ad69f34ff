//! The part all checks of a choice share: one stated value against a list of allowed ones.

use std::fmt;

use super::{Check, Finding, Force, Outcome, Owner, Shown};

/// Words of one check of a choice. Each check has its own; none is shared.
pub struct Words {
    /// What may happen outside the limit.
    pub consequence: &'static str,
    /// How to get inside, completed by what is allowed: "Weld by process".
    pub change: &'static str,
    /// What to state when nothing is given.
    pub state: &'static str,
    /// What to record when the owner sets no limit.
    pub record: &'static str,
}

/// All texts of the words named, for the registry.
macro_rules! texts {
    ($($words:ident),+) => {
        &[$($words.consequence, $words.change, $words.state, $words.record),+]
    };
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
            Outcome::NotGiven => (Some(words.state.to_owned()), None),
            Outcome::NoLimit => (Some(words.record.to_owned()), None),
            Outcome::EdgeInside | Outcome::EdgeOutside | Outcome::Outside => {
                (Some(self.change(&allowed)), Some(words.consequence))
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

    fn change(&self, allowed: &Shown) -> String {
        match allowed {
            Shown::Nothing => format!("{}.", self.words.change),
            allowed => format!("{} {allowed}.", self.words.change),
        }
    }

    fn reason(&self, outcome: Outcome, given: &Shown, allowed: &Shown) -> String {
        let owner = &self.owner;
        match outcome {
            Outcome::Inside => format!("{given} is among what {owner} allows: {allowed}."),
            Outcome::NotGiven => format!("The setup does not say; {owner} allows {allowed}."),
            Outcome::NoLimit => format!("{owner} sets no limit where one is needed."),
            _ => format!("{given} is not among what {owner} allows: {allowed}."),
        }
    }
}
