//! What one check says about one limit.

use std::{borrow::Cow, fmt};

use crate::{
    quantity::{Amount, AmountRange, Unit},
    trade::{Conformity, coded},
};

use super::{Place, Variable, worded::worded};

coded! {
    /// How a setup lies to one limit.
    pub enum Outcome: "outcome" {
        /// Inside the limit.
        Inside = "inside",
        /// Shown inside; the instrument's error could put it outside.
        EdgeInside = "edge-inside",
        /// Shown outside; the instrument's error could put it inside. Refused like `outside`.
        EdgeOutside = "edge-outside",
        /// Outside the limit.
        Outside = "outside",
        /// The setup does not say.
        NotGiven = "not-given",
        /// A variable that must be bounded has no limit.
        NoLimit = "no-limit",
        /// The limit does not concern this setup.
        NotApplicable = "not-applicable",
    }
}

impl From<Place> for Outcome {
    fn from(place: Place) -> Self {
        match place {
            Place::Inside => Self::Inside,
            Place::EdgeInside => Self::EdgeInside,
            Place::EdgeOutside => Self::EdgeOutside,
            Place::Outside => Self::Outside,
        }
    }
}

coded! {
    /// Whether a limit gives permission or advice.
    pub enum Force: "force" {
        /// Must be met.
        Required = "required",
        /// Should be met.
        Advised = "advised",
    }
}

coded! {
    /// Kinds of those who set limits.
    pub enum OwnerKind: "kind of owner" {
        /// A procedure revision.
        Procedure = "procedure",
        /// A printed data edition of a consumable.
        ConsumableData = "consumable-data",
        /// The consumable itself: what its maker allows, or what its designation says.
        Consumable = "consumable",
        /// Rating of a station.
        Station = "station",
        /// The customer's job.
        WorkOrder = "work-order",
        /// A welder's qualifications.
        Welder = "welder",
        /// Common practice of the trade, or a printed handbook.
        Practice = "practice",
        /// The service: a rule of its own, such as that nothing may stay unbounded.
        Service = "service",
    }
}

/// Who set a limit.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Owner {
    /// What they are.
    pub kind: OwnerKind,
    /// Who they are, in words that are read in the middle of a sentence.
    pub name: Cow<'static, str>,
}

impl Owner {
    /// The service itself.
    pub const SERVICE: Self =
        Self { kind: OwnerKind::Service, name: Cow::Borrowed("this service") };

    /// Common practice of the trade, or a printed handbook.
    #[must_use]
    pub fn practice(source: impl Into<Cow<'static, str>>) -> Self {
        Self { kind: OwnerKind::Practice, name: source.into() }
    }

    /// Somebody on record, named in words.
    pub(super) fn on_record(kind: OwnerKind, name: fmt::Arguments<'_>) -> Self {
        Self { kind, name: worded(name).into() }
    }
}

impl fmt::Display for Owner {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.name)
    }
}

/// A value or limit as a finding shows it.
#[derive(Debug, Clone, PartialEq)]
pub enum Shown {
    /// Nothing was given, or nothing is allowed.
    Nothing,
    /// Words and codes.
    Words(Vec<String>),
    /// One amount.
    Amount(Amount),
    /// A range; one end may be open.
    Range(AmountRange),
}

impl Shown {
    /// One word or code.
    pub fn word(word: impl fmt::Display) -> Self {
        Self::Words(vec![word.to_string()])
    }

    /// Several words or codes.
    pub fn words<T: fmt::Display>(words: impl IntoIterator<Item = T>) -> Self {
        Self::Words(words.into_iter().map(|word| word.to_string()).collect())
    }

    /// The value for a sentence: a computed one in the unit that the value or limit beside it was typed in, so
    /// that both compare at sight.
    #[must_use]
    pub fn beside(&self, typed: Option<&'static Unit>) -> Self {
        match (self, self.unit_typed().or(typed)) {
            (Self::Amount(amount), Some(unit)) => Self::Amount(amount.said_in(unit)),
            (Self::Range(range), Some(unit)) => Self::Range(range.said_in(unit)),
            _ => self.clone(),
        }
    }

    /// The same with more digits, where a computed value would be printed as an end of the limit that it is not.
    #[must_use]
    pub fn apart_from(&self, limit: &AmountRange) -> Option<Self> {
        let apart = |amount: Amount| amount.apart_from([limit.min, limit.max]);
        match self {
            Self::Amount(amount) => apart(*amount).map(Self::Amount),
            Self::Range(AmountRange { min, max }) => {
                let (of_min, of_max) = (min.and_then(apart), max.and_then(apart));
                (of_min.is_some() || of_max.is_some()).then(|| {
                    Self::Range(AmountRange { min: of_min.or(*min), max: of_max.or(*max) })
                })
            }
            Self::Nothing | Self::Words(_) => None,
        }
    }

    /// The unit that it was typed in; of a range, that of its first typed end.
    #[must_use]
    pub fn unit_typed(&self) -> Option<&'static Unit> {
        match self {
            Self::Nothing | Self::Words(_) => None,
            Self::Amount(amount) => amount.unit_typed(),
            Self::Range(AmountRange { min, max }) => {
                [*min, *max].into_iter().flatten().find_map(Amount::unit_typed)
            }
        }
    }
}

impl fmt::Display for Shown {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Nothing => f.write_str("nothing"),
            Self::Words(words) => words.iter().enumerate().try_for_each(|(index, word)| {
                f.write_str(if index == 0 { "" } else { ", " })?;
                f.write_str(word)
            }),
            Self::Amount(amount) => amount.fmt(f),
            Self::Range(range) => range.fmt(f),
        }
    }
}

/// What one check says about one limit.
#[derive(Debug, Clone, PartialEq)]
pub struct Finding {
    /// Code of the check.
    pub check: &'static str,
    /// Variable concerned.
    pub variable: Variable,
    /// How the setup lies to the limit.
    pub outcome: Outcome,
    /// Whether the limit is required or advised.
    pub force: Force,
    /// What the setup says.
    pub given: Shown,
    /// What is allowed.
    pub allowed: Shown,
    /// Who set the limit.
    pub owner: Owner,
    /// One sentence: why this outcome.
    pub reason: String,
    /// What to change it to; `None` where nothing has to change.
    pub remedy: Option<String>,
    /// What may happen otherwise; `None` where nothing has to change.
    pub consequence: Option<&'static str>,
    /// The value was measured with an accuracy nobody knows.
    pub accuracy_unknown: bool,
    /// What the instrument shows of the quantity being inside; `None` far from the limit, and where
    /// nothing was measured or nobody knows the accuracy.
    pub conformity: Option<Conformity>,
}

/// What a finding comes to, without its words: enough for the verdict.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Mark {
    /// Code of the check.
    pub check: &'static str,
    /// Variable concerned.
    pub variable: Variable,
    /// How the setup lies to the limit.
    pub outcome: Outcome,
    /// Whether the limit is required or advised.
    pub force: Force,
    /// The value was measured with an accuracy nobody knows.
    pub accuracy_unknown: bool,
}

impl Mark {
    /// Whether somebody has something to do about it.
    #[must_use]
    pub const fn needs_something(&self) -> bool {
        self.accuracy_unknown || !matches!(self.outcome, Outcome::Inside | Outcome::NotApplicable)
    }
}

/// The words and values of a finding.
#[derive(Debug, Clone, PartialEq)]
pub struct Told {
    /// What the setup says.
    pub given: Shown,
    /// What is allowed.
    pub allowed: Shown,
    /// Who set the limit.
    pub owner: Owner,
    /// One sentence: why this outcome.
    pub reason: String,
    /// What to change it to; `None` where nothing has to change.
    pub remedy: Option<String>,
    /// What may happen otherwise; `None` where nothing has to change.
    pub consequence: Option<&'static str>,
}

impl Finding {
    /// The finding of a mark and its words.
    #[must_use]
    pub fn new(mark: Mark, told: Told) -> Self {
        let Mark { check, variable, outcome, force, accuracy_unknown } = mark;
        let Told { given, allowed, owner, reason, remedy, consequence } = told;
        Self {
            check,
            variable,
            outcome,
            force,
            given,
            allowed,
            owner,
            reason,
            remedy,
            consequence,
            accuracy_unknown,
            conformity: None,
        }
    }

    /// What it comes to.
    #[must_use]
    pub const fn mark(&self) -> Mark {
        Mark {
            check: self.check,
            variable: self.variable,
            outcome: self.outcome,
            force: self.force,
            accuracy_unknown: self.accuracy_unknown,
        }
    }
}
