//! From a test piece to its range: one limit per rule, each with its clause and its working.

use super::{
    PersonKind, WelderPack, WelderTest, WelderVariable,
    pack::{JobWhen, Row, Rule, RuleKind, When},
};
use crate::{
    qualify::{Allowed, Bound, Interval, Missing, Symbol, Whose, pack::PerSystem, range::listed},
    quantity::{Amount, UnitSystem, compare},
    trade::{CodeEdition, Coded, Confidence},
};

/// One limit of a welder's range, with what it rests on.
#[derive(Debug, Clone, PartialEq)]
pub struct WelderLimit {
    /// Id of the rule.
    pub rule: String,
    /// Clause.
    pub clause: String,
    /// Variable.
    pub variable: WelderVariable,
    /// How well the rule was confirmed.
    pub confidence: Confidence,
    /// What it allows.
    pub allowed: Allowed,
    /// The working: "deposit-thickness 8 mm: 3 mm to 16 mm".
    pub working: String,
    /// What the rule adds in words.
    pub note: Option<String>,
    /// Facts of the record that decide whether the limit applies at all, and that it does not state.
    pub only_if: Vec<Missing>,
    pub(super) job: JobWhen,
}

/// What one test qualifies its welder for.
#[derive(Debug, Clone, PartialEq)]
pub struct WelderRange {
    /// Key of the pack.
    pub pack: String,
    /// Code and edition.
    pub code: CodeEdition,
    /// All of these limits at once.
    pub limits: Vec<WelderLimit>,
    pub(super) us_position_letters: bool,
    pub(super) system: UnitSystem,
}

impl WelderPack {
    /// The range that a test qualifies for.
    #[must_use]
    pub fn range(&self, test: &WelderTest) -> WelderRange {
        let limit = |rule: &Rule| {
            let only_if = applies(&rule.when, test)?;
            let allowed = if self.systems.contains(&test.system) {
                allowed(rule, test, self.person).unwrap_or_else(Allowed::Unknown)
            } else {
                let column = format!("a column of {} units", test.system.code());
                Allowed::Unknown(Missing::new(Whose::Pack, column))
            };
            let tested = tested(rule, test);
            let working = match tested.as_str() {
                "" => format!("{}: {allowed}", rule.variable),
                tested => format!("{} {tested}: {allowed}", rule.variable),
            };
            Some(WelderLimit {
                rule: rule.id.clone(),
                clause: rule.clause.clone(),
                variable: rule.variable,
                confidence: rule.confidence,
                allowed,
                working,
                note: rule.note.clone(),
                only_if,
                job: rule.when.job.clone(),
            })
        };
        WelderRange {
            pack: self.key.clone(),
            code: self.code.clone(),
            limits: self.rules.iter().filter_map(limit).collect(),
            us_position_letters: self.us_position_letters,
            system: test.system,
        }
    }
}

impl WelderLimit {
    /// What the limit is for, where it is not for every weld: "fillet; pipe; turned".
    #[must_use]
    pub fn only_for(&self) -> Option<String> {
        let job = &self.job;
        let mut all: Vec<_> = [listed(&job.welds), listed(&job.products), listed(&job.backings)]
            .into_iter()
            .filter(|words| !words.is_empty())
            .collect();
        if !job.positions.is_empty() {
            all.push(format!("in {}", listed(&job.positions)));
        }
        if !job.not_positions.is_empty() {
            all.push(format!("not in {}", listed(&job.not_positions)));
        }
        all.extend(job.rotating.map(|turned| if turned { "turned" } else { "fixed" }.to_owned()));
        if job.pipe_up_to.is_some() {
            all.push("small pipe".to_owned());
        }
        if job.not_pipe_up_to.is_some() {
            all.push("plate and large pipe".to_owned());
        }
        (!all.is_empty()).then(|| all.join("; "))
    }
}

/// Whether the rule is about a test like this: `None` where it is not, else the facts that it hangs on.
fn applies(when: &When, test: &WelderTest) -> Option<Vec<Missing>> {
    fn listed<T: Coded>(list: &[T], value: Option<T>, variable: WelderVariable) -> Applies {
        match value {
            _ if list.is_empty() => Applies::Yes,
            Some(value) if list.contains(&value) => Applies::Yes,
            Some(_) => Applies::No,
            None => Applies::If(variable),
        }
    }
    let position = if when.positions.is_empty() {
        Applies::Yes
    } else if test.positions.is_empty() {
        Applies::If(WelderVariable::Position)
    } else if test.positions.iter().any(|position| when.positions.contains(position)) {
        Applies::Yes
    } else {
        Applies::No
    };
    let up_to = |limit: &PerSystem<f64>| match size(Symbol::OutsideDiameter, test) {
        Err(_) => None,
        Ok((_, number)) => Some(compare(number, *limit.of(test.system)?, 0.0).is_le()),
    };
    let diameter = |limit: Option<&PerSystem<f64>>, wanted: bool| match limit.map(up_to) {
        None => Applies::Yes,
        Some(None) => Applies::If(WelderVariable::OutsideDiameter),
        Some(Some(fits)) if fits == wanted => Applies::Yes,
        Some(Some(_)) => Applies::No,
    };
    let all = [
        diameter(when.diameter_up_to.as_ref(), true),
        diameter(when.diameter_above.as_ref(), false),
        listed(&when.processes, Some(test.process), WelderVariable::Process),
        listed(&when.welds, test.weld, WelderVariable::Weld),
        listed(&when.products, test.product, WelderVariable::Product),
        listed(&when.transfers, test.transfer, WelderVariable::Transfer),
        listed(&when.mechanisations, test.mechanisation, WelderVariable::Mechanisation),
        position,
    ];
    let mut hangs_on = Vec::new();
    for one in all {
        match one {
            Applies::Yes => {}
            Applies::No => return None,
            Applies::If(variable) => {
                hangs_on.push(Missing::new(Whose::Record, variable.to_string()));
            }
        }
    }
    Some(hangs_on)
}

enum Applies {
    Yes,
    No,
    If(WelderVariable),
}

/// The tested value in words.
fn tested(rule: &Rule, test: &WelderTest) -> String {
    match &rule.kind {
        RuleKind::Table { by: Some(by), .. } => {
            let size = size(*by, test).ok();
            size.map(|(amount, _)| amount.told(test.system)).unwrap_or_default()
        }
        _ => test.words(rule.variable).join(" and "),
    }
}

fn allowed(rule: &Rule, test: &WelderTest, person: PersonKind) -> Result<Allowed, Missing> {
    let words = || {
        let words = test.words(rule.variable);
        let missing = || Missing::new(Whose::Record, rule.variable.to_string());
        if words.is_empty() { Err(missing()) } else { Ok(words) }
    };
    match &rule.kind {
        RuleKind::Same => words().map(Allowed::Words),
        RuleKind::OfPerson => {
            let degrees = person.mechanisations();
            if test.mechanisation.is_some_and(|tested| !degrees.contains(&tested)) {
                let what = format!("a test welded {}", listed(degrees));
                return Err(Missing::new(Whose::Record, what));
            }
            Ok(Allowed::Words(degrees.iter().map(|degree| degree.code().to_owned()).collect()))
        }
        RuleKind::Classes(classes) => {
            let tested = words()?;
            let same = classes.iter().find(|class| tested.iter().all(|one| class.contains(one)));
            Ok(Allowed::Words(same.cloned().unwrap_or(tested)))
        }
        RuleKind::Covers(covers) => {
            let tested = words()?;
            let of_test = |key: &&String| key.split('+').all(|one| tested.iter().any(|t| t == one));
            let mut covered: Vec<String> = Vec::new();
            for key in covers.keys().filter(of_test) {
                covered.extend(covers.get(key).into_iter().flatten().cloned());
            }
            covered.sort();
            covered.dedup();
            let missing = || {
                let what = format!("{}: what {} covers", rule.clause, tested.join(" and "));
                Missing::new(Whose::Pack, what)
            };
            if covered.is_empty() { Err(missing()) } else { Ok(Allowed::Words(covered)) }
        }
        RuleKind::Table { by, rows } => {
            let rows = rows.of(test.system).map_or(&[][..], Vec::as_slice);
            table(rule, *by, rows, test).map(Allowed::Interval)
        }
        RuleKind::NotHeld(why) => Err(Missing::new(Whose::Pack, why.clone())),
    }
}

const fn variable_of(symbol: Symbol) -> Option<WelderVariable> {
    match symbol {
        Symbol::ParentThickness => Some(WelderVariable::Thickness),
        Symbol::DepositThickness => Some(WelderVariable::Deposit),
        Symbol::OutsideDiameter => Some(WelderVariable::OutsideDiameter),
        Symbol::Throat | Symbol::JointAngle | Symbol::Leg => None,
    }
}

/// A tested size, and its number in the units of the certificate.
fn size(symbol: Symbol, test: &WelderTest) -> Result<(Amount, f64), Missing> {
    let variable = variable_of(symbol);
    let amount = variable.and_then(|variable| test.size(variable)).ok_or_else(|| {
        let what = variable.map_or_else(|| symbol.to_string(), |variable| variable.to_string());
        Missing::new(Whose::Record, what)
    })?;
    Ok((amount, amount.kind().answer_unit(test.system).number(amount.canonical())))
}

fn table(
    rule: &Rule,
    by: Option<Symbol>,
    rows: &[Row],
    test: &WelderTest,
) -> Result<Interval, Missing> {
    let row = match by {
        None => rows.first(),
        Some(by) => {
            let (_, number) = size(by, test)?;
            let mut found = None;
            for row in rows.iter().filter(|row| row.holds(number)) {
                if row.layers_fit(test.layer_count)? {
                    found = Some(row);
                    break;
                }
            }
            found
        }
    };
    let row = row.ok_or_else(|| {
        let size = by.and_then(|by| size(by, test).ok()).map(|(size, _)| size.told(test.system));
        let size = size.map(|size| format!(" for {size}")).unwrap_or_default();
        Missing::new(Whose::Pack, format!("{}: a row{size} with the layers welded", rule.clause))
    })?;
    let kind = rule.variable.kind();
    let kind = kind.ok_or_else(|| Missing::new(Whose::Pack, format!("a unit of {}", rule.id)))?;
    let unit = kind.answer_unit(test.system);
    let bound = |number: f64| {
        let canonical = number * unit.factor.0 / unit.factor.1;
        Amount::computed(kind, canonical).ok().map(|amount| Bound { amount, included: true })
    };
    let look_up = |symbol: Symbol| size(symbol, test).map(|(_, number)| number);
    let min = row.min.as_ref().map(|end| end.value(look_up)).transpose()?.and_then(bound);
    let max = row.max.as_ref().map(|end| end.value(look_up)).transpose()?.and_then(bound);
    Ok(Interval { min, max, system: test.system, thicker_part_free: false })
}

impl Row {
    /// Whether a tested size lies in the band; an end within the crate's tolerance is the end itself.
    fn holds(&self, number: f64) -> bool {
        let above = self.low.is_none_or(|(low, included)| {
            let order = compare(number, low, 0.0);
            order.is_gt() || included && order.is_eq()
        });
        let below = self.high.is_none_or(|(high, included)| {
            let order = compare(number, high, 0.0);
            order.is_lt() || included && order.is_eq()
        });
        above && below
    }

    fn layers_fit(&self, count: Option<u32>) -> Result<bool, Missing> {
        if self.layers_from.is_none() && self.layers_below.is_none() {
            return Ok(true);
        }
        let count = count.ok_or_else(|| Missing::new(Whose::Record, "the number of layers"))?;
        Ok(self.layers_from.is_none_or(|from| count >= from)
            && self.layers_below.is_none_or(|below| count < below))
    }
}
