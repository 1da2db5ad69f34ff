//! ISO 14341-B, solid wires by tensile strength and 27 J: `G 49A 3 C1 S6`.

use crate::trade::Process;

use super::cursor::Cursor;
use super::facts::{Facts, FillerKind};
use super::{DesignationError, GasRequirement};
use super::{iso_symbols as iso, iso_symbols_b as iso_b};

/// `G` strength condition, impact `U`, gas, wire; `U` may be missing. All from memory.
pub(super) fn parse(cursor: &mut Cursor<'_>) -> Result<Facts, DesignationError> {
    cursor.need_word("G", "G for a gas-shielded wire")?;
    let mut facts = Facts::unstated(FillerKind::SolidWire, &[Process::MagSolidWire]);
    facts.notes.push(iso_b::FROM_MEMORY);
    facts.single_pass_only = Some(false);
    facts.strength = iso_b::strength(cursor, iso_b::STRENGTHS)?;
    facts.condition = Some(iso_b::condition(cursor)?);
    facts.impact = iso_b::impact(cursor)?;
    iso_b::also_47_joules(cursor, &mut facts);
    cursor.skip_blanks();
    let at_gas = *cursor;
    facts.gas = iso::gas(cursor)?;
    match facts.gas {
        GasRequirement::SelfShielded => {
            return Err(at_gas.wrong("a shielding gas, as a solid wire needs one"));
        }
        gas if gas.is_inert() => {
            facts.processes = &[Process::MigSolidWire];
        }
        _ => {}
    }
    iso_b::wire(cursor, &[("S", ())], &mut facts)?;
    cursor.end("the end of the designation")?;
    Ok(facts)
}

#[cfg(test)]
mod tests {
    use crate::trade::designation::tests::{alloy, notes, read, refused};

    /// From memory.
    #[test]
    fn designations_are_decoded() {
        for (text, expected, alloyed) in [
            ("G 49A 3 C1 S6", "490 MPa up; -; 27 J at -30 °C; -; C1", "S6; unalloyed; as-welded"),
            ("G 49A 2 C1 S3", "490 MPa up; -; 27 J at -20 °C; -; C1", "S3; unalloyed; as-welded"),
            (
                "G 55A 4 M21 S4M31",
                "550 MPa up; -; 27 J at -40 °C; -; M21",
                "S4M31; low-alloy; as-welded",
            ),
            (
                "G 49A 6 M21 SN2",
                "490 MPa up; -; 27 J at -60 °C; -; M21",
                "SN2; low-alloy; as-welded",
            ),
            (
                "G 57P 3 M21 S3M1",
                "570 MPa up; -; 27 J at -30 °C; -; M21",
                "S3M1; low-alloy; post-weld-heat-treated",
            ),
            (
                "G 43AP Y C1 SG",
                "430 MPa up; -; 27 J at 20 °C; -; C1",
                "SG; -; as-welded-and-post-weld-heat-treated",
            ),
        ] {
            assert_eq!(
                read(text),
                format!("solid-wire; {expected}; -; -; multiple; 135"),
                "{text}"
            );
            assert_eq!(alloy(text), alloyed, "{text}");
            assert!(notes(text).iter().any(|note| note.contains("from memory")), "{text}");
        }
        assert!(notes("G 49A 3U C1 S6").iter().any(|note| note.starts_with("U: 47 J")));
        assert_eq!(read("G 49A 3 U C1 S6"), read("G 49A 3 C1 S6"));
        assert!(read("G 49A Z I1 S6").contains("; no impact; -; I1; "));
        assert!(read("G 49A Z I1 S6").ends_with("; 131"));
    }

    #[test]
    fn refusals_say_where() {
        refused("G 49 3 C1 S6", 5, "3", "condition of the weld metal");
        refused("G 49A 1 C1 S6", 6, "1", "impact symbol");
        refused("G 49A 3 S6", 8, "S6", "gas symbol");
        refused("G 49A 3 NO S6", 8, "NO", "a shielding gas");
        refused("G 49A 3 C1 3Si1", 11, "3Si1", "wire symbol");
        refused("G 49A 3 C1 S", 12, "end of text", "number or the alloy");
        refused("G 49A 3 C1 S6 H5", 14, "H5", "the end");
    }
}
