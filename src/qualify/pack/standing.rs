//! What a pack says of itself: how much it covers and how well it was confirmed.

use std::collections::BTreeSet;

use super::{Pack, Per, QualifiedVariable, Rule, RuleKind, VariableClass};
use crate::trade::{Coded, Confidence, designation::Standard};

/// One rule as a list shows it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RuleSummary {
    /// Id.
    pub id: String,
    /// Clause.
    pub clause: String,
    /// Variable.
    pub variable: QualifiedVariable,
    /// How much a change outside weighs.
    pub class: VariableClass,
    /// What a limit is derived for.
    pub per: Per,
    /// The weakest confidence of its cells.
    pub confidence: Confidence,
    /// Number of its cells.
    pub cells: usize,
    /// What is said beside the limit.
    pub note: Option<String>,
    /// Kind of rule, as a pack writes it.
    pub kind: &'static str,
    /// What a person has to state, where the rule asks: answered in the job's facts under the rule's id.
    pub question: Option<String>,
}

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

    /// The rules, in the order of the pack.
    #[must_use]
    pub fn summaries(&self) -> Vec<RuleSummary> {
        self.rules.iter().map(Rule::summary).collect()
    }

    /// Standards of filler metals that its rules name.
    #[must_use]
    pub fn filler_standards(&self) -> Vec<Standard> {
        let of_standard =
            self.rules.iter().filter(|r| r.variable == QualifiedVariable::FillerStandard);
        let named = of_standard.flat_map(|rule| match &rule.kind {
            RuleKind::MemberOf(values) => values.as_slice(),
            _ => &[],
        });
        named.filter_map(|code| Standard::from_code(code)).collect()
    }

    /// The pack with every cell marked as remembered: what is written about the confidence of a rule counts when
    /// somebody else has compared the rule.
    #[must_use]
    pub fn unconfirmed(mut self) -> Self {
        self.rules.iter_mut().for_each(|rule| rule.mark(Confidence::Memory));
        self
    }

    /// The pack with these rules marked as checked against the printed standard, every cell of them. Who
    /// checked, when, and which copy is for the caller to keep.
    ///
    /// # Errors
    /// The first id that no rule has.
    pub fn checked_in_print(mut self, ids: &[&str]) -> Result<Self, String> {
        for id in ids {
            let rule = self.rules.iter_mut().find(|rule| rule.id == *id);
            rule.ok_or_else(|| (*id).to_owned())?.check_in_print();
        }
        Ok(self)
    }
}

impl Rule {
    fn summary(&self) -> RuleSummary {
        let cells = self.cells();
        RuleSummary {
            id: self.id.clone(),
            clause: self.clause.clone(),
            variable: self.variable,
            class: self.class,
            per: self.per,
            confidence: cells.iter().copied().max().unwrap_or(self.confidence),
            cells: cells.len(),
            note: self.note.clone(),
            kind: self.kind.name(),
            question: match &self.kind {
                RuleKind::Stated { question } => Some(question.clone()),
                _ => None,
            },
        }
    }

    fn check_in_print(&mut self) {
        self.mark(Confidence::PrintChecked);
        if let RuleKind::MetalPairs(pairs) = &mut self.kind {
            pairs.doubtful.clear();
        }
    }

    /// Marks every cell alike, but for cells that were hard to read.
    fn mark(&mut self, confidence: Confidence) {
        self.confidence = confidence;
        match &mut self.kind {
            RuleKind::Table { rows, .. } => {
                let all = rows.metric.iter_mut().chain(&mut rows.us).flatten();
                all.for_each(|row| row.confidence = None);
            }
            RuleKind::BySize { rows, .. } => {
                let all = rows.metric.iter_mut().chain(&mut rows.us).flatten();
                all.for_each(|row| row.confidence = None);
            }
            _ => {}
        }
    }

    /// Confidence of each cell.
    fn cells(&self) -> Vec<Confidence> {
        match &self.kind {
            RuleKind::Table { rows, .. } => {
                let all = rows.metric.iter().chain(&rows.us).flatten();
                all.map(|row| row.confidence.unwrap_or(self.confidence)).collect()
            }
            RuleKind::BySize { rows, .. } => {
                let all = rows.metric.iter().chain(&rows.us).flatten();
                all.map(|row| row.confidence.unwrap_or(self.confidence)).collect()
            }
            RuleKind::Coverage { covers, .. } => vec![self.confidence; covers.len()],
            RuleKind::MetalPairs(pairs) => {
                let doubtful = |pair| pairs.doubtful.contains_key(pair);
                let one = |pair| if doubtful(pair) { Confidence::Memory } else { self.confidence };
                pairs.covers.keys().map(one).collect()
            }
            _ => vec![self.confidence],
        }
    }
}

impl RuleKind {
    /// Name of the kind, as a pack writes it.
    const fn name(&self) -> &'static str {
        match self {
            Self::Percent { .. } => "percent",
            Self::Shift { .. } => "shift",
            Self::Table { .. } => "table",
            Self::Same => "same",
            Self::SameClass(_) => "same-class",
            Self::Ordered { .. } => "ordered",
            Self::MemberOf(_) => "member-of",
            Self::Coverage { .. } => "coverage",
            Self::MetalPairs(_) => "metal-pairs",
            Self::GasWindow { .. } => "gas-window",
            Self::Fixed(_) => "fixed",
            Self::BySize { .. } => "by-size",
            Self::Spread { .. } => "spread",
            Self::Positions(_) => "positions",
            Self::Tested { .. } => "tested",
            Self::Stated { .. } => "stated",
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::{BUILT_IN, packs};

    #[test]
    fn every_built_in_pack_shows_its_rules_and_its_text() {
        assert_eq!(packs().len(), BUILT_IN.len());
        for pack in packs() {
            let text = pack.text();
            for rule in pack.summaries() {
                assert!(text.contains(&format!("id = \"{}\"", rule.id)), "{}", rule.id);
                assert!(text.contains(rule.kind), "{} of {}", rule.kind, rule.id);
                let own = pack.rule_text(&rule.id).unwrap();
                let clause = format!("clause = \"{}\"", rule.clause);
                let whole = own.contains(&clause) && own.contains("limit");
                assert!(whole && own.matches("clause = ").count() == 1, "{own}");
            }
        }
    }
}
