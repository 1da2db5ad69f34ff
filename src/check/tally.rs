//! How many findings there are of each kind that the verdict tells apart.

use super::{DecisionRule, Finding, Force, Mark, Outcome, Verdict};
use crate::trade::Coded;

/// Counts by force, outcome and whether the accuracy is unknown.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Tally {
    counts: [u16; CELLS],
    /// Which of them are more than zero, one bit each.
    seen: u32,
}

const CELLS: usize = 2 * Force::ALL.len() * Outcome::ALL.len();
const _: () = assert!(CELLS <= u32::BITS as usize, "a bit for each");

impl Tally {
    /// Adds one.
    #[inline]
    pub fn add(&mut self, mark: Mark) {
        self.add_to(cell(mark.force, mark.outcome, mark.accuracy_unknown), 1);
    }

    #[inline]
    fn add_to(&mut self, cell: usize, more: u16) {
        self.counts[cell] = self.counts[cell].saturating_add(more);
        self.seen |= u32::from(more > 0) << cell;
    }

    /// Adds so many values of known accuracy, each inside its limit of this force.
    #[inline]
    pub(super) fn add_inside(&mut self, force: Force, more: u16) {
        self.add_to(cell(force, Outcome::Inside, false), more);
    }

    /// How many of one force have one outcome.
    #[must_use]
    pub fn count(&self, force: Force, outcome: Outcome) -> usize {
        let of = |unknown| usize::from(self.counts[cell(force, outcome, unknown)]);
        of(false) + of(true)
    }

    /// The verdict over all of them. Without a single required limit that the setup is shown to meet nothing is
    /// ever allowed.
    #[must_use]
    pub fn verdict(&self, rule: DecisionRule) -> Verdict {
        let mut worst = Verdict::Allowed;
        let mut seen = self.seen;
        while seen != 0 {
            let (force, outcome, unknown) = kind(seen.trailing_zeros() as usize);
            worst = worst.max(Verdict::of_kind(force, outcome, unknown, rule));
            seen &= seen - 1;
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

/// The kind that a cell counts.
const fn kind(cell: usize) -> (Force, Outcome, bool) {
    let of_force = cell / 2;
    let (force, outcome) = (of_force / Outcome::ALL.len(), of_force % Outcome::ALL.len());
    (Force::ALL[force].0, Outcome::ALL[outcome].0, cell % 2 == 1)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_kind_has_a_cell_of_its_own() {
        let mut cells = Vec::new();
        for (force, _) in Force::ALL {
            for (outcome, _) in Outcome::ALL {
                for unknown in [false, true] {
                    let cell = cell(*force, *outcome, unknown);
                    assert_eq!(kind(cell), (*force, *outcome, unknown));
                    cells.push(cell);
                }
            }
        }
        assert_eq!(cells, (0..CELLS).collect::<Vec<_>>());
    }
}
