//! ISO 636-A, wires and rods for TIG by yield strength and 47 J: `W 46 3 W3Si1`, or alone:
//! `W 3Si1`.

use crate::trade::Process;

use super::cursor::Cursor;
use super::facts::{Facts, FillerKind};
use super::iso_14341_a::WIRES;
use super::{DesignationError, iso_symbols as iso};

/// `W` strength impact wire, or `W` wire (ISO 636:2004, clause 3A). The wires are those of ISO
/// 14341-A, from memory.
pub(super) fn parse(cursor: &mut Cursor<'_>) -> Result<Facts, DesignationError> {
    cursor.need_word("W", "W for a wire or rod for TIG")?;
    cursor.skip_blanks();
    let mut facts = Facts::unstated(FillerKind::SolidWire, &[Process::TigSolidFiller]);
    if iso::strength_follows(cursor) {
        facts.strength = iso::strength(cursor)?;
        facts.impact = iso::impact(cursor)?;
        facts.single_pass_only = Some(false);
        cursor.skip_blanks();
        // The deposit form may repeat the letter: `W 46 3 W3Si1`.
        cursor.take("W");
    }
    let start = *cursor;
    facts.family = cursor.need(WIRES, "the wire symbol")?;
    facts.composition = Some(cursor.since(&start).to_owned());
    facts.notes.push("that the wire symbols are those of ISO 14341-A is from memory");
    cursor.end("the end of the designation")?;
    Ok(facts)
}

#[cfg(test)]
mod tests {
    use crate::trade::designation::tests::{alloy, notes, read, refused};

    /// ISO 636, clause 3A, for the four parts; strength and impact as the table that the A systems
    /// share, in a one-page guide; wire symbols from memory.
    #[test]
    fn designations_are_decoded() {
        for (text, expected, alloyed) in [
            (
                "W 46 3 W3Si1",
                "530 MPa to 680 MPa; 460 MPa up; 47 J at -30 °C; -; -; -; -; multiple",
                "3Si1; unalloyed; -",
            ),
            (
                "W 42 5 3Si1",
                "500 MPa to 640 MPa; 420 MPa up; 47 J at -50 °C; -; -; -; -; multiple",
                "3Si1; unalloyed; -",
            ),
            (
                "W 46 6 2Ni2",
                "530 MPa to 680 MPa; 460 MPa up; 47 J at -60 °C; -; -; -; -; multiple",
                "2Ni2; low-alloy; -",
            ),
            ("W 3Si1", "-; -; -; -; -; -; -; -", "3Si1; unalloyed; -"),
            ("W3Si1", "-; -; -; -; -; -; -; -", "3Si1; unalloyed; -"),
            ("W 2Mo", "-; -; -; -; -; -; -; -", "2Mo; low-alloy; -"),
        ] {
            assert_eq!(read(text), format!("solid-wire; {expected}; 141"), "{text}");
            assert_eq!(alloy(text), alloyed, "{text}");
            assert!(notes(text).iter().any(|note| note.contains("from memory")), "{text}");
        }
    }

    #[test]
    fn refusals_say_where() {
        refused("W 46 1 3Si1", 5, "1", "impact symbol");
        refused("W 46 3 9Si", 7, "9Si", "wire symbol");
        refused("W 46 3", 6, "end of text", "wire symbol");
        refused("W 46 3 M21 3Si1", 7, "M21", "wire symbol");
        refused("W 3Si1 H5", 7, "H5", "the end");
    }
}
