//! The part all checks of a choice share: one stated value against a list of allowed ones.

use std::fmt;

use super::{
    Check, Findings, Force, Job, Mark, Outcome, Owner, Shown, Source, Told, Variable,
    remedy::in_words, worded::worded,
};
use crate::quantity::{Kind, Quantity, Range};

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
#[derive(Clone, Copy)]
pub struct Rule<'a> {
    /// The check.
    pub check: &'a Check,
    /// Who sets the limit.
    pub source: Source<'a>,
    /// Permission or advice.
    pub force: Force,
    /// Words of the limit.
    pub words: &'a Words,
}

/// What a finding of a choice says, before remedy and consequence.
pub struct Said {
    /// What the setup says.
    pub given: Shown,
    /// What is allowed.
    pub allowed: Shown,
    /// Why this outcome.
    pub reason: String,
}

impl Said {
    /// A reason alone.
    pub fn reason(reason: impl Into<String>) -> Self {
        Self { given: Shown::Nothing, allowed: Shown::Nothing, reason: reason.into() }
    }
}

impl Rule<'_> {
    /// The finding of a stated value against a list; an empty list sets no limit.
    pub fn one_of<T>(&self, findings: &mut Findings, given: Option<T>, allowed: &[T])
    where
        T: PartialEq + fmt::Display + Copy,
    {
        self.one_of_shown(findings, given, |word| word, allowed);
    }

    /// The finding of a stated value against the one that is fixed. Where none is, a stated one is left open in these
    /// words, and of nothing nothing is said.
    pub fn kept<T>(&self, findings: &mut Findings, stated: Option<T>, fixed: Option<T>, open: &str)
    where
        T: PartialEq + fmt::Display + Copy,
    {
        match (fixed, stated) {
            (Some(fixed), stated) => self.one_of(findings, stated, &[fixed]),
            (None, None) => {}
            (None, Some(stated)) => {
                self.of_owner(findings, Outcome::NotApplicable, || Shown::word(stated), open);
            }
        }
    }

    /// The finding of a stated value, shown in a form of its own instead of its word, against a list; an empty
    /// list sets no limit.
    pub fn one_of_shown<T>(
        &self,
        findings: &mut Findings,
        given: Option<T>,
        shown: impl FnOnce(Shown) -> Shown,
        allowed: &[T],
    ) where
        T: PartialEq + fmt::Display + Copy,
    {
        let known = !allowed.is_empty();
        let outcome = outcome(given.as_ref(), known, |value| allowed.contains(value));
        self.finding(findings, outcome, |owner| {
            let word = given.map_or(Shown::Nothing, Shown::word);
            let allowed = if known { Shown::words(allowed) } else { Shown::Nothing };
            let reason = self.reason(owner, outcome, &word, &allowed);
            Said { given: shown(word), allowed, reason }
        });
    }

    /// The finding of a stated value against a limit shown in words. `known` says whether there is
    /// a limit at all.
    pub fn judged<T: fmt::Display>(
        &self,
        findings: &mut Findings,
        given: Option<&T>,
        allowed: impl FnOnce() -> Shown,
        known: bool,
        holds: impl Fn(&T) -> bool,
    ) {
        let outcome = outcome(given, known, holds);
        self.finding(findings, outcome, |owner| {
            let given = given.map_or(Shown::Nothing, Shown::word);
            let allowed = if known { allowed() } else { Shown::Nothing };
            let reason = self.reason(owner, outcome, &given, &allowed);
            Said { given, allowed, reason }
        });
    }

    /// The finding of a stated amount against a range, ends included. `unsaid` is what the setup does not say where none
    /// is stated, `named` what one is: "The setup does not say how thick the deposit is …", "A deposit of 8 mm is …".
    pub fn within<K: Kind>(
        &self,
        findings: &mut Findings,
        stated: Option<Quantity<K>>,
        range: &Range<K>,
        (unsaid, named): (impl fmt::Display, &str),
    ) {
        let (outcome, lies) = match stated {
            None => (Outcome::NotGiven, ""),
            Some(stated) if range.includes(stated) => (Outcome::Inside, "inside"),
            Some(_) => (Outcome::Outside, "outside"),
        };
        self.finding(findings, outcome, |owner| {
            let allowed = Shown::Range(range.amounts());
            let Some(stated) = stated else {
                let reason = format!("The setup does not say {unsaid}; {owner} sets {allowed}.");
                return Said { given: Shown::Nothing, allowed, reason };
            };
            let given = Shown::Amount(stated.amount());
            let reason =
                format!("{named} of {given} is {lies} the limit of {allowed} set by {owner}.");
            Said { given, allowed, reason }
        });
    }

    /// The finding that the joint lacks a part, where it does, of which something is allowed: a choice that the owner
    /// `allows`, a range that it `sets`.
    pub fn lacking_part(
        &self,
        findings: &mut Findings,
        job: &Job,
        allows: &str,
        allowed: impl FnOnce() -> Shown,
    ) {
        let Some(lacking) = job.lacking_part() else { return };
        self.finding(findings, Outcome::NotGiven, |owner| {
            let allowed = allowed();
            let reason = format!("The joint has {lacking}; {owner} {allows} {allowed}.");
            Said { given: Shown::Nothing, allowed, reason }
        });
    }

    /// A finding with words of its own; remedy and consequence follow from the outcome.
    pub fn finding(
        &self,
        findings: &mut Findings,
        outcome: Outcome,
        said: impl FnOnce(&Owner) -> Said,
    ) {
        self.about(self.check.variable, findings, outcome, said);
    }

    /// A finding whose reason ends in who sets the limit, or none: "The bead is left open for this run by …".
    pub fn of_owner(
        &self,
        findings: &mut Findings,
        outcome: Outcome,
        given: impl FnOnce() -> Shown,
        why: &str,
    ) {
        self.finding(findings, outcome, |owner| Said {
            given: given(),
            ..Said::reason(format!("{why} by {owner}."))
        });
    }

    /// As [`Rule::finding`], about another variable than the check's own.
    pub fn about(
        &self,
        variable: Variable,
        findings: &mut Findings,
        outcome: Outcome,
        said: impl FnOnce(&Owner) -> Said,
    ) {
        let mark = Mark {
            check: self.check.code,
            variable,
            outcome,
            force: self.force,
            accuracy_unknown: false,
        };
        findings.note(mark, || {
            let owner = self.source.owner();
            let Said { given, allowed, reason } = said(&owner);
            let words = self.words;
            let (remedy, consequence) = match outcome {
                Outcome::Inside | Outcome::NotApplicable => (None, None),
                Outcome::NotGiven => (words.state.map(str::to_owned), None),
                Outcome::NoLimit => (words.record.map(str::to_owned), None),
                Outcome::EdgeInside | Outcome::EdgeOutside | Outcome::Outside => {
                    (words.change.map(|change| completed(change, &allowed)), words.consequence)
                }
            };
            Told { given, allowed, owner, reason, remedy, consequence }
        });
    }

    fn reason(&self, owner: &Owner, outcome: Outcome, given: &Shown, allowed: &Shown) -> String {
        let words = match outcome {
            Outcome::Inside if given == allowed => format_args!("{given} is what {owner} allows."),
            Outcome::Inside => format_args!("{given} is among what {owner} allows: {allowed}."),
            Outcome::NotGiven => format_args!(
                "The setup does not state the {}; {owner} allows {allowed}.",
                in_words(self.check.variable)
            ),
            Outcome::NoLimit => format_args!("A limit is needed here, and none is set by {owner}."),
            _ => format_args!("{given} is not among what {owner} allows: {allowed}."),
        };
        worded(words)
    }
}

/// How a choice lies to its limit.
fn outcome<T>(given: Option<&T>, known: bool, holds: impl Fn(&T) -> bool) -> Outcome {
    match given {
        _ if !known => Outcome::NoLimit,
        None => Outcome::NotGiven,
        Some(value) if holds(value) => Outcome::Inside,
        Some(_) => Outcome::Outside,
    }
}

/// A remedy with what is allowed behind it.
fn completed(change: &str, allowed: &Shown) -> String {
    match allowed {
        Shown::Nothing => format!("{change}."),
        allowed => format!("{change} {allowed}."),
    }
}
