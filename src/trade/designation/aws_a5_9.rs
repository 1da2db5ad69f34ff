//! AWS A5.9/A5.9M, bare stainless wires, rods and strips: `ER308L`, `EC410NiMo`, `EQ309L`.

use crate::trade::Process;

use super::cursor::Cursor;
use super::facts::{Facts, FillerKind};
use super::{DesignationError, stainless_alloy};

/// What a wire or rod serves: AWS A5.9/A5.9M:2017, abstract.
pub(super) const WIRE: &[Process] = &[
    Process::MigSolidWire,
    Process::MagSolidWire,
    Process::SubmergedSolidWire,
    Process::TigSolidFiller,
    Process::Plasma,
];

const FORMS: &[(&str, FillerKind)] =
    &[("ER", FillerKind::SolidWire), ("EC", FillerKind::MetalCoredWire), ("EQ", FillerKind::Strip)];

/// `ER`, `EC` or `EQ`, and the alloy number. The string states neither strength nor gas nor
/// position. What EC and EQ stand for is from memory.
pub(super) fn parse(cursor: &mut Cursor<'_>) -> Result<Facts, DesignationError> {
    let kind = cursor.need(FORMS, "the form of a stainless filler")?;
    let (processes, note): (_, Option<_>) = match kind {
        FillerKind::MetalCoredWire => (
            &[Process::MigMetalCored, Process::MagMetalCored, Process::SubmergedCoredWire][..],
            Some("EC as a metal-cored wire and its processes are from memory"),
        ),
        FillerKind::Strip => (&[Process::SubmergedStrip][..], Some("EQ as a strip is from memory")),
        _ => (WIRE, None),
    };
    let mut facts = Facts::unstated(kind, processes);
    facts.notes.extend(note);
    stainless_alloy::number(cursor, &mut facts)?;
    cursor.end("letters of the alloy (L, H, Si, Mo, Nb, N, ...), or the end of the designation")?;
    Ok(facts)
}

#[cfg(test)]
mod tests {
    use crate::trade::designation::tests::{alloy, notes, read, refused};

    /// AWS A5.9/A5.9M:2017, abstract: wire, strip and rods for gas metal, submerged, gas tungsten
    /// and plasma arcs. EC as metal-cored and EQ as strip from memory.
    #[test]
    fn forms_are_decoded() {
        let solid = "solid-wire; -; -; -; -; -; -; -; -; 131 135 121 141 15";
        for (text, expected, alloyed) in [
            ("ER308L", solid, "308L"),
            ("ER316LSi", solid, "316LSi"),
            ("ER2209", solid, "2209"),
            ("ER16-8-2", solid, "16-8-2"),
            ("ER19-10H", solid, "19-10H"),
            ("ER308LSi", solid, "308LSi"),
            ("ER309LMo", solid, "309LMo"),
            ("ER320LR", solid, "320LR"),
            ("EC410NiMo", "metal-cored-wire; -; -; -; -; -; -; -; -; 133 138 125", "410NiMo"),
            ("EQ309L", "strip; -; -; -; -; -; -; -; -; 122", "309L"),
        ] {
            assert_eq!(read(text), expected, "{text}");
            assert_eq!(alloy(text), format!("{alloyed}; stainless; -"), "{text}");
        }
    }

    #[test]
    fn values_from_memory_are_marked() {
        for text in ["EC410NiMo", "EQ309L"] {
            assert!(notes(text).iter().any(|note| note.contains("from memory")), "{text}");
        }
        assert!(notes("ER308L").is_empty());
    }

    #[test]
    fn refusals_say_where() {
        refused("ER308X", 5, "X", "letters of the alloy");
        refused("ER30", 2, "30", "stainless alloy number");
        refused("ER30812", 2, "30812", "stainless alloy number");
        refused("AWS A5.9 E308L", 9, "E308L", "form of a stainless filler");
        refused("ER308L H4", 7, "H4", "the end");
        refused("AWS A5.9 EC", 11, "end of text", "stainless alloy number");
        refused("ER16-", 2, "16-", "stainless alloy number");
    }
}
