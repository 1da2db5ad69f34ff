//! Symbols that the A systems of ISO 2560, 14341 and 17632 share.

use crate::quantity::HydrogenContent;
use crate::trade::{Coded, GasGroup};

use super::cursor::Cursor;
use super::facts::{self, Facts, Impact, Strength, System};
use super::usability::{ALL, ALL_UP, FLAT, FLAT_AND_HORIZONTAL_FILLET, FLAT_HORIZONTAL_AND_DOWN};
use super::{AlloyFamily, DesignationError, GasRequirement, Usability};

/// Said wherever a position digit was read.
pub(super) const POSITIONS_FROM_MEMORY: &str =
    "ISO 6947 symbols for the position digit are from memory";

/// Yield, least and greatest tensile strength in MPa.
const STRENGTHS: &[(&str, (i64, i64, i64))] = &[
    ("35", (355, 440, 570)),
    ("38", (380, 470, 600)),
    ("42", (420, 500, 640)),
    ("46", (460, 530, 680)),
    ("50", (500, 560, 720)),
];

/// Whether a strength symbol stands here.
pub(super) fn strength_follows(cursor: &Cursor<'_>) -> bool {
    let mut ahead = *cursor;
    ahead.symbol(STRENGTHS).is_some()
}

/// The strength symbol of multi-run weld metal.
///
/// # Source
/// Table of the A systems of ISO 2560, 14341 and 17632, as one-page guides print it.
pub(super) fn strength(cursor: &mut Cursor<'_>) -> Result<Strength, DesignationError> {
    cursor.skip_blanks();
    let (yield_mpa, low, high) = cursor.need(STRENGTHS, "the strength symbol")?;
    Ok(Strength {
        tensile: System::Si.between(low, high),
        yield_strength: System::Si.at_least(yield_mpa),
    })
}

/// Test temperature of 47 J in °C; `None` for no requirement.
const IMPACTS: &[(&str, Option<i64>)] = &[
    ("Z", None),
    ("A", Some(20)),
    ("0", Some(0)),
    ("2", Some(-20)),
    ("3", Some(-30)),
    ("4", Some(-40)),
    ("5", Some(-50)),
    ("6", Some(-60)),
    ("7", Some(-70)),
    ("8", Some(-80)),
    ("9", Some(-90)),
    ("10", Some(-100)),
];

/// The impact symbol: 47 J as the mean of three. There is no 1.
pub(super) fn impact(cursor: &mut Cursor<'_>) -> Result<Impact, DesignationError> {
    cursor.skip_blanks();
    let celsius = cursor.need(IMPACTS, "the impact symbol")?;
    // The SI column is the only one of the A systems.
    Ok(celsius.map_or(Impact::NotRequired, |celsius| System::Si.impact(47, (0, celsius))))
}

/// The gas symbol: a sub-group of ISO 14175. From memory: `NO` for none, and of older editions
/// `M`, `C` and `N`.
pub(super) fn gas(cursor: &mut Cursor<'_>) -> Result<GasRequirement, DesignationError> {
    cursor.skip_blanks();
    let mut symbols: Vec<_> =
        GasGroup::ALL.iter().map(|(group, code)| (*code, GasRequirement::Group(*group))).collect();
    symbols.extend([
        ("NO", GasRequirement::SelfShielded),
        ("N", GasRequirement::SelfShielded),
        ("M", GasRequirement::AnyM2WithoutHelium),
        ("C", GasRequirement::Co2),
    ]);
    cursor
        .symbol(&symbols)
        .ok_or_else(|| cursor.wrong("the gas symbol (a group of ISO 14175 as M21, NO, M, C, N)"))
}

/// What is from memory of a gas that [`gas`] read.
pub(super) const fn gas_note(gas: GasRequirement) -> Option<&'static str> {
    match gas {
        GasRequirement::AnyM2WithoutHelium => {
            Some("gas letter M as any M2 gas without helium is from memory")
        }
        GasRequirement::Co2 => Some("gas letter C as CO2 is from memory"),
        GasRequirement::SelfShielded => Some("gas letters N and NO as no gas are from memory"),
        _ => None,
    }
}

/// Digits for the welding position: 1 all; 2 all but vertical down; 3 flat butt, flat and
/// horizontal fillet; 4 flat; 5 vertical down and those of 3. Their ISO 6947 symbols are from
/// memory.
pub(super) const POSITIONS: &[(&str, Usability)] = &[
    ("1", ALL),
    ("2", ALL_UP),
    ("3", FLAT_AND_HORIZONTAL_FILLET),
    ("4", FLAT),
    ("5", FLAT_HORIZONTAL_AND_DOWN),
];

/// The position digit, which may be missing.
pub(super) fn position(cursor: &mut Cursor<'_>, facts: &mut Facts) {
    cursor.skip_blanks();
    facts.usability = cursor.symbol(POSITIONS);
    facts.notes.extend(facts.usability.map(|_| POSITIONS_FROM_MEMORY));
}

/// The composition symbol as typed and the steel it stands for; none for unalloyed weld metal.
pub(super) fn composition(
    cursor: &mut Cursor<'_>,
    symbols: &[(&str, Option<AlloyFamily>)],
) -> (Option<String>, Option<AlloyFamily>) {
    cursor.skip_blanks();
    let start = *cursor;
    match cursor.symbol(symbols) {
        Some(family) => (Some(cursor.since(&start).to_owned()), family),
        None => (None, Some(AlloyFamily::Unalloyed)),
    }
}

/// The hydrogen symbol, in mL per 100 g.
pub(super) fn hydrogen(cursor: &mut Cursor<'_>) -> Option<HydrogenContent> {
    cursor.suffix(&[("H5", 5), ("H10", 10), ("H15", 15)]).and_then(facts::hydrogen)
}
