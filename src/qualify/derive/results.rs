//! What the tests of a piece show: by place and, for impact tests, at the temperature that the job asks for.

use super::Applies;
use crate::{
    qualify::{
        JobFacts,
        range::{Missing, Whose},
        record::{Outcome, Test, TestKind, TestPiece},
    },
    quantity::Temperature,
};

/// What the tests of one kind show.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(in crate::qualify) enum Shown {
    /// Each place that was tested passed.
    Passed,
    /// One failed, and was not repeated there.
    Failed,
    /// Not enough is known.
    Open(Missing),
}

impl Shown {
    /// Whether the tests passed; not shown is not passed, unless that hangs on what the job leaves open.
    pub fn passed(&self) -> Applies {
        match self {
            Self::Passed => Applies::Yes,
            Self::Open(missing) if missing.whose == Whose::Job => {
                Applies::If(vec![missing.clone()])
            }
            Self::Failed | Self::Open(_) => Applies::No,
        }
    }
}

/// What the tests of this kind show for the job. A specimen of one place says nothing about another, and a failed one
/// counts until it was repeated.
pub(in crate::qualify) fn shown(piece: &TestPiece, kind: TestKind, job: &JobFacts) -> Shown {
    let counted = counted(piece, kind);
    if counted.is_empty() {
        return Shown::Open(record(format!("a passed test of {kind}")));
    }
    if kind != TestKind::Impact {
        return all_passed(&counted, kind);
    }
    match (job.impact_temperature, all_passed(&counted, kind)) {
        (Some(asked), _) => at_temperature(&counted, asked),
        // Where it does not say whether it asks for impact tests, it says no temperature either.
        (None, Shown::Passed) if job.impact_required != Some(false) => {
            Shown::Open(temperature_of_job())
        }
        (None, shown) => shown,
    }
}

/// That a job which may ask for impact tests does not say at which temperature.
pub(super) fn temperature_of_job() -> Missing {
    Missing::new(Whose::Job, "the temperature of the impact tests")
}

/// What the tests of one kind show by themselves: each passed. What failed colder than the job asks does not
/// count against it, nor does any impact test against a job that asks for none.
pub(super) fn none_failed(piece: &TestPiece, kind: TestKind, job: &JobFacts) -> Shown {
    let mut counted = counted(piece, kind);
    if kind == TestKind::Impact {
        let asks_none = job.impact_required == Some(false);
        let is_colder = |test: &Test| {
            let ends = test.temperature.zip(job.impact_temperature);
            ends.is_some_and(|(at, asked)| !at.at_least(asked))
        };
        counted.retain(|test| !asks_none && !is_colder(test));
    }
    all_passed(&counted, kind)
}

fn all_passed(counted: &[&Test], kind: TestKind) -> Shown {
    let any = |outcome| counted.iter().any(|test| test.outcome == outcome);
    if any(Outcome::Failed) {
        Shown::Failed
    } else if any(Outcome::NotJudged) {
        Shown::Open(record(format!("a passed test of {kind}")))
    } else {
        Shown::Passed
    }
}

/// A test at the job's temperature or colder counts for it, and one that failed there or warmer speaks
/// against it: metal gets no tougher when it gets colder.
fn at_temperature(counted: &[&Test], asked: Temperature) -> Shown {
    let against = |test: &Test| {
        test.outcome == Outcome::Failed && test.temperature.is_none_or(|at| at.at_least(asked))
    };
    if counted.iter().any(|test| against(test)) {
        return Shown::Failed;
    }
    let counts = |test: &Test| {
        test.outcome == Outcome::Passed && test.temperature.is_some_and(|at| asked.at_least(at))
    };
    let is_shown = |place| counted.iter().any(|test| test.place == place && counts(test));
    let mut open = counted.iter().map(|test| test.place).filter(|place| !is_shown(*place));
    open.next().map_or(Shown::Passed, |place| {
        let of = place.map(|place| format!(" of {place}")).unwrap_or_default();
        Shown::Open(record(format!("a passed impact test{of} at {asked} or colder")))
    })
}

/// The results that count: one that repeats a failed test takes the place of it, at the same place and temperature.
fn counted(piece: &TestPiece, kind: TestKind) -> Vec<&Test> {
    let mut counted: Vec<&Test> = Vec::new();
    for test in piece.tests.iter().filter(|test| test.kind == kind) {
        let repeats = |old: &&mut &Test| {
            test.retest
                && old.outcome == Outcome::Failed
                && (old.place, old.temperature) == (test.place, test.temperature)
        };
        match counted.iter_mut().rev().find(repeats) {
            Some(old) => *old = test,
            None => counted.push(test),
        }
    }
    counted
}

fn record(fact: String) -> Missing {
    Missing::new(Whose::Record, fact)
}
