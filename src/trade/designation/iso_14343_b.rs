//! ISO 14343-B, stainless wires, rods and strips by alloy type: `SS316LSi`.

use crate::trade::Process;

use super::cursor::Cursor;
use super::facts::{Facts, FillerKind};
use super::{DesignationError, aws_a5_9, stainless_alloy};

/// Wires and rods serve what those of AWS A5.9 do. `SS` for wires and rods, `BS` for strips (from memory), and the alloy number.
pub(super) fn parse(cursor: &mut Cursor<'_>) -> Result<Facts, DesignationError> {
    let strip = cursor.need(&[("SS", false), ("BS", true)], "SS or BS")?;
    let mut facts = if strip {
        Facts::unstated(FillerKind::Strip, &[Process::SubmergedStrip])
    } else {
        Facts::unstated(FillerKind::SolidWire, aws_a5_9::WIRE)
    };
    facts.notes.extend(strip.then_some("BS as a strip is from memory"));
    stainless_alloy::number(cursor, &mut facts)?;
    cursor.end("letters of the alloy (L, H, Si, Mo, Nb, N, ...), or the end of the designation")?;
    Ok(facts)
}

#[cfg(test)]
mod tests {
    use crate::trade::designation::tests::{alloy, notes, read, refused};

    /// One-page guide to ISO 14343: SS and the alloy type.
    #[test]
    fn designations_are_decoded() {
        let solid = "solid-wire; -; -; -; -; -; -; -; -; 131 135 121 141 15";
        for (text, expected, alloyed) in [
            ("SS316LSi", solid, "316LSi"),
            ("SS308Mo", solid, "308Mo"),
            ("ISO 14343-B - SS 2209", solid, "2209"),
            ("BS309L", "strip; -; -; -; -; -; -; -; -; 122", "309L"),
        ] {
            assert_eq!(read(text), expected, "{text}");
            assert_eq!(alloy(text), format!("{alloyed}; stainless; -"), "{text}");
        }
        assert!(notes("SS316LSi").is_empty());
        assert!(notes("BS309L").iter().any(|note| note.contains("from memory")));
    }

    #[test]
    fn refusals_say_where() {
        refused("SS316X", 5, "X", "letters of the alloy");
        refused("SS31", 2, "31", "stainless alloy number");
        refused("ISO 14343-B ER316L", 12, "ER316L", "SS or BS");
    }
}
