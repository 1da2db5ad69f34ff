//! What a rule allows by the facts of a piece.

use std::collections::BTreeSet;

use super::{
    Scene, gas, metals, numbers,
    results::{self, Shown},
    words,
};
use crate::{
    qualify::{
        QualifiedVariable,
        facts::Fact,
        pack::{Rule, RuleKind},
        range::{Allowed, Missing, Spread, Whose, listed},
        record::TestKind,
    },
    quantity::UnitSystem,
    trade::Confidence,
};

/// What a rule allows, and from which recorded value.
pub(super) struct Found {
    pub allowed: Allowed,
    /// The recorded value, in words.
    pub from: Option<String>,
    /// Confidence of the cell, where it is its own.
    pub confidence: Option<Confidence>,
    pub beyond: Option<Missing>,
}

impl Found {
    pub fn plain(allowed: Allowed, from: Option<String>) -> Self {
        Self { allowed, from, confidence: None, beyond: None }
    }

    pub fn unknown(whose: Whose, fact: impl Into<String>) -> Self {
        Self::plain(Allowed::Unknown(Missing::new(whose, fact)), None)
    }
}

/// Applies a rule to a scene.
pub(super) fn allow(rule: &Rule, scene: Scene<'_>) -> Found {
    let variable = rule.variable;
    match &rule.kind {
        RuleKind::Percent { minus, plus, of } => {
            with(scene, variable, |fact| numbers::percent(*minus, *plus, *of, fact, scene))
        }
        RuleKind::Shift { of, steps } => {
            let found = with(scene, variable, |fact| numbers::shift(*of, steps, fact, scene));
            numbers::no_preheat_below_freezing(variable, found)
        }
        RuleKind::Table { .. } => numbers::table(rule, scene),
        RuleKind::Fixed(ends) => numbers::fixed(variable, ends, scene),
        RuleKind::BySize { by, rows } => numbers::by_size(rule, *by, rows, scene),
        RuleKind::Spread { minus, plus } => {
            Found::plain(Allowed::Spread(Spread { minus: *minus, plus: *plus }), None)
        }
        RuleKind::Same => {
            with(scene, variable, |fact| words::each(fact, |word| Some(vec![word.to_owned()])))
        }
        RuleKind::SameClass(classes) => with(scene, variable, |fact| {
            words::each(fact, |word| {
                let class = classes.iter().find(|class| class.iter().any(|known| known == word));
                Some(class.cloned().unwrap_or_else(|| vec![word.to_owned()]))
            })
        }),
        RuleKind::Ordered { order, allow } => with(scene, variable, |fact| {
            words::each(fact, |word| words::ranked(order, *allow, word))
        }),
        RuleKind::MemberOf(values) => Found::plain(Allowed::Words(values.clone()), None),
        RuleKind::Coverage { covers, others_same } => with(scene, variable, |fact| {
            let own = |word: &str| others_same.then(|| vec![word.to_owned()]);
            words::each(fact, |word| covers.get(word).cloned().or_else(|| own(word)))
        }),
        RuleKind::MetalPairs(pairs) => with(scene, variable, |fact| metals::cover(pairs, fact)),
        RuleKind::GasWindow { relative, free } => {
            with(scene, variable, |fact| gas::window(relative, *free, fact))
        }
        RuleKind::Positions(rule) => words::positions(rule, &[scene.piece], scene.job),
        RuleKind::Tested { all_of, any_of } => tested(all_of, any_of, scene),
        RuleKind::Stated { question } => match scene.job.stated.get(&rule.id) {
            Some(true) => Found::plain(Allowed::Met, None),
            Some(false) => Found::plain(Allowed::NotMet(format!("{question}: no")), None),
            None => Found::unknown(Whose::Job, question.clone()),
        },
    }
}

fn with(scene: Scene<'_>, variable: QualifiedVariable, rule: impl FnOnce(&Fact) -> Found) -> Found {
    let Some(fact) = scene.fact(variable) else {
        let of = scene.process.map(|process| format!(" of {process}")).unwrap_or_default();
        return Found::unknown(Whose::Record, format!("{variable}{of}"));
    };
    let from = in_words(&fact, scene.system);
    let found = rule(&fact);
    Found { from: found.from.or(Some(from)), ..found }
}

/// A recorded fact in words.
fn in_words(fact: &Fact, system: UnitSystem) -> String {
    match fact {
        Fact::Readings { low, mean, high } => {
            let (low, mean, high) = (low.told(system), mean.told(system), high.told(system));
            if low == high { mean } else { format!("{low} to {high}") }
        }
        Fact::Range(range) => range.to_string(),
        Fact::Words(words) => words.join(", "),
        Fact::Gas(gas) => match gas {
            crate::trade::Gas::Mixture(mixture) => mixture.designation(),
            crate::trade::Gas::Group(group) => group.to_string(),
            crate::trade::Gas::None => "none".to_owned(),
        },
        Fact::Metals(sides) => {
            let group = |side: &crate::qualify::facts::Side| {
                side.group.map_or_else(|| "unknown".to_owned(), |group| group.to_string())
            };
            sides.iter().map(group).collect::<Vec<_>>().join(" and ")
        }
    }
}

/// The tests of a record: all of one list, one at least of the other.
fn tested(all: &[TestKind], any: &[TestKind], scene: Scene<'_>) -> Found {
    if all.is_empty() && any.is_empty() {
        return whole_record(scene);
    }
    let results = |kinds: &[TestKind]| {
        kinds.iter().map(|kind| (*kind, results::shown(scene.piece, *kind, scene.job))).collect()
    };
    let every: Vec<_> = results(all);
    if let Some(found) = not_every(&every) {
        return found;
    }
    let any: Vec<_> = results(any);
    if any.is_empty() || any.iter().any(|(_, result)| *result == Shown::Passed) {
        return Found::plain(Allowed::Met, None);
    }
    let kinds: Vec<_> = any.iter().map(|(kind, _)| *kind).collect();
    if any.iter().all(|(_, result)| *result == Shown::Failed) {
        return Found::plain(Allowed::NotMet(format!("failed: {}", listed(&kinds))), None);
    }
    Found::unknown(Whose::Record, format!("a passed test of one of {}", listed(&kinds)))
}

/// What stands against the claim that each kind passed.
fn not_every(results: &[(TestKind, Shown)]) -> Option<Found> {
    let failed = results.iter().filter(|(_, result)| *result == Shown::Failed);
    let failed: Vec<_> = failed.map(|(kind, _)| *kind).collect();
    if !failed.is_empty() {
        let words = format!("failed: {}", listed(&failed));
        return Some(Found::plain(Allowed::NotMet(words), None));
    }
    let open = results.iter().filter_map(|(_, result)| match result {
        Shown::Open(missing) => Some(missing),
        Shown::Passed | Shown::Failed => None,
    });
    let whose = open.clone().next()?.whose;
    let facts: Vec<_> = open.filter(|m| m.whose == whose).map(|m| m.fact.as_str()).collect();
    Some(Found::unknown(whose, facts.join("; ")))
}

/// Every test of the record passed, a failed one by its repetition.
fn whole_record(scene: Scene<'_>) -> Found {
    let kinds: BTreeSet<_> = scene.piece.tests.iter().map(|test| test.kind).collect();
    if kinds.is_empty() {
        return Found::unknown(Whose::Record, "any test of the piece");
    }
    let result = |kind: TestKind| (kind, results::none_failed(scene.piece, kind, scene.job));
    let results: Vec<_> = kinds.into_iter().map(result).collect();
    not_every(&results).unwrap_or_else(|| Found::plain(Allowed::Met, None))
}
