//! How many findings there are of each kind that the verdict tells apart.

use super::{DecisionRule, Finding, Force, Mark, Outcome, Verdict};
use crate::trade::Coded;

/// Counts by force, outcome and whether the accuracy is unknown.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Tally([u16; 2 * Force::ALL.len() * Outcome::ALL.len()]);

/// How many limits are met, by force.
#[derive(Debug, Clone, Copy, Default)]
pub struct Met([u16; Force::ALL.len()]);

impl Met {
    /// One more, of this force.
    #[must_use]
    pub const fn and(mut self, force: Force) -> Self {
        self.0[force as usize] += 1;
        self
    }
}

impl Tally {
    /// Adds one.
    pub fn add(&mut self, mark: Mark) {
        let count = &mut self.0[cell(mark.force, mark.outcome, mark.accuracy_unknown)];
        *count = count.saturating_add(1);
    }

    /// Adds values of known accuracy, each inside its limit.
    pub(super) fn add_met(&mut self, met: Met) {
        for (force, _) in Force::ALL {
            let count = &mut self.0[cell(*force, Outcome::Inside, false)];
            *count = count.saturating_add(met.0[*force as usize]);
        }
    }

    /// How many of one force have one outcome.
    #[must_use]
    pub fn count(&self, force: Force, outcome: Outcome) -> usize {
        [false, true].map(|unknown| usize::from(self.0[cell(force, outcome, unknown)])).iter().sum()
    }

    /// The verdict over all of them. Without a single required limit that the setup is shown to meet nothing is
    /// ever allowed.
    #[must_use]
    pub fn verdict(&self, rule: DecisionRule) -> Verdict {
        let mut worst = Verdict::Allowed;
        for (force, _) in Force::ALL {
            for (outcome, _) in Outcome::ALL {
                for unknown in [false, true] {
                    if self.0[cell(*force, *outcome, unknown)] > 0 {
                        worst = worst.max(Verdict::of_kind(*force, *outcome, unknown, rule));
                    }
                }
            }
        }
        // The floor must not ask for more than the decision rule does: else a value near the edge would fare
        // worse than one of unknown accuracy.
        let met = |outcome| self.count(Force::Required, outcome) > 0;
        if met(Outcome::Inside) || met(Outcome::EdgeInside) {
            worst
        } else {
            worst.max(Verdict::Undetermined)
        }
    }
}

impl Verdict {
    /// The verdict over all findings of one answer; see [`Tally::verdict`].
    #[must_use]
    pub fn of(findings: &[Finding], rule: DecisionRule) -> Self {
        let mut tally = Tally::default();
        for finding in findings {
            tally.add(finding.mark());
        }
        tally.verdict(rule)
    }
}

const fn cell(force: Force, outcome: Outcome, accuracy_unknown: bool) -> usize {
    (force as usize * Outcome::ALL.len() + outcome as usize) * 2 + accuracy_unknown as usize
}
