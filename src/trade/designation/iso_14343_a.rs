//! ISO 14343-A, stainless wires, rods and strips by nominal composition: `G 19 12 3 L Si`.

use crate::trade::Process;

use super::cursor::Cursor;
use super::facts::{Facts, FillerKind};
use super::{DesignationError, stainless_alloy};

/// Letter, product form and processes. For a laser there is no arc process.
const LETTERS: &[(&str, (FillerKind, &[Process]))] = {
    use FillerKind::{SolidWire, Strip};
    &[
        ("G", (SolidWire, &[Process::MigSolidWire, Process::MagSolidWire])),
        ("W", (SolidWire, &[Process::TigSolidFiller])),
        ("P", (SolidWire, &[Process::Plasma])),
        ("S", (SolidWire, &[Process::SubmergedSolidWire])),
        ("B", (Strip, &[Process::SubmergedStrip])),
        ("L", (SolidWire, &[])),
    ]
};

/// Process letter, nominal chromium, nickel and molybdenum, letters.
///
/// # Source
/// Process letters: one-page guide to ISO 14343.
pub(super) fn parse(cursor: &mut Cursor<'_>) -> Result<Facts, DesignationError> {
    let (kind, processes) = cursor.need(LETTERS, "the process letter")?;
    let mut facts = Facts::unstated(kind, processes);
    stainless_alloy::nominal(cursor, &mut facts)?;
    cursor.end("letters of the alloy (L, H, Si, Nb, N, ...), or the end of the designation")?;
    Ok(facts)
}

#[cfg(test)]
mod tests {
    use crate::trade::designation::tests::{alloy, read, refused};

    /// One-page guide to ISO 14343, which prints process letters and the first designation.
    #[test]
    fn designations_are_decoded() {
        for (text, kind, processes, composition) in [
            ("G 19 12 3 L Si", "solid-wire", "131 135", "19 12 3 L Si"),
            ("W 19 9 L", "solid-wire", "141", "19 9 L"),
            ("G 20 10 3", "solid-wire", "131 135", "20 10 3"),
            ("G 22 9 3 N L", "solid-wire", "131 135", "22 9 3 N L"),
            ("P 19 9 Nb", "solid-wire", "15", "19 9 Nb"),
            ("S 18 8 Mn", "solid-wire", "121", "18 8 Mn"),
            ("B 23 12 L", "strip", "122", "23 12 L"),
            ("L 19 9 L", "solid-wire", "", "19 9 L"),
            ("G 13 4", "solid-wire", "131 135", "13 4"),
            ("G 17", "solid-wire", "131 135", "17"),
            ("ISO 14343-A - G Z 17 Ti", "solid-wire", "131 135", "Z 17 Ti"),
            ("G19 12 3 LSi", "solid-wire", "131 135", "19 12 3 LSi"),
        ] {
            assert_eq!(
                read(text),
                format!("{kind}; -; -; -; -; -; -; -; -; {processes}"),
                "{text}"
            );
            assert_eq!(alloy(text), format!("{composition}; stainless; -"), "{text}");
        }
    }

    #[test]
    fn refusals_say_where() {
        refused("G 19 12 3 X", 10, "X", "letters of the alloy");
        refused("G 19 12 3 4 L", 10, "4", "letters of the alloy");
        refused("G 19 120", 5, "120", "letters of the alloy");
        refused("ISO 14343-A T 19 9 L", 12, "T", "process letter");
        refused("ISO 14343-A G 42 4", 14, "42", "nominal chromium");
    }
}
