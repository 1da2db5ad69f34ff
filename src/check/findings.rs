//! Where checks put what they find. Words are made only where somebody will read them: most of a check's
//! time would go into sentences that a summary drops.

use super::{ALL, Case, DecisionRule, Finding, Mark, Told, Verdict};

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

/// What the checks find in one case.
#[derive(Debug)]
pub struct Findings {
    telling: Telling,
    marks: Vec<Mark>,
    told: Vec<Finding>,
}

impl Findings {
    /// None yet.
    #[must_use]
    pub const fn new(telling: Telling) -> Self {
        Self { telling, marks: Vec::new(), told: Vec::new() }
    }

    /// What every check finds in a case.
    #[must_use]
    pub fn of(case: &Case<'_>, telling: Telling) -> Self {
        let mut findings = Self { marks: Vec::with_capacity(2 * ALL.len()), ..Self::new(telling) };
        for check in ALL {
            (check.run)(case, &mut findings);
        }
        findings
    }

    /// Takes one finding; its words are made if they will be read.
    pub fn note(&mut self, mark: Mark, words: impl FnOnce() -> Told) {
        self.marks.push(mark);
        let wanted = match self.telling {
            Telling::Nothing => false,
            Telling::WhatNeedsSomething => mark.needs_something(),
            Telling::Everything => true,
        };
        if wanted {
            self.told.push(Finding::new(mark, words()));
        }
    }

    /// What all of them come to, told or not.
    #[must_use]
    pub fn marks(&self) -> &[Mark] {
        &self.marks
    }

    /// The verdict over all of them, told or not.
    #[must_use]
    pub fn verdict(&self, rule: DecisionRule) -> Verdict {
        Verdict::over(self.marks.iter().copied(), rule)
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
