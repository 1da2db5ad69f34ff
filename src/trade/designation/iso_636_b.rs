//! ISO 636-B, wires and rods for TIG by tensile strength and 27 J: `W 49A 3 S6`.

use crate::trade::Process;

use super::cursor::Cursor;
use super::facts::{Facts, FillerKind};
use super::{DesignationError, iso_symbols_b as iso_b};

/// `W` strength condition, impact `U`, wire; `U` may be missing (ISO 636, clause 3B). The values
/// are from memory, and whether a wire symbol starts with S or W too: both are read.
pub(super) fn parse(cursor: &mut Cursor<'_>) -> Result<Facts, DesignationError> {
    cursor.need_word("W", "W for a wire or rod for TIG")?;
    let mut facts = Facts::unstated(FillerKind::SolidWire, &[Process::TigSolidFiller]);
    facts.notes.push(iso_b::FROM_MEMORY);
    facts.single_pass_only = Some(false);
    facts.strength = iso_b::strength(cursor, iso_b::STRENGTHS)?;
    facts.condition = Some(iso_b::condition(cursor)?);
    facts.impact = iso_b::impact(cursor)?;
    iso_b::also_47_joules(cursor, &mut facts);
    iso_b::wire(cursor, &[("S", ()), ("W", ())], &mut facts)?;
    cursor.end("the end of the designation")?;
    Ok(facts)
}

#[cfg(test)]
mod tests {
    use crate::trade::designation::tests::{alloy, notes, read, refused};

    /// ISO 636, clause 3B, for the four parts and U; values from memory.
    #[test]
    fn designations_are_decoded() {
        let rest = "-; -; -; -; multiple; 141";
        for (text, expected, alloyed) in [
            ("W 49A 3 S6", "490 MPa up; -; 27 J at -30 °C", "S6; unalloyed; as-welded"),
            ("W 49A 3U S6", "490 MPa up; -; 27 J at -30 °C", "S6; unalloyed; as-welded"),
            (
                "W 55P 6 WN2",
                "550 MPa up; -; 27 J at -60 °C",
                "WN2; low-alloy; post-weld-heat-treated",
            ),
        ] {
            assert_eq!(read(text), format!("solid-wire; {expected}; {rest}"), "{text}");
            assert_eq!(alloy(text), alloyed, "{text}");
            assert!(notes(text).iter().any(|note| note.contains("from memory")), "{text}");
        }
        assert!(notes("W 49A 3U S6").iter().any(|note| note.starts_with("U: 47 J")));
    }

    #[test]
    fn refusals_say_where() {
        refused("W 49 3 S6", 5, "3", "condition of the weld metal");
        refused("W 49A 3 3Si1", 8, "3Si1", "wire symbol");
        refused("W 49A 3 S6 X", 11, "X", "the end");
        refused("ISO 636-B W 46 3 3Si1", 12, "46", "strength symbol");
    }
}
