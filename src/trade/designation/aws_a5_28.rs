//! AWS A5.28/A5.28M, low-alloy wires and rods for gas-shielded arcs: `ER80S-Ni1`, `E80C-Ni1 H4`.

use crate::trade::Process;

use super::aws_a5_18::SOLID_PROCESSES;
use super::cursor::Cursor;
use super::facts::{self, Facts, FillerKind, Strength};
use super::{DesignationError, GasRequirement, aws_alloy, aws_impact};

const ALLOYS: &[&str] = &[
    "A1", "B2", "B2L", "B3", "B3L", "B6", "B8", "B9", "Ni1", "Ni2", "Ni3", "D2", "K3", "K4", "W2",
    "1", "G",
];

/// `ER` strength `S-` class, or `E` strength `C-` class gas; then `N` and `H`.
///
/// # Source
/// Classes: one-page guides to A5.28. Tensile strength as the symbol says. Impact tests from memory.
pub(super) fn parse(cursor: &mut Cursor<'_>) -> Result<Facts, DesignationError> {
    let solid = cursor.take("ER");
    if !solid {
        cursor.need_word("E", "ER or E")?;
    }
    cursor.skip_blanks();
    let (system, tensile) = cursor.need(aws_alloy::STRENGTHS, "the strength of A5.28")?;
    let mut facts = if solid {
        cursor.need_word("S", "S for a solid wire behind ER")?;
        Facts::unstated(FillerKind::SolidWire, SOLID_PROCESSES)
    } else {
        cursor.need_word("C", "C for a composite wire behind E")?;
        Facts::unstated(FillerKind::MetalCoredWire, &[Process::MagMetalCored])
    };
    facts.strength = Strength { tensile: system.at_least(tensile), yield_strength: None };
    facts.single_pass_only = Some(false);
    cursor.need_word("-", "the hyphen before the class")?;
    aws_alloy::read(cursor, ALLOYS, &mut facts)?;
    aws_impact::wire(&mut facts, system);
    if !solid {
        let gases = [("C", GasRequirement::Co2), ("M", GasRequirement::ArgonCo2Test)];
        facts.gas = cursor.symbol(&gases).unwrap_or(GasRequirement::NotStated);
    }
    let _ = cursor.suffix(&[("N", ())]);
    facts.hydrogen = hydrogen(cursor, &mut facts.notes);
    cursor.end("N, H2, H4, H8, H16, or the end of the designation")?;
    facts.notes.extend(aws_alloy::strength_note(system));
    aws_alloy::heat_treated_if_creep_resisting(&mut facts);
    Ok(facts)
}

/// The hydrogen symbol in mL per 100 g; H2 from memory.
pub(super) fn hydrogen(
    cursor: &mut Cursor<'_>,
    notes: &mut Vec<&'static str>,
) -> Option<crate::quantity::HydrogenContent> {
    let limit = cursor.suffix(&[("H2", 2), ("H4", 4), ("H8", 8), ("H16", 16)])?;
    notes.extend((limit == 2).then_some("H2, 2 mL per 100 g, is from memory"));
    facts::hydrogen(limit)
}

#[cfg(test)]
mod tests {
    use crate::trade::designation::tests::{alloy, notes, read, refused};

    /// One-page guides to A5.28: classes and their alloys; hydrogen in mL per 100 g. Heat
    /// treatment of B classes from memory.
    #[test]
    fn classes_are_decoded() {
        let solid = |ksi, impact| {
            format!("solid-wire; {ksi} ksi up; -; {impact}; -; -; -; -; multiple; 135 141 15")
        };
        for (text, expected, alloyed) in [
            ("ER80S-D2", solid("80", "27 J at -20 °F"), "D2; low-alloy; -"),
            ("ER100S-1", solid("100", "68 J at -60 °F"), "1; low-alloy; -"),
            ("ER110S-1", solid("110", "68 J at -60 °F"), "1; low-alloy; -"),
            (
                "ER90S-B3",
                solid("90", "no impact"),
                "B3; chromium-molybdenum; post-weld-heat-treated",
            ),
            ("ER80S-Ni1", solid("80", "27 J at -50 °F"), "Ni1; low-alloy; -"),
            ("ER70S-A1", solid("70", "no impact"), "A1; low-alloy; -"),
            (
                "ER70S-B2L",
                solid("70", "no impact"),
                "B2L; chromium-molybdenum; post-weld-heat-treated",
            ),
            ("ER80S-G", solid("80", "impact as agreed"), "G; -; -"),
            (
                "E80C-Ni1 H4",
                "metal-cored-wire; 80 ksi up; -; 27 J at -50 °F; -; -; -; 4 mL/100g; multiple; 138"
                    .to_owned(),
                "Ni1; low-alloy; -",
            ),
            (
                "E80C-Ni1M",
                "metal-cored-wire; 80 ksi up; -; 27 J at -50 °F; -; 75-80 Ar; -; -; multiple; 138"
                    .to_owned(),
                "Ni1; low-alloy; -",
            ),
            (
                "E70C-Ni2",
                "metal-cored-wire; 70 ksi up; -; 27 J at -80 °F; -; -; -; -; multiple; 138"
                    .to_owned(),
                "Ni2; low-alloy; -",
            ),
        ] {
            assert_eq!(read(text), expected, "{text}");
            assert_eq!(alloy(text), alloyed, "{text}");
        }
    }

    #[test]
    fn values_from_memory_are_marked() {
        for text in ["ER90S-B3", "ER55S-Ni1", "E80C-Ni1 H2"] {
            assert!(notes(text).iter().any(|note| note.contains("from memory")), "{text}");
        }
        assert!(read("ER55S-Ni1").contains("; 550 MPa up; "));
    }

    #[test]
    fn refusals_say_where() {
        refused("ER80C-Ni1", 4, "C-Ni1", "S for a solid wire");
        refused("E80S-D2", 3, "S-D2", "C for a composite wire");
        refused("ER80SD2", 5, "D2", "hyphen");
        refused("ER80S-?", 6, "?", "alloy symbol");
        refused("ER80S-D2 H5", 9, "H5", "H4");
        refused("ER80S-Ni1M", 9, "M", "the end");
        refused("AWS A5.28 ER308L", 12, "308L", "strength of A5.28");
    }
}
