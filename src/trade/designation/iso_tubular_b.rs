//! What the B systems of tubular wires, ISO 17632 and ISO 18276, share: `T 49 4 T5-1 C A U H5`.

use super::cursor::Cursor;
use super::facts::{Facts, FillerKind};
use super::flux_cored_usage as flux_cored;
use super::{AlloyFamily, DesignationError};
use super::{iso_symbols as iso, iso_symbols_b as iso_b};

const CODES: &[&str] =
    &["1", "2", "3", "4", "5", "6", "7", "8", "9", "10", "11", "12", "13", "14", "15", "G"];

/// `T` strength impact, `T` usability `-` position, gas, condition, `-` alloy, `U`, `H`; alloy, `U`
/// and `H` may be missing. All from memory; the usability codes mirror those of AWS A5.20.
pub(super) fn parse(
    cursor: &mut Cursor<'_>,
    strengths: &[(&str, i64)],
) -> Result<Facts, DesignationError> {
    cursor.need_word("T", "T for a tubular wire")?;
    let mut facts = Facts::unstated(FillerKind::TubularWire, &[]);
    facts.notes.push(iso_b::FROM_MEMORY);
    facts.strength = iso_b::strength(cursor, strengths)?;
    facts.impact = iso_b::impact(cursor)?;
    cursor.skip_blanks();
    cursor.need_word("T", "T and the usability code, as T5-1")?;
    let coded = flux_cored::read(cursor, CODES)?;
    cursor.need_word("-", "the hyphen before the position digit")?;
    let at_position = *cursor;
    let all_positions = cursor.need(&[("0", false), ("1", true)], "the position digit")?;
    facts.usability = Some(coded.positions(all_positions, &at_position)?);
    facts.polarity = coded.polarity(all_positions);
    facts.single_pass_only = Some(coded.usage.single_pass);
    facts.usability_code = Some(coded.code);
    cursor.skip_blanks();
    let at_gas = *cursor;
    facts.gas = iso::gas(cursor)?;
    coded.check_gas(facts.gas, &at_gas)?;
    (facts.kind, facts.processes) = coded.kind(facts.gas);
    facts.condition = Some(iso_b::condition(cursor)?);
    facts.family = Some(AlloyFamily::Unalloyed);
    if cursor.take("-") {
        iso_b::alloy(cursor, &mut facts)?;
    }
    iso_b::also_47_joules(cursor, &mut facts);
    facts.hydrogen = iso::hydrogen(cursor);
    cursor.end("an alloy behind a hyphen, U, H5, H10, H15, or the end of the designation")?;
    Ok(facts)
}
