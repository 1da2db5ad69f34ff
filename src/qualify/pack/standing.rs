//! What a pack says of itself: how much it covers and how well it was confirmed.

use std::collections::BTreeSet;

use super::{Pack, Rule, RuleKind};
use crate::trade::Confidence;

/// A clause that the pack leaves out.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct OpenClause {
    /// Clause or row.
    pub clause: String,
    /// What it is about, and why it is left out.
    pub what: String,
}

/// How much of its code a pack covers, and how well.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PackStanding {
    /// Number of rules.
    pub rules: usize,
    /// Number of cells: rows of tables, entries of maps, one for any other rule.
    pub cells: usize,
    /// Cells from memory, of those.
    pub cells_from_memory: usize,
    /// Clauses covered, sorted.
    pub clauses: Vec<String>,
    /// Clauses left out.
    pub open: Vec<OpenClause>,
}

impl Pack {
    /// What the pack covers, and how well.
    #[must_use]
    pub fn standing(&self) -> PackStanding {
        let cells: Vec<_> = self.rules.iter().flat_map(Rule::cells).collect();
        let clauses: BTreeSet<_> = self.rules.iter().map(|rule| rule.clause.clone()).collect();
        PackStanding {
            rules: self.rules.len(),
            cells: cells.len(),
            cells_from_memory: cells.iter().filter(|cell| **cell == Confidence::Memory).count(),
            clauses: clauses.into_iter().collect(),
            open: self.open.clone(),
        }
    }

    /// Ids of the rules, in the order of the pack.
    #[must_use]
    pub fn rule_ids(&self) -> Vec<&str> {
        self.rules.iter().map(|rule| rule.id.as_str()).collect()
    }
}

impl Rule {
    /// Confidence of each cell.
    fn cells(&self) -> Vec<Confidence> {
        match &self.kind {
            RuleKind::Table { rows, .. } => {
                let all = rows.metric.iter().chain(&rows.us).flatten();
                all.map(|row| row.confidence.unwrap_or(self.confidence)).collect()
            }
            RuleKind::Coverage(covers) => vec![self.confidence; covers.len()],
            RuleKind::MetalPairs(pairs) => {
                let doubtful = |pair| pairs.doubtful.contains_key(pair);
                let one = |pair| if doubtful(pair) { Confidence::Memory } else { self.confidence };
                pairs.covers.keys().map(one).collect()
            }
            _ => vec![self.confidence],
        }
    }
}
