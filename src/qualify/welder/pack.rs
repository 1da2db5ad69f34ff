//! A welder's rule pack: ranges, confirmation and revalidation of one code and edition, as data.

use std::{
    collections::{BTreeMap, BTreeSet},
    sync::LazyLock,
};

use super::{
    TestPosition, WelderBacking, WelderVariable,
    file::{LimitFile, PackFile, RowFile, RuleFile, WhenFile},
};
use crate::{
    qualify::{
        OpenClause, PackError, Symbol,
        pack::{
            End, PerSystem,
            at::{At, Read},
            file::SizeFile,
        },
        record::{Mechanisation, ProductForm, Transfer},
    },
    quantity::UnitSystem,
    trade::{CodeEdition, Confidence, JointKind, Position, Process, coded},
};

coded! {
    /// Whom a pack is about.
    pub enum PersonKind: "kind of person" {
        /// Guides the torch by hand.
        Welder = "welder",
        /// Sets or runs mechanised equipment.
        Operator = "operator",
    }
}

impl PersonKind {
    /// Degrees of mechanisation that such a person works with: ISO 9606-1, clause 1 (manual and partly mechanised),
    /// and ISO 14732, clause 1 (fully mechanised and automatic), both from memory.
    #[must_use]
    pub const fn mechanisations(self) -> &'static [Mechanisation] {
        match self {
            Self::Welder => &[Mechanisation::Manual, Mechanisation::Partly],
            Self::Operator => &[Mechanisation::Fully, Mechanisation::Automatic],
        }
    }
}

coded! {
    /// How a qualification is prolonged.
    pub enum RevalidationWay: "way of revalidation" {
        /// Only a new test prolongs it: a qualification of its own.
        NewTest = "new-test",
        /// Two welds of the last six months of the term were tested.
        TwoWelds = "two-welds",
        /// No end, as long as the manufacturer's quality system is verified.
        QualitySystem = "quality-system",
        /// One test coupon brings back what has lapsed.
        OneCoupon = "one-coupon",
    }
}

/// How often a qualification has to be confirmed, and whether welding alone does it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Confirming {
    /// Clause.
    pub clause: String,
    /// Longest time between two confirmations, in months.
    pub every_months: u32,
    /// Whether having welded with the process is enough; else a responsible person signs.
    pub use_suffices: bool,
    /// How well the rule was confirmed.
    pub confidence: Confidence,
}

/// One way in which a qualification is prolonged.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RevalidationOption {
    /// Sign of the option, as the certificate states it.
    pub option: String,
    /// Clause.
    pub clause: String,
    /// How.
    pub way: RevalidationWay,
    /// Years until it is due; `None` where there is no end.
    pub every_years: Option<u32>,
    /// How well the rule was confirmed.
    pub confidence: Confidence,
    /// What is to be said beside it.
    pub note: Option<String>,
}

/// The rules of one code and edition about people.
#[derive(Debug, Clone, PartialEq)]
pub struct WelderPack {
    /// Stable name, kebab-case.
    pub key: String,
    /// Title in words.
    pub title: String,
    /// Code and edition.
    pub code: CodeEdition,
    /// Whom it is about.
    pub person: PersonKind,
    /// Unit systems it prints.
    pub systems: Vec<UnitSystem>,
    /// Whether positions are covered by the letters F, H, V, O.
    pub us_position_letters: bool,
    /// Where the figures were read.
    pub sources: Vec<String>,
    /// What the pack leaves out.
    pub open: Vec<OpenClause>,
    /// Confirmation.
    pub confirming: Confirming,
    /// Ways of prolonging; none where a qualification has no term.
    pub revalidation: Vec<RevalidationOption>,
    pub(super) rules: Vec<Rule>,
}

/// One rule as a list shows it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct WelderRuleSummary {
    /// Id.
    pub id: String,
    /// Clause.
    pub clause: String,
    /// Variable.
    pub variable: WelderVariable,
    /// How well it was confirmed.
    pub confidence: Confidence,
}

#[derive(Debug, Clone, PartialEq)]
pub(super) struct Rule {
    pub id: String,
    pub clause: String,
    pub variable: WelderVariable,
    pub confidence: Confidence,
    pub note: Option<String>,
    pub when: When,
    pub kind: RuleKind,
}

/// When a rule applies. Empty lists and `None` ask nothing.
#[derive(Debug, Clone, Default, PartialEq)]
pub(super) struct When {
    pub processes: Vec<Process>,
    pub welds: Vec<JointKind>,
    pub products: Vec<ProductForm>,
    pub transfers: Vec<Transfer>,
    pub mechanisations: Vec<Mechanisation>,
    pub positions: Vec<TestPosition>,
    pub diameter_up_to: Option<PerSystem<f64>>,
    pub diameter_above: Option<PerSystem<f64>>,
    pub job: JobWhen,
}

/// Conditions about the job.
#[derive(Debug, Clone, Default, PartialEq)]
pub(super) struct JobWhen {
    pub welds: Vec<JointKind>,
    pub products: Vec<ProductForm>,
    pub backings: Vec<WelderBacking>,
    pub positions: Vec<Position>,
    pub not_positions: Vec<Position>,
    pub rotating: Option<bool>,
    pub pipe_up_to: Option<PerSystem<f64>>,
    pub not_pipe_up_to: Option<PerSystem<f64>>,
}

#[derive(Debug, Clone, PartialEq)]
pub(super) enum RuleKind {
    /// As in the test.
    Same,
    /// Any of the tested value's class.
    Classes(Vec<Vec<String>>),
    /// What each tested value covers; `A+B` is what two together cover.
    Covers(BTreeMap<String, Vec<String>>),
    /// What a person of the pack's kind works with, whatever was tested.
    OfPerson,
    /// Rows by a tested size; one fixed row where there is no size.
    Table { by: Option<Symbol>, rows: PerSystem<Vec<Row>> },
    /// The code has a rule here that the pack does not hold.
    NotHeld(String),
}

#[derive(Debug, Clone, PartialEq)]
pub(super) struct Row {
    /// Lower end of the band of tested sizes, and whether it belongs to it.
    pub low: Option<(f64, bool)>,
    pub high: Option<(f64, bool)>,
    pub layers_from: Option<u32>,
    pub layers_below: Option<u32>,
    pub min: Option<End>,
    pub max: Option<End>,
}

/// The written format of welders' packs.
pub const WELDER_PACK_FORMAT: &str = include_str!("packs/FORMAT.md");

const BUILT_IN: &[&str] = &[
    include_str!("packs/iso-9606-1-2012.toml"),
    include_str!("packs/iso-14732-2013.toml"),
    include_str!("packs/asme-ix-2017-performance.toml"),
    include_str!("packs/aws-d1.1-2020-performance.toml"),
];

/// The built-in packs. A pack that does not load is left out; a test holds that all do.
#[must_use]
pub fn welder_packs() -> &'static [WelderPack] {
    static PACKS: LazyLock<Vec<WelderPack>> =
        LazyLock::new(|| BUILT_IN.iter().filter_map(|text| WelderPack::load(text).ok()).collect());
    &PACKS
}

/// The built-in pack with this key.
#[must_use]
pub fn welder_pack(key: &str) -> Option<&'static WelderPack> {
    welder_packs().iter().find(|pack| pack.key == key)
}

impl WelderPack {
    /// Reads and validates a pack.
    ///
    /// # Errors
    /// [`PackError`] names the rule and the field.
    pub fn load(text: &str) -> Result<Self, PackError> {
        let head = |field| At { rule: None, field };
        let file: PackFile =
            toml::from_str(text).map_err(|error| head("file").wrong(error.to_string()))?;
        let systems: Vec<UnitSystem> = head("systems").codes(&file.systems)?;
        let mut ids = BTreeSet::new();
        let mut rules = Vec::new();
        for written in &file.rule {
            if !ids.insert(written.id.as_str()) {
                return Err(At { rule: Some(&written.id), field: "id" }.wrong("is there twice"));
            }
            rules.push(rule(written, &systems)?);
        }
        if !rules.iter().any(|rule: &Rule| rule.variable == WelderVariable::Process) {
            return Err(
                head("rule").wrong(format!("none is about the {}", WelderVariable::Process))
            );
        }
        if !rules.iter().any(|rule| rule.kind == RuleKind::OfPerson) {
            return Err(head("rule").wrong("none is of-person: a welder's range is no operator's"));
        }
        if file.confirmation.every_months == 0 {
            return Err(head("confirmation").wrong("every-months is zero"));
        }
        let option = |written: super::file::RevalidationFile| -> Read<_> {
            let at = head("revalidation");
            Ok(RevalidationOption {
                way: at.code(&written.way)?,
                confidence: at.code(&written.confidence)?,
                option: written.option,
                clause: written.clause,
                every_years: written.every_years,
                note: written.note,
            })
        };
        Ok(Self {
            person: head("person").code(&file.person)?,
            confirming: Confirming {
                confidence: head("confirmation").code(&file.confirmation.confidence)?,
                clause: file.confirmation.clause,
                every_months: file.confirmation.every_months,
                use_suffices: file.confirmation.use_suffices,
            },
            revalidation: file.revalidation.into_iter().map(option).collect::<Result<_, _>>()?,
            open: file
                .open
                .into_iter()
                .map(|open| OpenClause { clause: open.clause, what: open.what })
                .collect(),
            key: file.key,
            title: file.title,
            code: CodeEdition { name: file.code, edition: file.edition },
            systems,
            us_position_letters: file.us_position_letters,
            sources: file.sources,
            rules,
        })
    }

    /// The rules, in the order of the pack.
    #[must_use]
    pub fn summaries(&self) -> Vec<WelderRuleSummary> {
        let summary = |rule: &Rule| WelderRuleSummary {
            id: rule.id.clone(),
            clause: rule.clause.clone(),
            variable: rule.variable,
            confidence: rule.confidence,
        };
        self.rules.iter().map(summary).collect()
    }

    /// The option of revalidation with this sign.
    #[must_use]
    pub fn option(&self, sign: &str) -> Option<&RevalidationOption> {
        self.revalidation.iter().find(|option| option.option == sign)
    }
}

fn rule(file: &RuleFile, systems: &[UnitSystem]) -> Read<Rule> {
    let at = At { rule: Some(&file.id), field: "clause" };
    if file.clause.trim().is_empty() {
        return Err(at.wrong("is empty"));
    }
    let variable: WelderVariable = at.field("variable").code(&file.variable)?;
    let kind = kind(at.field("limit"), &file.limit, systems)?;
    let fits = match &kind {
        RuleKind::Table { .. } => variable.kind().is_some(),
        RuleKind::NotHeld(_) => true,
        RuleKind::OfPerson => variable == WelderVariable::Mechanisation,
        _ => variable.kind().is_none(),
    };
    if !fits {
        return Err(at.field("limit").wrong(format!("this kind of rule does not fit {variable}")));
    }
    Ok(Rule {
        id: file.id.clone(),
        clause: file.clause.clone(),
        variable,
        confidence: at.field("confidence").code(&file.confidence)?,
        note: file.note.clone(),
        when: when(at.field("when"), &file.when, systems)?,
        kind,
    })
}

fn when(at: At<'_>, file: &WhenFile, systems: &[UnitSystem]) -> Read<When> {
    let size = |size: Option<SizeFile>| -> Read<_> {
        let Some(size) = size else { return Ok(None) };
        let both = PerSystem { metric: size.metric, us: size.us };
        let whole = systems.iter().all(|system| both.of(*system).is_some());
        whole.then_some(Some(both)).ok_or_else(|| at.wrong("a column of units is missing"))
    };
    Ok(When {
        processes: at.codes(&file.process)?,
        welds: at.codes(&file.weld)?,
        products: at.codes(&file.product)?,
        transfers: at.codes(&file.transfer)?,
        mechanisations: at.codes(&file.mechanisation)?,
        positions: at.codes(&file.position)?,
        diameter_up_to: size(file.diameter_up_to)?,
        diameter_above: size(file.diameter_above)?,
        job: JobWhen {
            welds: at.codes(&file.for_weld)?,
            products: at.codes(&file.for_product)?,
            backings: at.codes(&file.for_backing)?,
            positions: at.codes(&file.for_position)?,
            not_positions: at.codes(&file.not_for_position)?,
            rotating: file.for_rotating,
            pipe_up_to: size(file.for_pipe_up_to)?,
            not_pipe_up_to: size(file.not_for_pipe_up_to)?,
        },
    })
}

fn kind(at: At<'_>, file: &LimitFile, systems: &[UnitSystem]) -> Read<RuleKind> {
    Ok(match file {
        LimitFile::Same => RuleKind::Same,
        LimitFile::OfPerson => RuleKind::OfPerson,
        LimitFile::Classes(classes) => RuleKind::Classes(classes.clone()),
        LimitFile::Covers(covers) => RuleKind::Covers(covers.clone()),
        LimitFile::NotHeld(why) => RuleKind::NotHeld(why.clone()),
        LimitFile::Table(table) => {
            let by = at.optional(table.by.as_ref())?;
            let rows = |rows: Option<&Vec<RowFile>>| {
                rows.map(|rows| rows.iter().map(|one| row(at, one)).collect()).transpose()
            };
            let rows =
                PerSystem { metric: rows(table.metric.as_ref())?, us: rows(table.us.as_ref())? };
            if !systems.iter().all(|system| rows.of(*system).is_some()) {
                return Err(at.wrong("a column of units is missing"));
            }
            RuleKind::Table { by, rows }
        }
    })
}

fn row(at: At<'_>, file: &RowFile) -> Read<Row> {
    if (file.min.is_none() && file.max.is_none()) != file.free {
        return Err(at.wrong("a row has an end, or is free"));
    }
    Ok(Row {
        low: at.bound(file.above, file.from)?,
        high: at.bound(file.below, file.up_to)?,
        layers_from: file.layers_from,
        layers_below: file.layers_below,
        min: at.end(file.min.as_ref())?,
        max: at.end(file.max.as_ref())?,
    })
}
