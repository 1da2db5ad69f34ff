//! Which records support a proposal, as sent.

use serde::Serialize;
use utoipa::ToSchema;

use crate::{
    qualifications::range::{CAUTION, MissingFactOut, TestPieceOut, missing, piece},
    qualify::{BoxJudgement, Finding, Judgement, Pack, PositionJudgement, Ruling, Standing},
    rule_packs::{OpenClauseOut, PackReference},
    trade::Coded,
};

/// Most boxes shown beside the best one.
const MOST_OTHERS: usize = 10;

/// One variable held against one limit.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct SupportFindingOut {
    /// Id of the rule.
    pub rule: String,
    /// Clause.
    #[schema(example = "8.3.2.2, table 7")]
    pub clause: String,
    /// Variable.
    #[schema(example = "parent-thickness")]
    pub variable: &'static str,
    /// `essential`, `supplementary` or `nonessential`.
    #[schema(example = "essential")]
    pub class: &'static str,
    /// How well the cell behind the limit was confirmed.
    #[schema(example = "text-read")]
    pub confidence: &'static str,
    /// Process, where it is about one.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub process: Option<&'static str>,
    /// Run class, where it is about runs of one.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub run_class: Option<&'static str>,
    /// `inside`, `outside`, `not-judged` or `informative`.
    #[schema(example = "outside")]
    pub standing: &'static str,
    /// What is missing, where it is not judged.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub missing: Option<MissingFactOut>,
    /// What was proposed, in words.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(example = "30 mm")]
    pub given: Option<String>,
    /// What is allowed, in words.
    #[schema(example = "3 mm to 24 mm")]
    pub allowed: String,
    /// How the limit came about.
    pub working: String,
    /// What is to be added in words.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub note: Option<String>,
}

/// One box of qualified limits against the proposal.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct SupportBoxOut {
    /// Pieces it rests on; two where the code combines two tests.
    pub pieces: Vec<TestPieceOut>,
    /// `qualified`, `needs-a-revised-procedure`, `not-judged` or `needs-a-new-qualification`.
    #[schema(example = "qualified")]
    pub ruling: &'static str,
    /// Whether something essential is inside a limit that was only remembered: compare it with the printed
    /// code before relying on it.
    pub rests_on_memory: bool,
    /// What lies outside: what the record lacks.
    pub lacks: Vec<SupportFindingOut>,
    /// What could not be judged, and for want of which fact.
    pub not_judged: Vec<SupportFindingOut>,
}

/// One position against every record.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct SupportPositionOut {
    /// The position; left out where none was stated.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub position: Option<&'static str>,
    /// The ruling by the best box.
    pub ruling: &'static str,
    /// The boxes that hold all of it, as far as it can be judged.
    pub supported_by: Vec<SupportBoxOut>,
    /// Where none does: the box that comes nearest.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub nearest: Option<SupportBoxOut>,
    /// What of the best box was judged inside or said for information.
    pub inside: Vec<SupportFindingOut>,
    /// The boxes that come next, nearest first, at most ten.
    pub others: Vec<SupportBoxOut>,
}

/// A record that nobody has signed.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct UnsignedOut {
    /// Number of the record.
    pub record: String,
    /// The ruling that it would give if it were signed.
    pub ruling: &'static str,
}

/// Which records support a proposal.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct SupportAnswer {
    /// The ruling: that of the worst position. Without any record it is `needs-a-new-qualification`.
    #[schema(example = "needs-a-new-qualification")]
    pub ruling: &'static str,
    /// Rules it was judged by.
    pub pack: PackReference,
    /// Number of signed records that were judged.
    pub records: usize,
    /// There were more records of this code than are judged at once; name those to judge.
    pub more_records: bool,
    /// Each position by itself.
    pub positions: Vec<SupportPositionOut>,
    /// Records that nobody has signed; they support nothing.
    pub unsigned: Vec<UnsignedOut>,
    /// Records that these rules do not judge, and why.
    pub passed_over: Vec<PassedOverOut>,
    /// Clauses of the code that no rule covers.
    pub not_covered: Vec<OpenClauseOut>,
    /// What the reader must know before relying on it.
    pub caution: &'static str,
}

/// A record that was not judged.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct PassedOverOut {
    /// Number of the record.
    pub record: String,
    /// Why.
    pub reason: String,
}

impl SupportAnswer {
    pub(super) fn new(judgement: &Judgement, pack: &Pack) -> Self {
        Self {
            ruling: judgement.ruling.code(),
            pack: PackReference::of(pack),
            records: 0,
            more_records: false,
            positions: judgement.positions.iter().map(position).collect(),
            unsigned: Vec::new(),
            passed_over: Vec::new(),
            not_covered: pack.open.iter().map(OpenClauseOut::of).collect(),
            caution: CAUTION,
        }
    }
}

fn position(judged: &PositionJudgement) -> SupportPositionOut {
    let supports = |own: &&BoxJudgement| own.ruling == Ruling::Qualified;
    let supporting = judged.boxes.iter().filter(supports).count();
    let shown = |boxes: &[BoxJudgement]| boxes.iter().map(one_box).collect();
    let (supported_by, rest) = judged.boxes.split_at(supporting);
    let nearest = if supporting == 0 { rest.split_first() } else { None };
    let others = nearest.map_or(rest, |(_, others)| others);
    let best = judged.boxes.first();
    let inside = best
        .into_iter()
        .flat_map(|own| &own.findings)
        .filter(|finding| matches!(finding.standing, Standing::Inside | Standing::Informative));
    SupportPositionOut {
        position: judged.position.map(Coded::code),
        ruling: judged.ruling.code(),
        supported_by: shown(supported_by),
        nearest: nearest.map(|(nearest, _)| one_box(nearest)),
        inside: inside.map(finding).collect(),
        others: shown(&others[..others.len().min(MOST_OTHERS)]),
    }
}

fn one_box(own: &BoxJudgement) -> SupportBoxOut {
    SupportBoxOut {
        pieces: own.pieces.iter().map(piece).collect(),
        ruling: own.ruling.code(),
        rests_on_memory: own.rests_on_memory,
        lacks: own.breaches().map(finding).collect(),
        not_judged: own.not_judged().map(finding).collect(),
    }
}

/// One finding as sent.
pub(crate) fn finding(finding: &Finding) -> SupportFindingOut {
    let (standing, lacking) = match &finding.standing {
        Standing::Inside => ("inside", None),
        Standing::Outside => ("outside", None),
        Standing::NotJudged(fact) => ("not-judged", Some(missing(fact))),
        Standing::Informative => ("informative", None),
    };
    SupportFindingOut {
        rule: finding.rule.clone(),
        clause: finding.clause.clone(),
        variable: finding.variable.code(),
        class: finding.class.code(),
        confidence: finding.confidence.code(),
        process: finding.process.map(Coded::code),
        run_class: finding.run_class.map(Coded::code),
        standing,
        missing: lacking,
        given: finding.given.clone(),
        allowed: finding.allowed.clone(),
        working: finding.working.clone(),
        note: finding.note.clone(),
    }
}
