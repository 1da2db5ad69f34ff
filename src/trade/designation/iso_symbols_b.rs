//! Symbols that the B systems of ISO 2560, 636, 14341, 17632 and 18276 share: tensile strength and
//! 27 J. Most of them are from memory.

use super::cursor::Cursor;
use super::facts::{Facts, Impact, Strength, System};
use super::{AlloyFamily, DesignationError, WeldCondition};

/// Said wherever symbols of a B system were read.
pub(super) const FROM_MEMORY: &str = "symbols of the B system are from memory";

/// Said of U where the temperature stands in front of it.
const ALSO_47: &str = "U: 47 J are also reached at the temperature of the 27 J";

/// A tenth of the least tensile strength in MPa.
pub(super) const STRENGTHS: &[(&str, i64)] = &[("43", 430), ("49", 490), ("55", 550), ("57", 570)];

/// The same for high-strength tubular wires.
pub(super) const HIGH_STRENGTHS: &[(&str, i64)] =
    &[("59", 590), ("62", 620), ("69", 690), ("76", 760), ("78", 780), ("83", 830)];

/// The strength symbol.
pub(super) fn strength(
    cursor: &mut Cursor<'_>,
    symbols: &[(&str, i64)],
) -> Result<Strength, DesignationError> {
    cursor.skip_blanks();
    let tensile = cursor.need(symbols, "the strength symbol")?;
    Ok(Strength { tensile: System::Si.at_least(tensile), yield_strength: None })
}

const CONDITIONS: &[(&str, WeldCondition)] = &[
    ("A", WeldCondition::AsWelded),
    ("P", WeldCondition::HeatTreated),
    ("AP", WeldCondition::Both),
];

/// The condition of the weld metal: A, P or both.
pub(super) fn condition(cursor: &mut Cursor<'_>) -> Result<WeldCondition, DesignationError> {
    cursor.skip_blanks();
    cursor.need(CONDITIONS, "the condition of the weld metal")
}

/// Test temperature of 27 J in °C; `None` for no requirement.
const IMPACTS: &[(&str, Option<i64>)] = &[
    ("Z", None),
    ("Y", Some(20)),
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

/// The impact symbol: 27 J.
pub(super) fn impact(cursor: &mut Cursor<'_>) -> Result<Impact, DesignationError> {
    cursor.skip_blanks();
    let celsius = cursor.need(IMPACTS, "the impact symbol")?;
    Ok(celsius.map_or(Impact::NotRequired, |celsius| System::Si.impact(27, (0, celsius))))
}

/// `U`, which may be missing: 47 J as well (ISO 636, clause 3B).
pub(super) fn also_47_joules(cursor: &mut Cursor<'_>, facts: &mut Facts) {
    facts.notes.extend(cursor.suffix(&[("U", ())]).map(|()| ALSO_47));
}

/// Reads a symbol of letters and digits into the facts, with the steel its letters name.
pub(super) fn alloy(cursor: &mut Cursor<'_>, facts: &mut Facts) -> Result<(), DesignationError> {
    let start = *cursor;
    cursor.skip_while(|c| c.is_ascii_alphanumeric());
    let symbol = cursor.since(&start);
    if symbol.is_empty() {
        return Err(cursor.wrong("the alloy symbol"));
    }
    state(facts, symbol, symbol);
    Ok(())
}

/// Reads the symbol of a wire into the facts: one of the letters, then digits and alloy letters.
pub(super) fn wire(
    cursor: &mut Cursor<'_>,
    letters: &[(&str, ())],
    facts: &mut Facts,
) -> Result<(), DesignationError> {
    cursor.skip_blanks();
    let start = *cursor;
    cursor.need(letters, "the wire symbol, as S6")?;
    let behind = *cursor;
    cursor.skip_while(|c| c.is_ascii_alphanumeric());
    let alloy = cursor.since(&behind);
    if alloy.is_empty() {
        return Err(cursor.wrong("the number or the alloy of the wire"));
    }
    state(facts, cursor.since(&start), alloy);
    Ok(())
}

/// Digits alone: unalloyed; N nickel and M molybdenum: low-alloy; C without N chromium. Anything
/// else, among it G and Z for an agreed composition, is unknown.
fn state(facts: &mut Facts, symbol: &str, alloy: &str) {
    let upper = alloy.to_ascii_uppercase();
    let known = upper.chars().all(|c| c.is_ascii_digit() || matches!(c, 'N' | 'M' | 'C'));
    facts.composition = Some(symbol.to_owned());
    facts.family = match (known, upper.contains('N'), upper.contains('C'), upper.contains('M')) {
        (false, ..) => None,
        (true, false, true, _) => Some(AlloyFamily::ChromiumMolybdenum),
        (true, false, false, false) => Some(AlloyFamily::Unalloyed),
        (true, ..) => Some(AlloyFamily::LowAlloy),
    };
}
