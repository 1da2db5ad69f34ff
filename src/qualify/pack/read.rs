//! From the written form of a pack to its rules, with every slip named by rule and field.

use std::{collections::BTreeSet, str::FromStr};

use super::{
    Allow, Band, CountedFrom, Ends, MetalPairs, OpenClause, Pack, PackError, PackRoute, Per,
    PerSystem, PositionRule, Row, Rule, RuleKind, Steps, Symbol, When,
    at::{At, Read},
    file::{
        CoverageFile, EndsFile, LimitFile, MetalPairsFile, PackFile, RowFile, RuleFile, StepFile,
        TableFile, WhenFile,
    },
    fixed_limits::{self, by_size, spread},
    text,
};
use crate::{
    qualify::{
        QualifiedVariable,
        variable::{Home, Shape},
    },
    quantity::{Temperature, UnitSystem},
    trade::{CodeEdition, Coded, MetalGroup},
};

impl At<'_> {
    pub(super) fn not_empty<T>(self, list: Vec<T>) -> Read<Vec<T>> {
        if list.is_empty() { Err(self.wrong("is empty")) } else { Ok(list) }
    }

    pub(super) fn positive(self, number: Option<f64>) -> Read<Option<f64>> {
        match number {
            Some(number) if !(number.is_finite() && number >= 0.0) => {
                Err(self.wrong(format!("{number} is not zero or above")))
            }
            _ => Ok(number),
        }
    }
}

pub(super) fn pack(written: &str) -> Result<Pack, Vec<PackError>> {
    let file: PackFile =
        toml::from_str(written).map_err(|error| vec![unreadable(written, &error)])?;
    let systems = systems(&file).map_err(|slip| vec![slip])?;
    let mut slips = Vec::new();
    let mut ids = BTreeSet::new();
    let mut rules = Vec::new();
    for own in &file.rule {
        if !ids.insert(own.id.as_str()) {
            slips.push(At { rule: Some(&own.id), field: "id" }.wrong("is there twice"));
            continue;
        }
        match rule(own, &systems) {
            Ok(rule) => rules.push(rule),
            Err(slip) => slips.push(slip),
        }
    }
    slips.extend(text::line_of_long_text(written).map(|line| PackError {
        line: Some(line),
        ..head("file").wrong("a text goes over several lines; write it in one")
    }));
    let prequalified = file.route == PackRoute::Prequalified.code();
    slips.extend(rules.iter().filter(|_| prequalified).filter_map(fixed_limits::without_record));
    match whole(file, systems, rules, written) {
        Ok(pack) if slips.is_empty() => Ok(pack),
        Ok(_) => Err(slips),
        Err(slip) => Err(std::iter::once(slip).chain(slips).collect()),
    }
}

const fn head(field: &str) -> At<'_> {
    At { rule: None, field }
}

/// A text that is no pack at all, by the line that the reader of TOML names.
fn unreadable(text: &str, error: &toml::de::Error) -> PackError {
    let before = error.span().and_then(|span| text.get(..span.start));
    let line = before.map(|before| before.matches('\n').count() + 1);
    PackError { line, ..head("file").wrong(error.message().to_owned()) }
}

fn systems(file: &PackFile) -> Read<Vec<UnitSystem>> {
    head("systems").not_empty(head("systems").codes(&file.systems)?)
}

/// The pack with its head.
fn whole(file: PackFile, systems: Vec<UnitSystem>, rules: Vec<Rule>, text: &str) -> Read<Pack> {
    let process = [QualifiedVariable::Process, QualifiedVariable::ProcessSequence];
    let is_process = |rule: &RuleFile| {
        QualifiedVariable::from_code(&rule.variable).is_some_and(|own| process.contains(&own))
    };
    if !file.rule.iter().any(is_process) {
        return Err(head("rule").wrong("none is about the process; without it any process passes"));
    }
    for (field, text) in [("key", &file.key), ("code", &file.code), ("edition", &file.edition)] {
        if text.trim().is_empty() {
            return Err(head(field).wrong("is empty"));
        }
    }
    Ok(Pack {
        route: head("route").code(&file.route)?,
        level: head("level").optional(file.level.as_ref())?,
        processes: head("processes").not_empty(head("processes").codes(&file.processes)?)?,
        sources: head("sources").not_empty(file.sources)?,
        rules,
        open: file
            .open
            .into_iter()
            .map(|o| OpenClause { clause: o.clause, what: o.what })
            .collect(),
        text: text.to_owned(),
        key: file.key,
        title: file.title,
        code: CodeEdition { name: file.code, edition: file.edition },
        systems,
    })
}

fn rule(file: &RuleFile, systems: &[UnitSystem]) -> Read<Rule> {
    let at = At { rule: Some(&file.id), field: "id" };
    if file.clause.trim().is_empty() {
        return Err(at.field("clause").wrong("is empty"));
    }
    let variable: QualifiedVariable = at.field("variable").code(&file.variable)?;
    let per: Per = at.field("per").code(&file.per)?;
    let fits = match per {
        Per::TestPiece => variable.home() != Home::Run,
        Per::Part => variable == QualifiedVariable::ParentThickness,
        Per::Process => true,
        // Where a statement stands for a limit of runs, it is asked for each run.
        Per::Run if variable == QualifiedVariable::Statement => true,
        Per::Run | Per::FillerDiameter | Per::RunClass => variable.home() == Home::Run,
    };
    if !fits {
        return Err(at.field("per").wrong(format!("{variable} is not known per {per}")));
    }
    let kind = kind(at.field("limit"), &file.limit, systems)?;
    let shape = match &kind {
        RuleKind::Percent { .. }
        | RuleKind::Shift { .. }
        | RuleKind::Table { .. }
        | RuleKind::BySize { .. }
        | RuleKind::Spread { .. }
        | RuleKind::Fixed(_) => Shape::Number,
        RuleKind::GasWindow { .. } => Shape::Gas,
        RuleKind::MetalPairs(_) => Shape::Metals,
        RuleKind::Tested { .. } | RuleKind::Stated { .. } => Shape::None,
        _ => Shape::Word,
    };
    if shape != variable.shape() {
        return Err(at.field("limit").wrong(format!("this kind of rule does not fit {variable}")));
    }
    Ok(Rule {
        id: file.id.clone(),
        clause: file.clause.clone(),
        variable,
        class: at.field("class").code(&file.class)?,
        confidence: at.field("confidence").code(&file.confidence)?,
        per,
        note: file.note.clone(),
        one_of: file.one_of.clone(),
        high_low: file.high_low,
        when: when(at, &file.when, systems)?,
        kind,
    })
}

fn when(at: At<'_>, file: &WhenFile, systems: &[UnitSystem]) -> Read<When> {
    let below = file.impact_below.map(Temperature::computed).transpose();
    Ok(When {
        processes: at.field("when.process").codes(&file.process)?,
        welds: at.field("when.weld").codes(&file.weld)?,
        for_welds: at.field("when.for-weld").codes(&file.for_weld)?,
        products: at.field("when.product").codes(&file.product)?,
        for_products: at.field("when.for-product").codes(&file.for_product)?,
        penetration: at.field("when.penetration").optional(file.penetration.as_ref())?,
        post_heated: file.post_heated,
        run_thicker_than: file
            .run_thicker_than
            .as_ref()
            .map(|size| {
                let at = at.field("when.run-thicker-than");
                per_system(at, systems, size.metric.as_ref(), size.us.as_ref(), |size| Ok(*size))
            })
            .transpose()?,
        layering: at.field("when.layering").optional(file.layering.as_ref())?,
        for_layering: at.field("when.for-layering").optional(file.for_layering.as_ref())?,
        impact: file.impact,
        impact_below: below
            .map_err(|error| at.field("when.impact-below").wrong(error.to_string()))?,
        hardness: file.hardness,
        impact_or_hardness: file.impact_or_hardness,
        tested: at.field("when.tested").codes(&file.tested)?,
        not_tested: at.field("when.not-tested").codes(&file.not_tested)?,
        metal_groups: file.metal_group.clone(),
        not_metal_groups: file.not_metal_group.clone(),
        not_treatments: at.field("when.not-treatment").codes(&file.not_treatment)?,
        forms: at.field("when.form").codes(&file.form)?,
        transfers: at.field("when.transfer").codes(&file.transfer)?,
        not_transfers: at.field("when.not-transfer").codes(&file.not_transfer)?,
        positions: at.field("when.position").codes(&file.position)?,
        for_positions: at.field("when.for-position").codes(&file.for_position)?,
        not_for_positions: at.field("when.not-for-position").codes(&file.not_for_position)?,
        given: fixed_limits::given(at.field("when.for"), &file.given)?,
    })
}

fn kind(at: At<'_>, file: &LimitFile, systems: &[UnitSystem]) -> Read<RuleKind> {
    let counted = |of: Option<&String>| -> Read<CountedFrom> {
        Ok(at.optional(of)?.unwrap_or(CountedFrom::Mean))
    };
    Ok(match file {
        LimitFile::Percent(file) => RuleKind::Percent {
            minus: at.positive(file.minus)?,
            plus: at.positive(file.plus)?,
            of: counted(file.of.as_ref())?,
        },
        LimitFile::Shift(file) => {
            let steps = |file: &StepFile| -> Read<Steps> {
                Ok(Steps { minus: at.positive(file.minus)?, plus: at.positive(file.plus)? })
            };
            let steps = per_system(at, systems, file.metric.as_ref(), file.us.as_ref(), steps)?;
            RuleKind::Shift { of: counted(file.of.as_ref())?, steps }
        }
        LimitFile::Table(file) => table(at, file, systems)?,
        LimitFile::Same => RuleKind::Same,
        LimitFile::SameClass(file) => RuleKind::SameClass(at.not_empty(file.classes.clone())?),
        LimitFile::Ordered(file) => RuleKind::Ordered {
            order: at.not_empty(file.order.clone())?,
            allow: at.code::<Allow>(&file.allow)?,
        },
        LimitFile::MemberOf(file) => RuleKind::MemberOf(at.not_empty(file.values.clone())?),
        LimitFile::Coverage(file) => coverage(at, file)?,
        LimitFile::MetalPairs(file) => RuleKind::MetalPairs(metal_pairs(at, file)?),
        LimitFile::GasWindow(file) => {
            let relative = file.relative.iter().map(|(code, percent)| {
                Ok((at.code(code)?, at.positive(Some(*percent))?.unwrap_or_default()))
            });
            RuleKind::GasWindow {
                relative: relative.collect::<Read<_>>()?,
                free: at.positive(Some(file.free))?.unwrap_or_default(),
            }
        }
        LimitFile::Fixed(file) => {
            let ends = |file: &EndsFile| -> Read<Ends> {
                Ok(Ends { min: at.bound(file.above, file.min)?, max: file.max })
            };
            RuleKind::Fixed(per_system(at, systems, file.metric.as_ref(), file.us.as_ref(), ends)?)
        }
        LimitFile::BySize(file) => by_size(at, file, systems)?,
        LimitFile::Spread(file) => spread(at, file)?,
        LimitFile::Positions(file) => RuleKind::Positions(PositionRule {
            high: at.codes(&file.high)?,
            low: at.codes(&file.low)?,
            both: at.codes(&file.both)?,
            own_test: at.codes(&file.own_test)?,
        }),
        LimitFile::Tested(file) => {
            RuleKind::Tested { all_of: at.codes(&file.all_of)?, any_of: at.codes(&file.any_of)? }
        }
        LimitFile::Stated(file) => RuleKind::Stated { question: file.question.clone() },
    })
}

pub(super) fn per_system<F, T>(
    at: At<'_>,
    systems: &[UnitSystem],
    metric: Option<&F>,
    us: Option<&F>,
    read: impl Fn(&F) -> Read<T>,
) -> Read<PerSystem<T>> {
    for (system, given) in [(UnitSystem::Metric, metric.is_some()), (UnitSystem::Us, us.is_some())]
    {
        if systems.contains(&system) != given {
            let says = if given {
                "has figures that the pack's systems leave out"
            } else {
                "lacks figures"
            };
            return Err(at.wrong(format!("{says}: {}", system.code())));
        }
    }
    Ok(PerSystem { metric: metric.map(&read).transpose()?, us: us.map(&read).transpose()? })
}

fn table(at: At<'_>, file: &TableFile, systems: &[UnitSystem]) -> Read<RuleKind> {
    let rows = |rows: &Vec<RowFile>| -> Read<Vec<Row>> {
        let rows = rows.iter().map(|file| row(at, file)).collect::<Read<Vec<_>>>()?;
        no_overlap(at, &rows)?;
        at.not_empty(rows)
    };
    Ok(RuleKind::Table {
        by: at.code::<Symbol>(&file.by)?,
        and_by: at.optional(file.and_by.as_ref())?,
        thicker_part_unlimited_from: at.positive(file.thicker_part_unlimited_from)?,
        runs_alike_in: at.codes(&file.runs_alike_in)?,
        rows: per_system(at, systems, file.metric.as_ref(), file.us.as_ref(), rows)?,
    })
}

fn row(at: At<'_>, file: &RowFile) -> Read<Row> {
    if file.max.is_some() && file.max_below.is_some() {
        return Err(at.wrong("a row has max or max-below, not both"));
    }
    let band =
        Band { low: at.bound(file.above, file.from)?, high: at.bound(file.below, file.up_to)? };
    Ok(Row {
        band,
        and_band: Band {
            low: at.bound(None, file.and_from)?,
            high: at.bound(file.and_below, None)?,
        },
        min: at.end(file.min.as_ref())?,
        max: at.end(file.max.as_ref().or(file.max_below.as_ref()))?,
        max_included: file.max_below.is_none(),
        confidence: at.optional(file.confidence.as_ref())?,
    })
}

/// What each value covers, and whether one that is not listed covers itself.
fn coverage(at: At<'_>, file: &CoverageFile) -> Read<RuleKind> {
    if file.covers.is_empty() {
        return Err(at.wrong("covers nothing"));
    }
    let others_same = match file.others.as_deref() {
        None => false,
        Some("same") => true,
        Some(strange) => {
            return Err(at.wrong(format!("others is \"{strange}\"; known is same")));
        }
    };
    Ok(RuleKind::Coverage { covers: file.covers.clone(), others_same })
}

/// Rows stand in rising order and no size falls into two of them.
fn no_overlap(at: At<'_>, rows: &[Row]) -> Read<()> {
    for pair in rows.windows(2) {
        let bands = if pair[0].band == pair[1].band {
            (pair[0].and_band.high, pair[1].and_band.low)
        } else {
            (pair[0].band.high, pair[1].band.low)
        };
        let apart = match bands {
            (Some((high, high_in)), Some((low, low_in))) => {
                high < low || high.total_cmp(&low).is_eq() && !(high_in && low_in)
            }
            _ => false,
        };
        if !apart {
            return Err(at.wrong("rows overlap or are not in rising order"));
        }
    }
    Ok(())
}

fn metal_pairs(at: At<'_>, file: &MetalPairsFile) -> Read<MetalPairs> {
    let pair = |text: &str| -> Read<(u8, u8)> {
        let wrong = || at.wrong(format!("\"{text}\" is no pair of groups; write 2-1"));
        let group = |text: &str| {
            MetalGroup::from_str(text)
                .ok()
                .filter(|g| g.sub_group().is_none())
                .map(MetalGroup::group)
        };
        let (a, b) = text.split_once('-').ok_or_else(wrong)?;
        let (a, b) = group(a).zip(group(b)).ok_or_else(wrong)?;
        Ok((a.max(b), a.min(b)))
    };
    let map = |map: &std::collections::BTreeMap<String, Vec<String>>| {
        let entry = |(key, covered): (&String, &Vec<String>)| {
            Ok((pair(key)?, covered.iter().map(|c| pair(c)).collect::<Read<_>>()?))
        };
        map.iter().map(entry).collect::<Read<_>>()
    };
    Ok(MetalPairs {
        covers: map(&file.covers)?,
        doubtful: map(&file.doubtful)?,
        equal_or_lower_yield: file.equal_or_lower_yield.clone(),
        same_or_lower_sub_group: file.same_or_lower_sub_group.clone(),
        same_sub_group: file.same_sub_group.clone(),
    })
}
