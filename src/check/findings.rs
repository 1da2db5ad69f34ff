//! Where checks put what they find. Words are made only where somebody will read them: most of a check's
//! time would go into sentences that a summary drops.

use super::{
    ALL, Case, DecisionRule, Finding, Force, GuardFactor, Mark, Tally, Told, Variable, VariableSet,
    Verdict, first_look::first_look,
};
use crate::trade::Conformity;

/// Which findings are told in words.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Telling {
    /// None: only the verdict matters.
    Nothing,
    /// Those that somebody has something to do about.
    WhatNeedsSomething,
    /// All.
    Everything,
}

/// As many findings as most cases have: a list that grows moves them all several times.
const MOST: usize = 80;

/// What the checks find in one case.
#[derive(Debug)]
pub struct Findings {
    telling: Telling,
    guard: GuardFactor,
    settled: VariableSet,
    tally: Tally,
    told: Vec<Finding>,
}

impl Findings {
    /// None yet.
    #[must_use]
    pub fn new(telling: Telling) -> Self {
        let room = if telling == Telling::Everything { MOST } else { 0 };
        Self {
            telling,
            guard: GuardFactor::ONE,
            settled: VariableSet::default(),
            tally: Tally::default(),
            told: Vec::with_capacity(room),
        }
    }

    /// What every check finds in a case.
    #[must_use]
    pub fn of(case: &Case<'_>, telling: Telling) -> Self {
        let guard = case.book.settings.guard_factor;
        let mut findings = Self { guard, ..Self::new(telling) };
        if telling != Telling::Everything {
            findings.settled = first_look(case, &mut findings.tally);
        }
        for check in ALL {
            (check.run)(case, &mut findings);
        }
        findings
    }

    /// Whether the first look has settled and counted a variable: a number inside the limits of all who limit it,
    /// or a choice that the procedure allows.
    #[inline]
    #[must_use]
    pub const fn has_settled(&self, variable: Variable) -> bool {
        self.settled.contains(variable)
    }

    /// How wide the organisation's guard bands are.
    #[must_use]
    pub const fn guard(&self) -> GuardFactor {
        self.guard
    }

    /// Takes one finding on a value that may have been read by an instrument; its words and what the
    /// instrument shows are made if they will be read.
    pub fn note_read(
        &mut self,
        mark: Mark,
        conformity: impl FnOnce() -> Option<Conformity>,
        words: impl FnOnce() -> Told,
    ) {
        let told = self.told.len();
        self.note(mark, words);
        if let Some(finding) = self.told.get_mut(told) {
            finding.conformity = conformity();
        }
    }

    /// Takes one finding; its words are made if they will be read.
    #[inline]
    pub fn note(&mut self, mark: Mark, words: impl FnOnce() -> Told) {
        self.tally.add(mark);
        let wanted = match self.telling {
            Telling::Nothing => false,
            Telling::WhatNeedsSomething => mark.needs_something(),
            Telling::Everything => true,
        };
        if wanted {
            self.tell(mark, words);
        }
    }

    /// Apart from [`Findings::note`], which mostly has nothing to tell.
    #[inline(never)]
    fn tell(&mut self, mark: Mark, words: impl FnOnce() -> Told) {
        self.told.push(Finding::new(mark, words()));
    }

    /// Takes a value that is plainly inside a limit of this force; not where all findings are told.
    #[inline]
    pub fn pass(&mut self, force: Force) -> bool {
        let passes = self.telling != Telling::Everything;
        if passes {
            self.tally.add_inside(force, 1);
        }
        passes
    }

    /// What all of them come to, told or not.
    #[must_use]
    pub const fn tally(&self) -> &Tally {
        &self.tally
    }

    /// The verdict over all of them, told or not.
    #[must_use]
    pub fn verdict(&self, rule: DecisionRule) -> Verdict {
        self.tally.verdict(rule)
    }

    /// Those that are told.
    #[must_use]
    pub fn told(&self) -> &[Finding] {
        &self.told
    }

    /// Those that are told, to add to their words.
    pub(super) fn told_since(&mut self, earlier: usize) -> &mut [Finding] {
        self.told.get_mut(earlier..).unwrap_or_default()
    }

    /// Those that are told.
    #[must_use]
    pub fn into_told(self) -> Vec<Finding> {
        self.told
    }
}
