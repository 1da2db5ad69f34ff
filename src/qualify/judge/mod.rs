//! A proposal against the range of one or more qualifications.

mod alike;
mod coupled;
mod fit;
mod reach;
mod sized;
mod support;

pub use support::{BoxJudgement, PositionJudgement};

use super::{
    Limit, Proposal, QualifiedRange, QualifiedVariable, VariableClass, pack::OpenClause,
    range::Missing,
};
use crate::trade::{Confidence, Position, Process, RunClass, coded};

coded! {
    /// What a proposal needs, the mildest first.
    pub enum Ruling: "ruling" {
        /// One box holds all of it.
        Qualified = "qualified",
        /// Outside in what a procedure has to state only.
        NeedsRevisedProcedure = "needs-a-revised-procedure",
        /// Facts are missing; nothing known lies outside.
        NotJudged = "not-judged",
        /// Outside in an essential variable.
        NeedsNewQualification = "needs-a-new-qualification",
    }
}

impl Ruling {
    /// The ruling on a setup that was held to a procedure as well. `self` is the ruling by the range of the
    /// qualification: inside it and outside the procedure, the procedure is to be revised.
    #[must_use]
    pub fn of_setup(self, inside_procedure: bool) -> Self {
        if inside_procedure { self } else { self.max(Self::NeedsRevisedProcedure) }
    }
}

/// How one variable stands to one limit.
#[derive(Debug, Clone, PartialEq)]
pub enum Standing {
    /// Inside.
    Inside,
    /// Outside.
    Outside,
    /// Not judged: a fact is missing.
    NotJudged(Missing),
    /// Said for information: another limit decides, or the settings could leave a limit that is held.
    Informative,
}

/// One variable held against one limit.
#[derive(Debug, Clone, PartialEq)]
pub struct Finding {
    /// Id of the rule.
    pub rule: String,
    /// Clause.
    pub clause: String,
    /// Variable.
    pub variable: QualifiedVariable,
    /// How much it weighs.
    pub class: VariableClass,
    /// How well the cell behind the limit was confirmed.
    pub confidence: Confidence,
    /// Process, where it is about one.
    pub process: Option<Process>,
    /// Run class, where it is about runs of one.
    pub run_class: Option<RunClass>,
    /// How it stands.
    pub standing: Standing,
    /// What was proposed, in words; `None` where nothing was.
    pub given: Option<String>,
    /// What is allowed, in words.
    pub allowed: String,
    /// How the limit came about: "parent-thickness 12 mm: 3 mm to 24 mm".
    pub working: String,
    /// What is to be added in words.
    pub note: Option<String>,
}

impl Finding {
    fn of(limit: &Limit, standing: Standing, given: Option<String>) -> Self {
        Self {
            rule: limit.rule.clone(),
            clause: limit.clause.clone(),
            variable: limit.variable,
            class: limit.class,
            confidence: limit.confidence,
            process: limit.process,
            run_class: None,
            standing,
            given,
            allowed: limit.allowed.to_string(),
            working: limit.working.clone(),
            note: limit.note.clone(),
        }
    }
}

/// The ruling on a proposal, with all that leads to it.
#[derive(Debug, Clone, PartialEq)]
pub struct Judgement {
    /// The ruling: that of the worst position.
    pub ruling: Ruling,
    /// One judgement for each position, each with its best box; one without a position where none is given.
    pub positions: Vec<PositionJudgement>,
    /// Clauses that no rule of the pack covers: not judged here.
    pub open: Vec<OpenClause>,
}

/// Holds a proposal against ranges of records under one code. Each position has to lie in one box; limits
/// of two boxes are never put together.
///
/// Without any box nothing is qualified: the ruling is [`Ruling::NeedsNewQualification`].
#[must_use]
pub fn judge(proposal: &Proposal, ranges: &[QualifiedRange]) -> Judgement {
    let stated: Vec<Option<Position>> = if proposal.positions.is_empty() {
        vec![None]
    } else {
        proposal.positions.iter().copied().map(Some).collect()
    };
    let boxes = || ranges.iter().flat_map(|range| &range.boxes);
    let positions: Vec<_> = stated
        .into_iter()
        .map(|position| support::best_first(proposal, position, boxes()))
        .collect();
    let worst = positions.iter().map(|position| position.ruling).max();
    let mut open: Vec<OpenClause> = Vec::new();
    for clause in ranges.iter().flat_map(|range| &range.open) {
        if !open.contains(clause) {
            open.push(clause.clone());
        }
    }
    Judgement { ruling: worst.unwrap_or(Ruling::NeedsNewQualification), positions, open }
}
