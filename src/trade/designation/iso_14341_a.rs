//! ISO 14341-A, solid wires by yield strength and 47 J: `G 42 4 M21 3Si1`, or the wire alone:
//! `G 3Si1`.

use crate::trade::Process;

use super::cursor::Cursor;
use super::facts::{Facts, FillerKind};
use super::iso_symbols as iso;
use super::{AlloyFamily, DesignationError, GasRequirement};

/// Wire compositions and their steel; from memory behind 2Ti. 0 and Z are agreed ones.
pub(super) const WIRES: &[(&str, Option<AlloyFamily>)] = {
    const UNALLOYED: Option<AlloyFamily> = Some(AlloyFamily::Unalloyed);
    const LOW_ALLOY: Option<AlloyFamily> = Some(AlloyFamily::LowAlloy);
    &[
        ("0", None),
        ("2Si", UNALLOYED),
        ("3Si1", UNALLOYED),
        ("3Si2", UNALLOYED),
        ("4Si1", UNALLOYED),
        ("2Ti", UNALLOYED),
        ("2Al", UNALLOYED),
        ("3Ni1", LOW_ALLOY),
        ("2Ni2", LOW_ALLOY),
        ("2Mo", LOW_ALLOY),
        ("4Mo", LOW_ALLOY),
        ("Z", None),
    ]
};

/// `G` strength impact gas wire, or `G` wire.
pub(super) fn parse(cursor: &mut Cursor<'_>) -> Result<Facts, DesignationError> {
    cursor.need_word("G", "G for a gas-shielded wire")?;
    cursor.skip_blanks();
    let processes = &[Process::MigSolidWire, Process::MagSolidWire];
    let mut facts = Facts::unstated(FillerKind::SolidWire, processes);
    if iso::strength_follows(cursor) {
        deposit(cursor, &mut facts)?;
    }
    cursor.skip_blanks();
    // The deposit form may repeat the letter: `G 46 5 M G3Si1`.
    cursor.take("G");
    let start = *cursor;
    facts.family = cursor.need(WIRES, "the wire symbol")?;
    facts.composition = Some(cursor.since(&start).to_owned());
    cursor.end("the end of the designation")?;
    Ok(facts)
}

fn deposit(cursor: &mut Cursor<'_>, facts: &mut Facts) -> Result<(), DesignationError> {
    facts.strength = iso::strength(cursor)?;
    facts.impact = iso::impact(cursor)?;
    cursor.skip_blanks();
    let at_gas = *cursor;
    facts.gas = iso::gas(cursor)?;
    facts.single_pass_only = Some(false);
    facts.processes = match facts.gas {
        GasRequirement::SelfShielded => {
            return Err(at_gas.wrong("a shielding gas, as a solid wire needs one"));
        }
        gas if gas.is_inert() => &[Process::MigSolidWire],
        _ => &[Process::MagSolidWire],
    };
    facts.notes.extend(iso::gas_note(facts.gas));
    Ok(())
}

#[cfg(test)]
mod tests {
    use crate::trade::designation::tests::{notes, read, refused};

    /// ISO 14341-A symbols as a one-page guide prints them; `G 46 5 M G3Si1` is its example. Gas
    /// letter M and wire 3Ni1 from memory.
    #[test]
    fn designations_are_decoded() {
        for (text, expected) in [
            (
                "G 46 5 M G3Si1",
                "530 MPa to 680 MPa; 460 MPa up; 47 J at -50 °C; -; M2 without He; -; -; \
                 multiple; 135",
            ),
            (
                "G 42 4 M21 3Si1",
                "500 MPa to 640 MPa; 420 MPa up; 47 J at -40 °C; -; M21; -; -; multiple; 135",
            ),
            (
                "G 42 2 C1 3Si1",
                "500 MPa to 640 MPa; 420 MPa up; 47 J at -20 °C; -; C1; -; -; multiple; 135",
            ),
            ("G 3Si1", "-; -; -; -; -; -; -; -; 131 135"),
            ("G3Si1", "-; -; -; -; -; -; -; -; 131 135"),
            (
                "G 50 6 M21 3Ni1",
                "560 MPa to 720 MPa; 500 MPa up; 47 J at -60 °C; -; M21; -; -; multiple; 135",
            ),
        ] {
            assert_eq!(read(text), format!("solid-wire; {expected}"), "{text}");
        }
    }

    #[test]
    fn an_inert_gas_makes_it_mig() {
        assert!(read("G 42 Z I1 Z").ends_with("; 131"));
        assert!(notes("G 42 4 M 3Si1").iter().any(|note| note.contains("from memory")));
    }

    #[test]
    fn refusals_say_where() {
        refused("G 42 4 M21 9Si9", 11, "9Si9", "wire symbol");
        refused("G 42 4 NO 3Si1", 7, "NO", "a shielding gas");
        refused("G 42 1 M21 3Si1", 5, "1", "impact symbol");
        refused("G 42 4 M21 3Si1 H5", 16, "H5", "the end");
        refused("G 42 4 M21", 10, "end of text", "wire symbol");
    }
}
