//! A rule pack: the rules of one code, edition and level, as data.
//!
//! Packs are TOML (`src/qualify/packs/*.toml`; the format is described in `packs/FORMAT.md` beside them) and
//! validated when they are loaded. A rule is one row of the code: which variable, from which recorded value,
//! by which kind of rule, when, how essential, which clause, how well confirmed.

pub(super) mod at;
mod ends;
pub(super) mod file;
mod fixed_limits;
mod read;
mod standing;
mod text;

pub(super) use ends::End;
pub use ends::Symbol;
pub use standing::{OpenClause, PackStanding, RuleSummary};

use std::{collections::BTreeMap, sync::LazyLock};

use super::{
    QualifiedVariable,
    record::{
        Layering, Penetration, ProductForm, TestKind, TestLevel, Transfer, TreatmentClass, WeldKind,
    },
};
use crate::{
    quantity::{Temperature, UnitSystem},
    trade::{CodeEdition, Coded, Confidence, FillerKind, GasComponent, Position, Process, coded},
};

coded! {
    /// How much a change outside the limit weighs.
    pub enum VariableClass: "class of a variable" {
        /// A change outside needs a new qualification.
        Essential = "essential",
        /// The same, where impact tests are required.
        Supplementary = "supplementary",
        /// A change outside needs a revised procedure only.
        Nonessential = "nonessential",
    }
}

coded! {
    /// What a limit is derived for.
    pub enum Per: "reach of a rule" {
        /// The whole test piece.
        TestPiece = "test-piece",
        /// Each part of the joint on its own.
        Part = "part",
        /// Each process of the piece.
        Process = "process",
        /// Each run, whatever its electrode and class.
        Run = "run",
        /// Each run, for steps with its filler diameter.
        FillerDiameter = "filler-diameter",
        /// Each run, for steps of its run class.
        RunClass = "run-class",
    }
}

coded! {
    /// Which of the recorded values a limit counts from.
    pub enum CountedFrom: "recorded value" {
        /// The value the record states.
        Mean = "mean",
        /// The lowest recorded.
        Lowest = "lowest",
        /// The highest recorded.
        Highest = "highest",
    }
}

coded! {
    /// Which side of an order a record covers.
    pub enum Allow: "direction of an order" {
        /// The recorded rank and lower ones.
        Lower = "lower",
        /// The recorded rank and higher ones.
        Higher = "higher",
    }
}

coded! {
    /// What the limits of a pack count from.
    pub enum PackRoute: "route of a rule pack" {
        /// What was recorded in a test.
        Tested = "tested",
        /// Nothing: they are fixed, for procedures that need no test.
        Prequalified = "prequalified",
    }
}

coded! {
    /// A size of the proposed joint that decides which row of a table holds.
    pub enum SizeOf: "size of the joint" {
        /// Thickness of the thicker part.
        ThickerPart = "thicker-part",
        /// Thickness of the thinner part.
        ThinnerPart = "thinner-part",
    }
}

/// Why a pack cannot be used: the rule and the field, and what is wrong there.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error(
    "{}{}{field}: {problem}",
    line.map(|line| format!("line {line}: ")).unwrap_or_default(),
    rule.as_deref().map(|id| format!("rule {id}, ")).unwrap_or_default()
)]
pub struct PackError {
    /// Line of the text, counted from 1, where it is known.
    pub line: Option<usize>,
    /// Id of the rule; `None` for the head of the pack or a text that is no TOML.
    pub rule: Option<String>,
    /// Field.
    pub field: String,
    /// What is wrong.
    pub problem: String,
}

/// The rules of one code, edition and level.
#[derive(Debug, Clone, PartialEq)]
pub struct Pack {
    /// Stable name, kebab-case.
    pub key: String,
    /// Title in words.
    pub title: String,
    /// Code and edition. A record is judged by the pack of its own edition only.
    pub code: CodeEdition,
    /// Whether it judges by tests or by fixed limits.
    pub route: PackRoute,
    /// Level, where the code has levels.
    pub level: Option<TestLevel>,
    /// Unit systems that the code prints tables for.
    pub systems: Vec<UnitSystem>,
    /// Processes the rules are written for; another one is not judged.
    pub processes: Vec<Process>,
    /// Where the figures were read.
    pub sources: Vec<String>,
    /// Clauses of the range of qualification that the pack leaves out.
    pub open: Vec<OpenClause>,
    pub(super) rules: Vec<Rule>,
    text: String,
}

/// One rule.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Rule {
    pub id: String,
    pub clause: String,
    pub variable: QualifiedVariable,
    pub class: VariableClass,
    pub confidence: Confidence,
    pub per: Per,
    pub note: Option<String>,
    /// Rules of one group stand for each other: the first that can be judged decides.
    pub one_of: Option<String>,
    /// Two tests, at high and at low energy, cover what lies between.
    pub high_low: bool,
    pub when: When,
    pub kind: RuleKind,
}

/// When a rule applies. Empty lists and `None` ask nothing.
#[derive(Debug, Clone, Default, PartialEq)]
pub(super) struct When {
    pub processes: Vec<Process>,
    /// Weld of the test piece.
    pub welds: Vec<WeldKind>,
    /// Weld of the job.
    pub for_welds: Vec<WeldKind>,
    /// Product of the test piece.
    pub products: Vec<ProductForm>,
    /// Product of the job.
    pub for_products: Vec<ProductForm>,
    pub penetration: Option<Penetration>,
    pub post_heated: Option<bool>,
    /// A run of the test piece was thicker than this.
    pub run_thicker_than: Option<PerSystem<f64>>,
    pub layering: Option<Layering>,
    /// Layering of the job.
    pub for_layering: Option<Layering>,
    pub impact: Option<bool>,
    pub impact_below: Option<Temperature>,
    pub hardness: Option<bool>,
    pub impact_or_hardness: Option<bool>,
    pub tested: Vec<TestKind>,
    pub not_tested: Vec<TestKind>,
    pub metal_groups: Vec<u8>,
    pub not_metal_groups: Vec<u8>,
    pub not_treatments: Vec<TreatmentClass>,
    pub forms: Vec<FillerKind>,
    pub transfers: Vec<Transfer>,
    pub not_transfers: Vec<Transfer>,
    pub positions: Vec<Position>,
    /// Position of the job.
    pub for_positions: Vec<Position>,
    pub not_for_positions: Vec<Position>,
    /// Words of the proposal.
    pub given: Vec<Given>,
}

/// One of these words has to be what the proposal says of a variable.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Given {
    pub variable: QualifiedVariable,
    pub words: Vec<String>,
}

/// A band of numbers with open or closed ends.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub(super) struct Band {
    /// Lower end and whether it belongs to the band.
    pub low: Option<(f64, bool)>,
    /// Upper end and whether it belongs to the band.
    pub high: Option<(f64, bool)>,
}

/// The closed set of kinds of rule.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum RuleKind {
    /// A share of the recorded value up and down; a missing side is free.
    Percent { minus: Option<f64>, plus: Option<f64>, of: CountedFrom },
    /// A fixed step up and down, per system of units; a missing side is free.
    Shift { of: CountedFrom, steps: PerSystem<Steps> },
    /// Rows by a recorded size.
    Table {
        by: Symbol,
        /// A second size that tells rows of one band apart.
        and_by: Option<Symbol>,
        thicker_part_unlimited_from: Option<f64>,
        /// What all runs of the process have in common where its sizes count as those of one weld metal.
        runs_alike_in: Vec<QualifiedVariable>,
        rows: PerSystem<Vec<Row>>,
    },
    /// As recorded.
    Same,
    /// Any value of the recorded value's class.
    SameClass(Vec<Vec<String>>),
    /// The recorded rank and those on one side of it.
    Ordered { order: Vec<String>, allow: Allow },
    /// One of a fixed list, whatever was recorded.
    MemberOf(Vec<String>),
    /// What each recorded value covers; one that is not listed covers itself, or is not known.
    Coverage { covers: BTreeMap<String, Vec<String>>, others_same: bool },
    /// Pairs of base-metal groups.
    MetalPairs(MetalPairs),
    /// Shares of a gas around the recorded mixture.
    GasWindow { relative: Vec<(GasComponent, f64)>, free: f64 },
    /// A fixed range, whatever was recorded.
    Fixed(PerSystem<Ends>),
    /// A fixed range by a size of the proposed joint.
    BySize { by: SizeOf, rows: PerSystem<Vec<SizeRow>> },
    /// A proposed range that lies within these shares of one value.
    Spread { minus: f64, plus: f64 },
    /// Positions by where impact and hardness specimens came from.
    Positions(PositionRule),
    /// Tests that the record needs, passed.
    Tested { all_of: Vec<TestKind>, any_of: Vec<TestKind> },
    /// What a person has to state.
    Stated { question: String },
}

/// One value for each system of units the code prints.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct PerSystem<T> {
    pub metric: Option<T>,
    pub us: Option<T>,
}

impl<T> PerSystem<T> {
    pub const fn of(&self, system: UnitSystem) -> Option<&T> {
        match system {
            UnitSystem::Metric => self.metric.as_ref(),
            UnitSystem::Us => self.us.as_ref(),
        }
    }
}

#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Steps {
    pub minus: Option<f64>,
    pub plus: Option<f64>,
}

#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Ends {
    /// Lower end and whether it belongs to the range.
    pub min: Option<(f64, bool)>,
    pub max: Option<f64>,
}

/// One row of a table by a proposed size.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct SizeRow {
    pub band: Band,
    pub ends: Ends,
    pub confidence: Option<Confidence>,
}

/// One row of a table.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Row {
    pub band: Band,
    pub and_band: Band,
    pub min: Option<End>,
    pub max: Option<End>,
    pub max_included: bool,
    pub confidence: Option<Confidence>,
}

/// Unordered pairs of groups, `1-1`, and what holds for each side of a covered pair.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct MetalPairs {
    pub covers: BTreeMap<(u8, u8), Vec<(u8, u8)>>,
    /// Cells that were hard to read.
    pub doubtful: BTreeMap<(u8, u8), Vec<(u8, u8)>>,
    pub equal_or_lower_yield: Vec<u8>,
    pub same_or_lower_sub_group: Vec<u8>,
    pub same_sub_group: Vec<u8>,
}

/// Positions of high and low heat input.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct PositionRule {
    pub high: Vec<Position>,
    pub low: Vec<Position>,
    /// Positions of a fixed pipe, which has both.
    pub both: Vec<Position>,
    /// Positions that always need a test of their own.
    pub own_test: Vec<Position>,
}

impl Pack {
    /// Processes that the code takes as one: its rule about processes goes by class.
    pub(super) fn alike_processes(&self) -> Vec<Vec<Process>> {
        let by_class = |rule: &Rule| match &rule.kind {
            RuleKind::SameClass(classes) if rule.variable == QualifiedVariable::Process => {
                Some(classes.clone())
            }
            _ => None,
        };
        let codes = self.rules.iter().filter_map(by_class).flatten();
        codes
            .map(|class| class.iter().filter_map(|code| Process::from_code(code)).collect())
            .collect()
    }

    /// Reads and validates a pack.
    ///
    /// # Errors
    /// Every slip, of a rule the first one: each with line, rule and field. Never an empty list.
    pub fn load(text: &str) -> Result<Self, Vec<PackError>> {
        read::pack(text)
            .map_err(|slips| slips.into_iter().map(|slip| slip.with_line(text)).collect())
    }

    /// The pack as written, to be compared with the printed code.
    #[must_use]
    pub fn text(&self) -> &str {
        &self.text
    }

    /// One rule as written: what a person compares with the printed code, and what a signature is about.
    #[must_use]
    pub fn rule_text(&self, id: &str) -> Option<String> {
        text::rule(&self.text, id)
    }
}

/// Texts of the built-in packs.
const BUILT_IN: &[&str] = &[
    include_str!("../packs/iso-15614-1-2017-level-2.toml"),
    include_str!("../packs/aws-d1.1-2015-tested.toml"),
    include_str!("../packs/iso-15614-1-2017-level-1.toml"),
    include_str!("../packs/asme-ix-2017.toml"),
    include_str!("../packs/aws-d1.1-2020-prequalified.toml"),
];

/// The written format of packs, for who writes their own.
pub const PACK_FORMAT: &str = include_str!("../packs/FORMAT.md");

/// The built-in packs. A pack that does not load is left out; a test holds that all do.
#[must_use]
pub fn packs() -> &'static [Pack] {
    static PACKS: LazyLock<Vec<Pack>> =
        LazyLock::new(|| BUILT_IN.iter().filter_map(|text| Pack::load(text).ok()).collect());
    &PACKS
}
