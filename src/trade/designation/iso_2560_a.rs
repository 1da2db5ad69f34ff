//! ISO 2560-A, covered electrodes by yield strength and 47 J: `E 46 3 1Ni B 5 4 H5`.

use crate::trade::Process;

use super::cursor::Cursor;
use super::facts::{Facts, FillerKind, PolarityRule};
use super::iso_symbols as iso;
use super::{DesignationError, GasRequirement, Usability};

const COMPOSITIONS: &[(&str, ())] = &[
    ("Mo", ()),
    ("MnMo", ()),
    ("1Ni", ()),
    ("2Ni", ()),
    ("3Ni", ()),
    ("Mn1Ni", ()),
    ("1NiMo", ()),
    ("Z", ()),
];

const COVERINGS: &[(&str, ())] =
    &[("A", ()), ("B", ()), ("C", ()), ("R", ()), ("RR", ()), ("RC", ()), ("RA", ()), ("RB", ())];

/// Recovery and current: odd digits alternating and direct current, even digits direct current.
const CURRENTS: &[(&str, PolarityRule)] = &[
    ("1", PolarityRule::AcOrDc),
    ("2", PolarityRule::DcOnly),
    ("3", PolarityRule::AcOrDc),
    ("4", PolarityRule::DcOnly),
    ("5", PolarityRule::AcOrDc),
    ("6", PolarityRule::DcOnly),
    ("7", PolarityRule::AcOrDc),
    ("8", PolarityRule::DcOnly),
];

/// `E` strength impact composition covering current position `H`; composition, the two digits
/// and hydrogen may be missing.
pub(super) fn parse(cursor: &mut Cursor<'_>) -> Result<Facts, DesignationError> {
    cursor.need_word("E", "E for a covered electrode")?;
    let strength = iso::strength(cursor)?;
    let impact = iso::impact(cursor)?;
    cursor.skip_blanks();
    let _ = cursor.symbol(COMPOSITIONS);
    cursor.skip_blanks();
    cursor.need(COVERINGS, "the covering symbol")?;
    let digits = current_and_position(cursor)?;
    let hydrogen = iso::hydrogen(cursor);
    cursor.end("digits for current and position, H5, H10, H15, or the end of the designation")?;
    Ok(Facts {
        kind: FillerKind::CoveredElectrode,
        strength,
        impact,
        usability: digits.map(|(_, usability)| usability),
        gas: GasRequirement::SelfShielded,
        polarity: digits.map_or(PolarityRule::NotStated, |(current, _)| current),
        hydrogen,
        single_pass_only: Some(false),
        processes: &[Process::ManualMetalArc],
        notes: digits.map(|_| iso::POSITIONS_FROM_MEMORY).into_iter().collect(),
    })
}

/// Both digits or none: one alone could mean either.
fn current_and_position(
    cursor: &mut Cursor<'_>,
) -> Result<Option<(PolarityRule, Usability)>, DesignationError> {
    cursor.skip_blanks();
    let Some(current) = cursor.symbol(CURRENTS) else { return Ok(None) };
    cursor.skip_blanks();
    let position = cursor.need(iso::POSITIONS, "the position digit behind the current digit")?;
    Ok(Some((current, position)))
}
