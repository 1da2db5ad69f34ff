//! The range of a qualification: boxes of limits, each with its clause and its working.

use std::fmt;

use super::{
    QualifiedVariable, VariableClass,
    facts::Side,
    pack::{MetalPairs, OpenClause, Per, SizeOf, When},
};
use crate::{
    quantity::{Amount, Diameter, Rounding, UnitSystem},
    trade::{CodeEdition, Coded, Confidence, GasComponent, Process, RunClass, coded},
};
use rust_decimal::Decimal;

use super::record::TestLevel;

coded! {
    /// Who could have said what is missing.
    pub enum Whose: "source of a fact" {
        /// The qualification record.
        Record = "the record",
        /// The job.
        Job = "the job",
        /// The setup or procedure.
        Proposal = "the proposal",
        /// The rule pack.
        Pack = "the rule pack",
    }
}

/// A fact that nobody states, and whose it is.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Missing {
    /// Whose fact it is.
    pub whose: Whose,
    /// Which fact.
    pub fact: String,
}

impl Missing {
    pub(super) fn new(whose: Whose, fact: impl Into<String>) -> Self {
        Self { whose, fact: fact.into() }
    }
}

impl fmt::Display for Missing {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} does not say: {}", self.whose, self.fact)
    }
}

/// One end of an interval.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bound {
    /// The end.
    pub amount: Amount,
    /// Whether the end itself belongs to the interval.
    pub included: bool,
}

/// Allowed numbers.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Interval {
    /// Lower end; `None` where there is none.
    pub min: Option<Bound>,
    /// Upper end; `None` where there is none.
    pub max: Option<Bound>,
    /// Units it is printed in: those of the record.
    pub system: UnitSystem,
    /// Whether the thicker of two unequal parts may be of any thickness.
    pub thicker_part_free: bool,
}

impl fmt::Display for Interval {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        // A permission is rounded inward: what it prints is allowed.
        let end = |bound: Bound, rounding| {
            let (number, unit) = bound.amount.written_rounded(Some(self.system), rounding);
            format!("{number} {}", unit.symbol)
        };
        let (up, down) = (Rounding::Up, Rounding::Down);
        match (self.min, self.max) {
            (Some(min), Some(max)) => {
                let (above, below) = (open("above ", min), open("below ", max));
                write!(f, "{above}{} to {below}{}", end(min, up), end(max, down))?;
            }
            (Some(min), None) => {
                let word = if min.included { "at least" } else { "above" };
                write!(f, "{word} {}", end(min, up))?;
            }
            (None, Some(max)) => {
                let word = if max.included { "at most" } else { "below" };
                write!(f, "{word} {}", end(max, down))?;
            }
            (None, None) => f.write_str("no restriction")?,
        }
        if self.thicker_part_free {
            f.write_str(", the thicker part of any thickness")?;
        }
        Ok(())
    }
}

fn open(word: &'static str, bound: Bound) -> &'static str {
    if bound.included { "" } else { word }
}

/// Allowed shares of a gas, in vol %.
#[derive(Debug, Clone, PartialEq)]
pub struct GasWindow {
    /// Lowest and highest share of each component. One without an entry is free: it makes up the rest.
    pub shares: Vec<(GasComponent, Decimal, Decimal)>,
    /// Whether the record was welded without gas, so that none is allowed.
    pub none: bool,
}

impl fmt::Display for GasWindow {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if self.none {
            return f.write_str("no shielding gas");
        }
        let one = |(component, low, high): &(GasComponent, Decimal, Decimal)| {
            format!("{component} {} to {} %", low.normalize(), high.normalize())
        };
        f.write_str(&self.shares.iter().map(one).collect::<Vec<_>>().join(", "))
    }
}

/// Pairs of base metals that a tested pair covers.
#[derive(Debug, Clone, PartialEq)]
pub struct MetalCover {
    pub(super) tested: Vec<Side>,
    pub(super) pairs: Vec<(u8, u8)>,
    pub(super) doubtful: Vec<(u8, u8)>,
    pub(super) notes: MetalPairs,
}

impl fmt::Display for MetalCover {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let pairs: Vec<_> = self.pairs.iter().map(|(a, b)| format!("{a}-{b}")).collect();
        write!(f, "groups {}", pairs.join(", "))?;
        for side in &self.tested {
            if let Some(group) = side.group {
                let by_yield = self.notes.equal_or_lower_yield.contains(&group.group());
                let strength = side.specified_yield.filter(|_| by_yield);
                let strength = strength.map(|s| format!(" of at most {s}"));
                write!(f, "; beside {group}{}", strength.unwrap_or_default())?;
            }
        }
        Ok(())
    }
}

/// Numbers for one band of a size.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SizedLimit {
    /// The band.
    pub band: Interval,
    /// What it allows.
    pub allowed: Interval,
    /// How well the row was confirmed.
    pub confidence: Confidence,
}

/// Numbers by a size of the proposed joint: bands in rising order, without gaps.
#[derive(Debug, Clone, PartialEq)]
pub struct SizedLimits {
    /// The size.
    pub by: SizeOf,
    /// One limit for each band.
    pub rows: Vec<SizedLimit>,
}

impl fmt::Display for SizedLimits {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let row = |row: &SizedLimit| format!("{} for {} of {}", row.allowed, self.by, row.band);
        f.write_str(&self.rows.iter().map(row).collect::<Vec<_>>().join("; "))
    }
}

/// How wide a range may be: within these shares of one value that lies in it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Spread {
    /// Percent below the value.
    pub minus: f64,
    /// Percent above the value.
    pub plus: f64,
}

impl fmt::Display for Spread {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "a range within -{} % and +{} % of one value", self.minus, self.plus)
    }
}

/// What a limit allows.
#[derive(Debug, Clone, PartialEq)]
pub enum Allowed {
    /// Numbers.
    Interval(Interval),
    /// No preheat, or no warmth between runs, is demanded: the decrease that the code allows ends below freezing, at the
    /// lower end of this interval. What is stated and colder than that lies outside.
    NoPreheat(Interval),
    /// Numbers for each part of the joint, one interval per tested part.
    EachPart(Vec<Interval>),
    /// These codes.
    Words(Vec<String>),
    /// Numbers by a size of the proposed joint.
    BySize(SizedLimits),
    /// A range within shares of one value.
    Spread(Spread),
    /// Shares of a gas.
    Gas(GasWindow),
    /// Pairs of base metals.
    Metals(Box<MetalCover>),
    /// The record shows what the rule asks for.
    Met,
    /// The record does not show what the rule asks for.
    NotMet(String),
    /// Nothing can be said: a fact is missing.
    Unknown(Missing),
}

impl fmt::Display for Allowed {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Interval(interval) => interval.fmt(f),
            Self::NoPreheat(_) => f.write_str(
                "no preheat demanded: the decrease that the code allows ends below freezing",
            ),
            Self::EachPart(parts) => {
                let parts: Vec<_> = parts.iter().map(ToString::to_string).collect();
                f.write_str(&parts.join(" beside "))
            }
            Self::Words(words) => f.write_str(&words.join(", ")),
            Self::BySize(sized) => sized.fmt(f),
            Self::Spread(spread) => spread.fmt(f),
            Self::Gas(window) => window.fmt(f),
            Self::Metals(cover) => cover.fmt(f),
            Self::Met => f.write_str("met"),
            Self::NotMet(why) => write!(f, "not met: {why}"),
            Self::Unknown(missing) => write!(f, "not judged: {missing}"),
        }
    }
}

/// One limit of a range, with what it rests on.
#[derive(Debug, Clone, PartialEq)]
pub struct Limit {
    /// Id of the rule.
    pub rule: String,
    /// Clause.
    pub clause: String,
    /// Variable.
    pub variable: QualifiedVariable,
    /// How much a change outside weighs.
    pub class: VariableClass,
    /// How well the cell behind it was confirmed.
    pub confidence: Confidence,
    /// Process it is for; `None` for the whole joint.
    pub process: Option<Process>,
    /// What it allows.
    pub allowed: Allowed,
    /// The working: "parent-thickness 12 mm: 3 mm to 24 mm".
    pub working: String,
    /// What the rule adds in words.
    pub note: Option<String>,
    /// Facts that decide whether the limit applies at all, and that nobody states. A value inside the limit
    /// is inside in any case; one outside is not judged.
    pub only_if: Vec<Missing>,
    /// Fact that could widen the limit; a value outside is then not judged.
    pub beyond: Option<Missing>,
    /// Limits of one group stand for each other.
    pub one_of: Option<String>,
    pub(super) when: When,
    pub(super) per: Per,
}

/// Limits of one run, or of several runs that give the same.
#[derive(Debug, Clone, PartialEq)]
pub struct RunBox {
    /// Process.
    pub process: Process,
    /// Numbers of the runs.
    pub runs: Vec<u16>,
    /// Filler diameter the limits are for, where the code counts by it.
    pub diameter: Option<Diameter>,
    /// Run class the limits are for, where the code counts by it.
    pub class: Option<RunClass>,
    /// Limits.
    pub limits: Vec<Limit>,
}

/// A test piece of a record.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PieceReference {
    /// Number of the record.
    pub record: String,
    /// Mark of the piece.
    pub piece: String,
}

/// One box: what is welded must keep all of its limits at once. Limits of two boxes never make a third,
/// unless the code itself combines their tests.
#[derive(Debug, Clone, PartialEq)]
pub struct QualifiedBox {
    /// Pieces it rests on; two where the code combines tests.
    pub pieces: Vec<PieceReference>,
    /// Limits of joint and processes.
    pub limits: Vec<Limit>,
    /// Groups of run limits; every run has to fit one box of each group.
    pub runs: Vec<Vec<RunBox>>,
    /// Processes that the code takes as one.
    pub(super) alike: Vec<Vec<Process>>,
}

/// What records qualify under one code.
#[derive(Debug, Clone, PartialEq)]
pub struct QualifiedRange {
    /// Key of the rule pack.
    pub pack: String,
    /// Code and edition.
    pub code: CodeEdition,
    /// Level.
    pub level: Option<TestLevel>,
    /// The boxes: a union.
    pub boxes: Vec<QualifiedBox>,
    /// Clauses that the pack leaves out.
    pub open: Vec<OpenClause>,
}

impl Limit {
    /// What the limit is for, where it is not for every weld: "butt, tee-butt; pipe; in PC; multi-run".
    #[must_use]
    pub fn only_for(&self) -> Option<String> {
        let when = &self.when;
        let mut all = Vec::new();
        let mut add = |words: String, before: &str| {
            if !words.is_empty() {
                all.push(format!("{before}{words}"));
            }
        };
        add(listed(&when.for_welds), "");
        add(listed(&when.for_products), "");
        add(listed(&when.for_positions), "in ");
        add(listed(&when.not_for_positions), "not in ");
        add(listed(when.for_layering.as_slice()), "");
        (!all.is_empty()).then(|| all.join("; "))
    }
}

impl QualifiedBox {
    /// Every limit of the box.
    pub fn all_limits(&self) -> impl Iterator<Item = &Limit> {
        let runs = self.runs.iter().flatten().flat_map(|run| &run.limits);
        self.limits.iter().chain(runs)
    }

    /// The first limit of a rule.
    #[must_use]
    pub fn limit(&self, rule: &str) -> Option<&Limit> {
        self.all_limits().find(|limit| limit.rule == rule)
    }
}

/// Codes joined for a sentence.
pub(super) fn listed<T: Coded>(values: &[T]) -> String {
    values.iter().map(|value| value.code()).collect::<Vec<_>>().join(", ")
}
