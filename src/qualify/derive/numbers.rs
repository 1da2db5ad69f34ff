//! Rules about numbers: shares, steps, tables, fixed ends.

use super::{Scene, allow::Found};
use crate::{
    qualify::{
        QualifiedVariable,
        facts::{Fact, recorded_parts, recorded_run},
        pack::{
            Band, CountedFrom, Ends, Per, PerSystem, Row, Rule, RuleKind, SizeOf, SizeRow, Steps,
            Symbol,
        },
        range::{Allowed, Bound, Interval, Missing, SizedLimit, SizedLimits, Whose},
    },
    quantity::{Amount, Kind, KindInfo, ThicknessKind, compare},
};

/// The reading a rule counts from.
const fn counted(of: CountedFrom, fact: &Fact) -> Option<Amount> {
    match (of, fact) {
        (CountedFrom::Mean, Fact::Readings { mean, .. }) => Some(*mean),
        (CountedFrom::Lowest, Fact::Readings { low, .. }) => Some(*low),
        (CountedFrom::Highest, Fact::Readings { high, .. }) => Some(*high),
        _ => None,
    }
}

fn included(kind: &'static KindInfo, canonical: f64) -> Option<Bound> {
    Amount::computed(kind, canonical).ok().map(|amount| Bound { amount, included: true })
}

fn interval(min: Option<Bound>, max: Option<Bound>, scene: Scene<'_>) -> Interval {
    Interval { min, max, system: scene.system, thicker_part_free: false }
}

fn no_number() -> Found {
    Found::unknown(Whose::Record, "a reading")
}

/// A share of the reading up and down.
pub(super) fn percent(
    minus: Option<f64>,
    plus: Option<f64>,
    of: CountedFrom,
    fact: &Fact,
    scene: Scene<'_>,
) -> Found {
    let Some(reading) = counted(of, fact) else { return no_number() };
    let end = |factor: f64| included(reading.kind(), reading.canonical() * factor);
    let min = minus.and_then(|minus| end((100.0 - minus) / 100.0));
    let max = plus.and_then(|plus| end((100.0 + plus) / 100.0));
    let from = reading.told(scene.system);
    Found::plain(Allowed::Interval(interval(min, max, scene)), Some(from))
}

/// A step up and down, as large as the code prints it in the record's units.
pub(super) fn shift(
    of: CountedFrom,
    steps: &PerSystem<Steps>,
    fact: &Fact,
    scene: Scene<'_>,
) -> Found {
    let (Some(reading), Some(steps)) = (counted(of, fact), steps.of(scene.system)) else {
        return no_number();
    };
    let unit = reading.kind().answer_unit(scene.system);
    let size = |step: f64| step * unit.factor.0 / unit.factor.1;
    let end = |difference: f64| included(reading.kind(), reading.canonical() + difference);
    let min = steps.minus.and_then(|step| end(-size(step)));
    let max = steps.plus.and_then(|step| end(size(step)));
    let from = reading.told(scene.system);
    Found::plain(Allowed::Interval(interval(min, max, scene)), Some(from))
}

/// Of preheat and lowest interpass temperature: a lower end below freezing demands none. The codes print a decrease and
/// no least temperature (ISO 15614-1:2017, 8.4.8; ASME IX QW-406.1); metal that cold is the matter of rules about the
/// work.
pub(super) fn no_preheat_below_freezing(variable: QualifiedVariable, found: Found) -> Found {
    use QualifiedVariable::{InterpassMin, Preheat};
    match found.allowed {
        Allowed::Interval(own @ Interval { min: Some(least), max: None, .. })
            if matches!(variable, Preheat | InterpassMin) && least.amount.canonical() < 0.0 =>
        {
            Found { allowed: Allowed::NoPreheat(own), ..found }
        }
        allowed => Found { allowed, ..found },
    }
}

/// A fixed range.
pub(super) fn fixed(
    variable: QualifiedVariable,
    ends: &PerSystem<Ends>,
    scene: Scene<'_>,
) -> Found {
    let (Some(kind), Some(ends)) = (variable.kind(), ends.of(scene.system)) else {
        return no_number();
    };
    Found::plain(Allowed::Interval(printed(kind, *ends, scene)), None)
}

/// Printed ends in the units of the scene.
fn printed(kind: &'static KindInfo, ends: Ends, scene: Scene<'_>) -> Interval {
    let max = ends.max.map(|number| (number, true));
    interval(at(kind, ends.min, scene), at(kind, max, scene), scene)
}

/// A printed end in the units of the scene.
fn at(kind: &'static KindInfo, end: Option<(f64, bool)>, scene: Scene<'_>) -> Option<Bound> {
    let (number, included) = end?;
    let unit = kind.answer_unit(scene.system);
    let canonical = (number - unit.offset) * unit.factor.0 / unit.factor.1;
    Amount::computed(kind, canonical).ok().map(|amount| Bound { amount, included })
}

/// A fixed range for each band of a size that only the proposal has.
pub(super) fn by_size(
    rule: &Rule,
    by: SizeOf,
    rows: &PerSystem<Vec<SizeRow>>,
    scene: Scene<'_>,
) -> Found {
    let (Some(kind), Some(rows)) = (rule.variable.kind(), rows.of(scene.system)) else {
        return no_number();
    };
    let size = <ThicknessKind as Kind>::INFO;
    let row = |row: &SizeRow| SizedLimit {
        band: interval(at(size, row.band.low, scene), at(size, row.band.high, scene), scene),
        allowed: printed(kind, row.ends, scene),
        confidence: row.confidence.unwrap_or(rule.confidence),
    };
    let rows = rows.iter().map(row).collect();
    Found::plain(Allowed::BySize(SizedLimits { by, rows }), None)
}

const fn variable_of(symbol: Symbol) -> QualifiedVariable {
    match symbol {
        Symbol::ParentThickness => QualifiedVariable::ParentThickness,
        Symbol::DepositThickness => QualifiedVariable::DepositThickness,
        Symbol::Throat => QualifiedVariable::Throat,
        Symbol::OutsideDiameter => QualifiedVariable::OutsideDiameter,
        Symbol::JointAngle => QualifiedVariable::JointAngle,
        Symbol::Leg => QualifiedVariable::Leg,
    }
}

/// A recorded size in the units of the scene.
fn size(symbol: Symbol, scene: Scene<'_>) -> Result<(Amount, f64), Missing> {
    let variable = variable_of(symbol);
    let of = scene.process.map(|process| format!(" of {process}")).unwrap_or_default();
    let amount = scene.fact(variable).and_then(|fact| counted(CountedFrom::Mean, &fact));
    let amount = amount.ok_or_else(|| Missing::new(Whose::Record, format!("{variable}{of}")))?;
    Ok((amount, amount.kind().answer_unit(scene.system).number(amount.canonical())))
}

/// A row of the table by a recorded size, or by each part's own thickness.
pub(super) fn table(rule: &Rule, scene: Scene<'_>) -> Found {
    let RuleKind::Table { by, runs_alike_in, .. } = &rule.kind else { return no_number() };
    if let Some(missing) = runs_differ(runs_alike_in, scene) {
        return Found::plain(Allowed::Unknown(missing), None);
    }
    if rule.per == Per::Part {
        let Some(parts) = recorded_parts(scene.piece) else {
            return Found::unknown(Whose::Record, "the thickness of each part");
        };
        let each: Result<Vec<_>, _> =
            parts.iter().map(|part| row_of(rule, scene, *by, *part)).collect();
        return match each {
            Ok(rows) => {
                let from = parts.iter().map(|part| part.told(scene.system)).collect::<Vec<_>>();
                let confidence = rows.iter().filter_map(|(_, confidence)| *confidence).max();
                let intervals = rows.into_iter().map(|(interval, _)| interval).collect();
                let found = Found::plain(Allowed::EachPart(intervals), Some(from.join(" beside ")));
                Found { confidence, ..found }
            }
            Err(missing) => Found::plain(Allowed::Unknown(missing), None),
        };
    }
    let found = size(*by, scene).and_then(|(amount, _)| {
        let (interval, confidence) = row_of(rule, scene, *by, amount)?;
        let from = sizes(rule, scene, (*by, amount))?;
        Ok(Found { confidence, ..Found::plain(Allowed::Interval(interval), Some(from)) })
    });
    found.unwrap_or_else(|missing| Found::plain(Allowed::Unknown(missing), None))
}

/// What is missing where runs of the process differ in what their sizes count for: the size of each, since the record
/// has them in one. A run that does not state it may differ.
fn runs_differ(alike_in: &[QualifiedVariable], scene: Scene<'_>) -> Option<Missing> {
    let process = scene.process?;
    alike_in.iter().find_map(|variable| {
        let runs = scene.piece.runs.iter().filter(|run| run.process == process);
        let mut each: Vec<String> = Vec::new();
        for run in runs {
            let word = match recorded_run(run, *variable) {
                Some(Fact::Words(words)) => words.join(", "),
                _ => "not stated".to_owned(),
            };
            if !each.contains(&word) {
                each.push(word);
            }
        }
        (each.len() > 1).then(|| {
            let fact = format!(
                "the thickness deposited with each {variable} of {process} ({}), which the record has in one",
                each.join("; ")
            );
            Missing::new(Whose::Record, fact)
        })
    })
}

/// The sizes a row was found by, in words that follow the label of the variable.
fn sizes(rule: &Rule, scene: Scene<'_>, (by, amount): (Symbol, Amount)) -> Result<String, Missing> {
    let RuleKind::Table { and_by: Some(and_by), .. } = &rule.kind else {
        return Ok(amount.told(scene.system));
    };
    let (second, _) = size(*and_by, scene)?;
    let named = |symbol: Symbol, amount: Amount| {
        format!("{} {}", variable_of(symbol).label(), amount.told(scene.system))
    };
    // The variable's own size first; its label stands before.
    if variable_of(*and_by) == rule.variable {
        return Ok(format!("{} on {}", second.told(scene.system), named(by, amount)));
    }
    Ok(format!("{}, {}", amount.told(scene.system), named(*and_by, second)))
}

type RowOf = (Interval, Option<crate::trade::Confidence>);

fn row_of(rule: &Rule, scene: Scene<'_>, by: Symbol, amount: Amount) -> Result<RowOf, Missing> {
    let RuleKind::Table { and_by, thicker_part_unlimited_from, rows, .. } = &rule.kind else {
        return Err(Missing::new(Whose::Pack, "a table"));
    };
    let number = amount.kind().answer_unit(scene.system).number(amount.canonical());
    let rows = rows.of(scene.system).map_or(&[][..], Vec::as_slice);
    let second = and_by.map(|symbol| size(symbol, scene)).transpose()?;
    let fits = |row: &&Row| {
        holds(row.band, number) && second.is_none_or(|(_, second)| holds(row.and_band, second))
    };
    let row = rows.iter().find(fits).ok_or_else(|| {
        let size = amount.told(scene.system);
        Missing::new(Whose::Pack, format!("{}: a limit for {by} = {size}", rule.clause))
    })?;
    let look_up = |symbol: Symbol| {
        if symbol == by { Ok(number) } else { size(symbol, scene).map(|(_, number)| number) }
    };
    let mut interval = ends_of(rule.variable, row, scene, look_up)?;
    interval.thicker_part_free =
        thicker_part_unlimited_from.is_some_and(|from| compare(number, from, 0.0).is_ge());
    Ok((interval, row.confidence))
}

fn ends_of(
    variable: QualifiedVariable,
    row: &Row,
    scene: Scene<'_>,
    look_up: impl Fn(Symbol) -> Result<f64, Missing>,
) -> Result<Interval, Missing> {
    let kind = variable
        .kind()
        .ok_or_else(|| Missing::new(Whose::Pack, format!("a unit of {variable}")))?;
    let unit = kind.answer_unit(scene.system);
    let bound = |number: f64, included: bool| {
        let canonical = number * unit.factor.0 / unit.factor.1;
        Amount::computed(kind, canonical).ok().map(|amount| Bound { amount, included })
    };
    let min = row.min.as_ref().map(|end| end.value(&look_up)).transpose()?;
    let max = row.max.as_ref().map(|end| end.value(&look_up)).transpose()?;
    let min = min.and_then(|number| bound(number, true));
    let max = max.and_then(|number| bound(number, row.max_included));
    Ok(interval(min, max, scene))
}

/// Whether a number lies in a band; an end within the crate's tolerance is the end itself.
fn holds(band: Band, number: f64) -> bool {
    let above = band.low.is_none_or(|(low, included)| {
        let order = compare(number, low, 0.0);
        order.is_gt() || included && order.is_eq()
    });
    let below = band.high.is_none_or(|(high, included)| {
        let order = compare(number, high, 0.0);
        order.is_lt() || included && order.is_eq()
    });
    above && below
}
