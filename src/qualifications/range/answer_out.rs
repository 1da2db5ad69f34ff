//! A range of qualification as sent.

use serde::Serialize;
use utoipa::ToSchema;

use crate::{
    qualifications::{
        QualificationDocument,
        sign::{self, QualificationSignatureOut},
        store::SignatureRow,
    },
    qualify::{
        Allowed, Bound, Interval, Limit, Missing, Pack, PieceReference, QualifiedBox,
        QualifiedRange, RunBox,
    },
    quantity::{Rounding, UnitSystem},
    records::Stored,
    rule_packs::{OpenClauseOut, PackReference},
    trade::Coded,
    wire::AmountOut,
};

/// What a range is not.
pub(crate) const CAUTION: &str = "A range derived here supports, and does not replace, the printed code and the judgement of a qualified \
     person or examiner. Compare each limit from memory with the code before relying on it.";

/// A fact that nobody states.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct MissingFactOut {
    /// Who could have said it: `the record`, `the job`, `the proposal` or `the rule pack`.
    #[schema(example = "the job")]
    pub whose: &'static str,
    /// Which fact.
    #[schema(example = "whether impact tests are required")]
    pub fact: String,
}

/// A test piece.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct TestPieceOut {
    /// Number of the record.
    pub record: String,
    /// Mark of the piece.
    pub piece: String,
}

/// One end of an interval.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct QualifiedBoundOut {
    /// The end, in the units of the record.
    #[serde(flatten)]
    pub amount: AmountOut,
    /// Whether the end itself is allowed.
    pub included: bool,
}

/// Allowed numbers; an end that is left out is open.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct QualifiedIntervalOut {
    /// Lowest value.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub min: Option<QualifiedBoundOut>,
    /// Highest value.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub max: Option<QualifiedBoundOut>,
}

/// One limit.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct QualifiedLimitOut {
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
    /// How well the cell behind it was confirmed.
    #[schema(example = "text-read")]
    pub confidence: &'static str,
    /// Process it is for; the whole joint where left out.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub process: Option<&'static str>,
    /// What it is for, where it is not for every weld.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(example = "fillet; pipe")]
    pub only_for: Option<String>,
    /// What it allows, in words.
    #[schema(example = "3 mm to 24 mm")]
    pub allowed: String,
    /// The same as numbers, where it is about numbers: one interval, or one for each tested part.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub intervals: Vec<QualifiedIntervalOut>,
    /// The same as codes, where it is about codes.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub codes: Vec<String>,
    /// How it came about.
    #[schema(example = "coupon 12 mm: 3 mm to 24 mm")]
    pub working: String,
    /// What the rule adds in words.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub note: Option<String>,
    /// The limit cannot be told: this is missing.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub not_judged: Option<MissingFactOut>,
    /// Whether it applies at all depends on these, which nobody states. What is outside is then not judged.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub only_if: Vec<MissingFactOut>,
    /// Could be wider, if this were known. What is outside is then not judged.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub could_be_wider: Option<MissingFactOut>,
    /// Limits with the same word stand for each other: the first that can be judged decides.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub one_of: Option<String>,
}

/// Limits of one run, or of several that give the same.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct QualifiedRunBoxOut {
    /// Process.
    pub process: &'static str,
    /// Numbers of the runs.
    pub runs: Vec<u16>,
    /// Filler diameter the limits are for, where the code counts by it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub diameter: Option<AmountOut>,
    /// Run class the limits are for, where the code counts by it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub class: Option<&'static str>,
    /// Limits.
    pub limits: Vec<QualifiedLimitOut>,
}

/// One box: what is welded keeps all its limits at once.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct QualifiedBoxOut {
    /// Pieces it rests on; two where the code combines two tests.
    pub pieces: Vec<TestPieceOut>,
    /// Limits of joint and processes.
    pub limits: Vec<QualifiedLimitOut>,
    /// Groups of run limits; every run fits one box of each group.
    pub runs: Vec<Vec<QualifiedRunBoxOut>>,
}

/// What a record qualifies.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct QualifiedRangeAnswer {
    /// Number of the record.
    pub record: String,
    /// Revision judged.
    pub revision: i32,
    /// Its state. What is not `signed` supports nothing yet.
    #[schema(example = "signed")]
    pub state: String,
    /// Who signed it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub signature: Option<QualificationSignatureOut>,
    /// Rules it was judged by.
    pub pack: PackReference,
    /// Units of the record, which its limits are in.
    #[schema(example = "metric")]
    pub units: &'static str,
    /// The boxes: a union. Limits of two boxes are never put together.
    pub boxes: Vec<QualifiedBoxOut>,
    /// Every fact that is missing, once: what to state so that more can be judged.
    pub missing: Vec<MissingFactOut>,
    /// Limits that rest on a cell from memory, of all limits.
    pub limits_from_memory: usize,
    /// All limits.
    pub limits: usize,
    /// Clauses of the code that no rule covers.
    pub not_covered: Vec<OpenClauseOut>,
    /// What the reader must know before relying on it.
    pub caution: &'static str,
}

impl QualifiedRangeAnswer {
    pub(super) fn new(
        stored: &Stored,
        document: &QualificationDocument,
        signature: Option<SignatureRow>,
        pack: &Pack,
        range: &QualifiedRange,
    ) -> Self {
        let all = || range.boxes.iter().flat_map(QualifiedBox::all_limits);
        let from_memory = |limit: &&Limit| limit.confidence == crate::trade::Confidence::Memory;
        Self {
            record: stored.code.clone(),
            revision: stored.revision,
            state: stored.state.clone(),
            signature: signature.map(sign::out),
            pack: PackReference::of(pack),
            units: document.units.code(),
            boxes: range.boxes.iter().map(|own| qualified_box(own, document.units)).collect(),
            missing: every_missing(all()),
            limits_from_memory: all().filter(from_memory).count(),
            limits: all().count(),
            not_covered: range.open.iter().map(OpenClauseOut::of).collect(),
            caution: CAUTION,
        }
    }
}

fn every_missing<'a>(limits: impl Iterator<Item = &'a Limit>) -> Vec<MissingFactOut> {
    let mut found = Vec::new();
    for limit in limits {
        let own = match &limit.allowed {
            Allowed::Unknown(missing) => Some(missing),
            _ => None,
        };
        for one in own.into_iter().chain(&limit.only_if).chain(&limit.beyond) {
            let one = missing(one);
            if !found.contains(&one) {
                found.push(one);
            }
        }
    }
    found
}

fn qualified_box(own: &QualifiedBox, units: UnitSystem) -> QualifiedBoxOut {
    let group = |group: &Vec<RunBox>| group.iter().map(|run| run_box(run, units)).collect();
    QualifiedBoxOut {
        pieces: own.pieces.iter().map(piece).collect(),
        limits: own.limits.iter().map(limit).collect(),
        runs: own.runs.iter().map(group).collect(),
    }
}

fn run_box(run: &RunBox, units: UnitSystem) -> QualifiedRunBoxOut {
    let diameter = run.diameter.map(|diameter| AmountOut::new(diameter.amount(), Some(units)));
    QualifiedRunBoxOut {
        process: run.process.code(),
        runs: run.runs.clone(),
        diameter,
        class: run.class.map(Coded::code),
        limits: run.limits.iter().map(limit).collect(),
    }
}

fn limit(limit: &Limit) -> QualifiedLimitOut {
    let (intervals, codes, not_judged) = match &limit.allowed {
        Allowed::Interval(one) => (vec![interval(one)], Vec::new(), None),
        Allowed::EachPart(parts) => (parts.iter().map(interval).collect(), Vec::new(), None),
        Allowed::Words(words) => (Vec::new(), words.clone(), None),
        Allowed::Unknown(fact) => (Vec::new(), Vec::new(), Some(missing(fact))),
        _ => (Vec::new(), Vec::new(), None),
    };
    QualifiedLimitOut {
        rule: limit.rule.clone(),
        clause: limit.clause.clone(),
        variable: limit.variable.code(),
        class: limit.class.code(),
        confidence: limit.confidence.code(),
        process: limit.process.map(Coded::code),
        only_for: limit.only_for(),
        allowed: limit.allowed.to_string(),
        intervals,
        codes,
        working: limit.working.clone(),
        note: limit.note.clone(),
        not_judged,
        only_if: limit.only_if.iter().map(missing).collect(),
        could_be_wider: limit.beyond.as_ref().map(missing),
        one_of: limit.one_of.clone(),
    }
}

/// A permission, its ends rounded inward.
fn interval(own: &Interval) -> QualifiedIntervalOut {
    let end = |bound: Bound, rounding| QualifiedBoundOut {
        amount: AmountOut::rounded(bound.amount, Some(own.system), rounding),
        included: bound.included,
    };
    QualifiedIntervalOut {
        min: own.min.map(|min| end(min, Rounding::Up)),
        max: own.max.map(|max| end(max, Rounding::Down)),
    }
}

/// A missing fact as sent.
pub(in crate::qualifications) fn missing(missing: &Missing) -> MissingFactOut {
    MissingFactOut { whose: missing.whose.code(), fact: missing.fact.clone() }
}

/// A test piece as sent.
pub(in crate::qualifications) fn piece(piece: &PieceReference) -> TestPieceOut {
    TestPieceOut { record: piece.record.clone(), piece: piece.piece.clone() }
}
