//! The rules of a pack as a reader sees them, and the text they come from.

use super::{BUILT_IN, Pack, Per, Rule, RuleKind, VariableClass};
use crate::{qualify::QualifiedVariable, trade::Confidence};

/// One rule in outline.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RuleOutline<'a> {
    /// Id of the rule.
    pub id: &'a str,
    /// Clause.
    pub clause: &'a str,
    /// Variable.
    pub variable: QualifiedVariable,
    /// How much a change outside weighs.
    pub class: VariableClass,
    /// How well it was confirmed.
    pub confidence: Confidence,
    /// What it is derived for.
    pub per: Per,
    /// Kind of rule, as the pack writes it.
    pub kind: &'static str,
    /// What a person has to state, where the rule asks for a statement.
    pub question: Option<&'a str>,
    /// What the rule adds in words.
    pub note: Option<&'a str>,
}

impl Pack {
    /// The rules in outline, in the order of the pack.
    #[must_use]
    pub fn outline(&self) -> Vec<RuleOutline<'_>> {
        self.rules.iter().map(Rule::outline).collect()
    }

    /// The text of a built-in pack; `None` for any other.
    #[must_use]
    pub fn text(&self) -> Option<&'static str> {
        BUILT_IN.iter().copied().find(|text| Self::load(text).is_ok_and(|own| own.key == self.key))
    }
}

impl Rule {
    fn outline(&self) -> RuleOutline<'_> {
        RuleOutline {
            id: &self.id,
            clause: &self.clause,
            variable: self.variable,
            class: self.class,
            confidence: self.confidence,
            per: self.per,
            kind: self.kind.name(),
            question: match &self.kind {
                RuleKind::Stated { question } => Some(question),
                _ => None,
            },
            note: self.note.as_deref(),
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
            Self::Coverage(_) => "coverage",
            Self::MetalPairs(_) => "metal-pairs",
            Self::GasWindow { .. } => "gas-window",
            Self::Fixed(_) => "fixed",
            Self::Positions(_) => "positions",
            Self::Tested { .. } => "tested",
            Self::Stated { .. } => "stated",
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::packs;

    #[test]
    fn every_built_in_pack_shows_its_rules_and_its_text() {
        assert_eq!(packs().len(), super::BUILT_IN.len());
        for pack in packs() {
            let ids: Vec<_> = pack.outline().iter().map(|rule| rule.id).collect();
            assert_eq!(ids, pack.rule_ids(), "{}", pack.key);
            let text = pack.text().unwrap();
            for rule in pack.outline() {
                assert!(text.contains(&format!("id = \"{}\"", rule.id)), "{}", rule.id);
                assert!(text.contains(rule.kind), "{} of {}", rule.kind, rule.id);
            }
        }
    }
}
