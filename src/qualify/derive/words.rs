//! Rules about codes: classes, orders, coverage, positions.

use super::{
    allow::Found,
    apply,
    results::{self, Shown},
};
use crate::{
    qualify::{
        JobFacts, QualifiedVariable,
        facts::{Fact, piece_fact},
        pack::{Allow, PositionRule},
        range::{Allowed, Missing, Whose},
        record::{TestKind, TestPiece},
    },
    trade::{Coded, Position},
};

/// What each recorded word covers, together. One the pack does not know makes the whole unknown.
pub(super) fn each(fact: &Fact, covers: impl Fn(&str) -> Option<Vec<String>>) -> Found {
    let Fact::Words(words) = fact else { return Found::unknown(Whose::Record, "a code") };
    let mut all: Vec<String> = Vec::new();
    for word in words {
        let Some(covered) = covers(word) else {
            return Found::unknown(Whose::Pack, format!("what \"{word}\" covers"));
        };
        for new in covered {
            if !all.contains(&new) {
                all.push(new);
            }
        }
    }
    Found::plain(Allowed::Words(all), None)
}

/// The rank itself and those on the allowed side of it.
pub(super) fn ranked(order: &[String], allow: Allow, word: &str) -> Option<Vec<String>> {
    let at = order.iter().position(|rank| rank == word)?;
    Some(match allow {
        Allow::Lower => order[..=at].to_vec(),
        Allow::Higher => order[at..].to_vec(),
    })
}

/// Positions of one piece, or of two together: every main position where impact specimens came from a
/// position of high heat input and hardness specimens from one of low heat input; else the tested ones.
pub(super) fn positions(rule: &PositionRule, pieces: &[&TestPiece], job: &JobFacts) -> Found {
    let mut tested = Vec::new();
    for piece in pieces {
        let Some(Fact::Words(words)) = piece_fact(piece, QualifiedVariable::Position) else {
            return Found::unknown(Whose::Record, "the position of the piece");
        };
        tested.extend(words.iter().filter_map(|word| Position::from_code(word)));
    }
    let from = tested.iter().map(ToString::to_string).collect::<Vec<_>>().join(" and ");
    let words = |positions: Vec<Position>| {
        Allowed::Words(positions.iter().map(ToString::to_string).collect())
    };
    let own = |position: &Position| rule.own_test.contains(position);
    let others = || Position::ALL.iter().map(|(position, _)| *position).filter(|p| !own(p));
    // A position that needs a test of its own says nothing about the others.
    if tested.iter().all(own) {
        return Found::plain(words(tested), Some(from));
    }
    let shown = |kind: TestKind, places: &[Position]| {
        pieces.iter().any(|piece| {
            let at = piece.position.is_some_and(|p| places.contains(&p) || rule.both.contains(&p));
            at && results::shown(piece, kind, job) == Shown::Passed
        })
    };
    let missing_impact = (!shown(TestKind::Impact, &rule.high)).then_some(job.impact_required);
    let missing_hardness = (!shown(TestKind::Hardness, &rule.low)).then_some(job.hardness_required);
    // Whether specimens show enough may hang on what the job leaves open.
    let open = pieces.iter().find_map(|piece| match results::shown(piece, TestKind::Impact, job) {
        Shown::Open(missing) if missing.whose == Whose::Job => Some(missing),
        _ => None,
    });
    if let (Some(Some(true)), Some(missing)) = (missing_impact, open) {
        return Found { beyond: Some(missing), ..Found::plain(words(tested), Some(from)) };
    }
    let needed = [missing_impact, missing_hardness];
    if needed.contains(&Some(Some(true))) {
        return Found::plain(words(tested), Some(from));
    }
    if needed.contains(&Some(None)) {
        let beyond = match missing_impact {
            Some(None) => apply::impact(job),
            _ => apply::hardness(job),
        };
        let beyond = match beyond {
            super::Applies::If(missing) => missing.into_iter().next(),
            _ => Some(Missing::new(Whose::Job, "the tests required")),
        };
        return Found { beyond, ..Found::plain(words(tested), Some(from)) };
    }
    let own_tested = tested.iter().copied().filter(own);
    Found::plain(words(others().chain(own_tested).collect()), Some(from))
}
