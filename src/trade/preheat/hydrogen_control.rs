//! Minimum preheat by hydrogen control, the alternative method of the AWS D1.1 annex.

use super::{HydrogenLevel, PreheatError, hydrogen_control_table::cell};
use crate::{
    quantity::{
        HydrogenContent, Pcm, Quantity, QuantityError, SusceptibilityIndex, Temperature, Thickness,
        UnitSystem,
    },
    trade::{SteelFamily, coded, formula, rounding::up_to_step, scope::positive},
};

formula! {
    /// Index of susceptibility to hydrogen cracking.
    pub const SUSCEPTIBILITY_INDEX {
        name: "susceptibility-index",
        equation: "SI = 12*Pcm + log10(H); Pcm in %, H in mL/100 g, taken as 5, 10 or 30 by level",
        source: "AWS D1.1, annex on alternative methods for preheat (Annex XI to 2006, I to 2010, H in \
                 2015, B in 2020); from memory",
        validity: "Pcm below 0.38 %; index up to 7.0, rounded up to one decimal for its group",
        confidence: Memory,
    }
}

formula! {
    /// Minimum preheat by hydrogen control.
    pub const HYDROGEN_CONTROL {
        name: "preheat-hydrogen-control",
        equation: "group A to G from Pcm and hydrogen level (printed table) or from the index; then \
                   table of restraint, thickness and group",
        source: "AWS D1.1, same annex; the whole table is from memory, one cell was seen in a worked \
                 example (high restraint, 2 in, D: 300 °F)",
        validity: "the columns of one system of units, never converted; restraint is the engineer's judgement; where both this and the \
                   prequalified table give less, tests have to show that it is enough",
        confidence: Memory,
    }
}

coded! {
    /// Group of susceptibility.
    pub enum SusceptibilityGroup: "susceptibility group" {
        /// Index up to 3.0.
        A = "A",
        /// Up to 3.5.
        B = "B",
        /// Up to 4.0.
        C = "C",
        /// Up to 4.5.
        D = "D",
        /// Up to 5.0.
        E = "E",
        /// Up to 5.5.
        F = "F",
        /// Up to 7.0.
        G = "G",
    }
}

coded! {
    /// How the group is found. Both are offered because they differ: at the top of a Pcm column of
    /// extra-low hydrogen the index lies a group above the printed letter.
    pub enum SusceptibilityPath: "path to the susceptibility group" {
        /// Letter of the printed table.
        PrintedTable = "printed-table",
        /// From the calculated index.
        CalculatedIndex = "calculated-index",
    }
}

coded! {
    /// Restraint of the joint.
    pub enum Restraint: "restraint" {
        /// Parts free to move.
        Low = "low",
        /// Parts already fixed, but with freedom left.
        Medium = "medium",
        /// Hardly any freedom: repairs, thick parts.
        High = "high",
    }
}

/// Inputs of the method.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HydrogenControl {
    /// What the metal is.
    pub metal: SteelFamily,
    /// Carbon equivalent; the high bound where it is not exact.
    pub pcm: Pcm,
    /// Hydrogen level of the consumable.
    pub level: HydrogenLevel,
    /// Restraint.
    pub restraint: Restraint,
    /// Thickness of the thicker part.
    pub thickness: Thickness,
    /// How the group is found.
    pub path: SusceptibilityPath,
    /// Columns the code is applied in: mm and °C, or in and °F.
    pub columns: UnitSystem,
}

/// Minimum preheat and interpass temperature.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HydrogenControlPreheat {
    /// The index.
    pub index: SusceptibilityIndex,
    /// The group, by the path asked for.
    pub group: SusceptibilityGroup,
    /// Minimum temperature of the table.
    pub minimum: Temperature,
    /// The table prints "below" this temperature: less may do, shown by test or by another method.
    pub less_may_do: bool,
}

/// Upper ends of Pcm of the printed columns, not included, and the group of the extra-low level;
/// each worse level is one group on.
const COLUMNS: [f64; 5] = [0.18, 0.23, 0.28, 0.33, 0.38];
/// Groups in order, with the highest index of each.
const GROUPS: [(SusceptibilityGroup, f64); 7] = [
    (SusceptibilityGroup::A, 3.0),
    (SusceptibilityGroup::B, 3.5),
    (SusceptibilityGroup::C, 4.0),
    (SusceptibilityGroup::D, 4.5),
    (SusceptibilityGroup::E, 5.0),
    (SusceptibilityGroup::F, 5.5),
    (SusceptibilityGroup::G, 7.0),
];

/// Index of susceptibility, [`SUSCEPTIBILITY_INDEX`].
///
/// # Errors
/// [`PreheatError::OutOfRange`] for Pcm or hydrogen not above zero.
pub fn susceptibility_index(
    pcm: Pcm,
    hydrogen: HydrogenContent,
) -> Result<SusceptibilityIndex, PreheatError> {
    positive(pcm)?;
    positive(hydrogen)?;
    let index = 12.0 * pcm.percent() + hydrogen.ml_per_100g().log10();
    Ok(SusceptibilityIndex::computed(index)?)
}

impl SusceptibilityGroup {
    /// The group of an index, rounded up to one decimal (the printed bands leave gaps).
    ///
    /// # Errors
    /// [`PreheatError::NoGroup`] above 7.0.
    pub fn of_index(index: SusceptibilityIndex) -> Result<Self, PreheatError> {
        let tenths = up_to_step(index.number(), 0.1);
        let rounded = SusceptibilityIndex::computed(tenths)?;
        for (group, highest) in GROUPS {
            if rounded.at_most(SusceptibilityIndex::computed(highest)?) {
                return Ok(group);
            }
        }
        Err(PreheatError::NoGroup)
    }

    /// The letter of the printed table; Pcm at the end of a column belongs to the next.
    ///
    /// # Errors
    /// [`PreheatError::NoGroup`] for Pcm of 0.38 % or more.
    pub fn by_table(pcm: Pcm, level: HydrogenLevel) -> Result<Self, PreheatError> {
        for (column, end) in COLUMNS.iter().enumerate() {
            if !pcm.at_least(Pcm::computed(*end)?) {
                return Ok(GROUPS[column + level as usize].0);
            }
        }
        Err(PreheatError::NoGroup)
    }
}

/// Minimum preheat, [`HYDROGEN_CONTROL`].
///
/// # Errors
/// [`PreheatError::Metal`], [`PreheatError::OutOfRange`] and [`PreheatError::NoGroup`] outside the
/// method's validity.
pub fn hydrogen_control_preheat(
    case: &HydrogenControl,
) -> Result<HydrogenControlPreheat, PreheatError> {
    case.metal.low_alloy_only()?;
    positive(case.thickness)?;
    let index = susceptibility_index(case.pcm, case.level.index_content()?)?;
    let by_table = SusceptibilityGroup::by_table(case.pcm, case.level)?;
    let group = match case.path {
        SusceptibilityPath::PrintedTable => by_table,
        SusceptibilityPath::CalculatedIndex => SusceptibilityGroup::of_index(index)?,
    };
    let row = row(case.thickness, case.columns)?;
    let (degrees, less_may_do) = cell(case.columns, case.restraint, row, group);
    let minimum: Temperature = Quantity::entered(degrees.into(), unit(case.columns).1)?;
    Ok(HydrogenControlPreheat { index, group, minimum, less_may_do })
}

/// Row of a thickness: below the first end, up to the others, above the last.
fn row(thickness: Thickness, columns: UnitSystem) -> Result<usize, QuantityError> {
    let ends = match columns {
        UnitSystem::Metric => ["10", "20", "38", "75"],
        UnitSystem::Us => ["0.375", "0.75", "1.5", "3"],
    };
    for (row, end) in ends.into_iter().enumerate() {
        let end: Thickness = format!("{end} {}", unit(columns).0).parse()?;
        let below = !thickness.at_least(end);
        if below || (row > 0 && thickness.at_most(end)) {
            return Ok(row);
        }
    }
    Ok(ends.len())
}

/// Units of length and temperature of the columns.
const fn unit(columns: UnitSystem) -> (&'static str, &'static str) {
    match columns {
        UnitSystem::Metric => ("mm", "°C"),
        UnitSystem::Us => ("in", "°F"),
    }
}
