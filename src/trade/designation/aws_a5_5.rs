//! AWS A5.5/A5.5M, low-alloy covered electrodes: `E8018-C3 H4R`, `E11018M`.

use crate::trade::{Polarity, Process};

use super::cursor::Cursor;
use super::facts::{self, Facts, FillerKind, PolarityRule, Strength};
use super::usability::ALL_DOWN;
use super::{DesignationError, GasRequirement, aws_a5_1, aws_alloy, aws_impact};

/// Position and covering digits; 45 from memory.
const COVERINGS: &[&str] = &["10", "11", "13", "15", "16", "18", "20", "27", "45"];

const ALLOYS: &[&str] = &[
    "A1", "B1", "B2", "B2L", "B3", "B3L", "B4L", "B5", "B6", "B6L", "B7", "B7L", "B8", "B8L", "B9",
    "C1", "C1L", "C2", "C2L", "C3", "C3L", "C4", "C5L", "NM1", "D1", "D2", "D3", "P1", "P2", "W1",
    "W2", "M1", "M", "G",
];

/// `E` strength, position and covering digits, alloy behind a hyphen (`M` also without), `H`,
/// `R`.
///
/// # Source
/// Strengths in ksi, `H` and `R`: US Army TI 809-26 (1 March 2000), Table C-2. Digits with their
/// currents and alloy symbols: one-page guides to A5.5. Impact tests from memory.
pub(super) fn parse(cursor: &mut Cursor<'_>) -> Result<Facts, DesignationError> {
    cursor.need_word("E", "E for electrode")?;
    cursor.skip_blanks();
    let (system, tensile) = cursor.need(aws_alloy::STRENGTHS, "the strength of A5.5")?;
    let coverings: Vec<_> = COVERINGS.iter().map(|digits| (*digits, *digits)).collect();
    let digits = cursor.need(&coverings, "the position and covering digits of A5.5")?;
    let mut facts = Facts {
        strength: Strength { tensile: system.at_least(tensile), yield_strength: None },
        gas: GasRequirement::SelfShielded,
        single_pass_only: Some(false),
        low_hydrogen_covering: Some(aws_a5_1::is_low_hydrogen(digits)),
        ..Facts::unstated(FillerKind::CoveredElectrode, &[Process::ManualMetalArc])
    };
    covering(digits, &mut facts);
    alloy(cursor, digits, &mut facts)?;
    aws_impact::covered(&mut facts, system);
    facts.hydrogen = cursor.suffix(&[("H4", 4), ("H8", 8), ("H16", 16)]).and_then(facts::hydrogen);
    let dry = cursor.suffix(&[("R", ())]).is_some();
    cursor.end("H4, H8, H16, R, or the end of the designation")?;
    facts.notes.extend(aws_alloy::strength_note(system));
    facts.notes.extend(dry.then_some("R: the covering resists moisture; test not held here"));
    Ok(facts)
}

fn covering(digits: &str, facts: &mut Facts) {
    if let Some((polarities, usability, notes)) = aws_a5_1::covering(digits) {
        facts.polarity = PolarityRule::Stated(polarities);
        facts.horizontal_fillet_polarity = aws_a5_1::horizontal_fillet_polarity(digits);
        facts.usability = Some(usability);
        facts.notes = notes;
    } else {
        facts.usability = Some(ALL_DOWN);
        facts.notes.push("covering digits 45, for vertical down, are from memory");
    }
}

/// `M` behind 18 marks a military class, which runs on DCEP only (from memory).
fn alloy(cursor: &mut Cursor<'_>, digits: &str, facts: &mut Facts) -> Result<(), DesignationError> {
    let hyphen = cursor.take("-");
    let military = digits == "18" && cursor.rest().starts_with(['M', 'm']);
    if !hyphen && !military {
        return Err(cursor.wrong("a hyphen and the alloy symbol of A5.5, as in E8018-C3"));
    }
    aws_alloy::read(cursor, ALLOYS, facts)?;
    if military {
        facts.polarity = PolarityRule::Stated(&[Polarity::Dcep]);
        facts.notes.push("that military classes run on DCEP only is from memory");
    }
    aws_alloy::heat_treated_if_creep_resisting(facts);
    Ok(())
}

#[cfg(test)]
mod tests {
    use crate::trade::designation::tests::{alloy, notes, read, refused};

    const OPEN: &str = "PA PB PC PD PE PF PG PH PJ PK H-L045 J-L045 not stated";

    /// US Army TI 809-26 (1 March 2000), Table C-2: ksi, H in mL per 100 g; a one-page guide to
    /// A5.5: AC and DC by covering, nominal alloys.
    #[test]
    fn designations_are_decoded() {
        for (text, ksi, impact, polarity, hydrogen, alloyed) in [
            ("E8018-C3 H4R", "80", "27 J at -40 °F", "AC DCEP", "4 mL/100g", "C3; low-alloy; -"),
            ("E8010-P1", "80", "27 J at -20 °F", "DCEP", "-", "P1; low-alloy; -"),
            ("E11018-M", "110", "27 J at -60 °F", "DCEP", "-", "M; low-alloy; -"),
            ("E11018M H4R", "110", "27 J at -60 °F", "DCEP", "4 mL/100g", "M; low-alloy; -"),
            ("E12018-M1", "120", "68 J at 0 °F", "DCEP", "-", "M1; low-alloy; -"),
            ("E7018-A1", "70", "no impact", "AC DCEP", "-", "A1; low-alloy; -"),
            ("E7010-A1", "70", "no impact", "DCEP", "-", "A1; low-alloy; -"),
            (
                "E9016-B3H8",
                "90",
                "no impact",
                "AC DCEP",
                "8 mL/100g",
                "B3; chromium-molybdenum; post-weld-heat-treated",
            ),
            (
                "E8018-B2L-H4 R",
                "80",
                "no impact",
                "AC DCEP",
                "4 mL/100g",
                "B2L; chromium-molybdenum; post-weld-heat-treated",
            ),
            ("E8013-G", "80", "impact as agreed", "AC DCEP DCEN", "-", "G; -; -"),
            ("E8018-W2", "80", "27 J at 0 °F", "AC DCEP", "-", "W2; low-alloy; -"),
        ] {
            let expected = format!(
                "covered-electrode; {ksi} ksi up; -; {impact}; {OPEN}; no gas; {polarity}; {hydrogen}; \
                 multiple; 111"
            );
            assert_eq!(read(text), expected, "{text}");
            assert_eq!(alloy(text), alloyed, "{text}");
        }
    }

    /// TI 809-26, Table C-2: 550 MPa beside 80 ksi; 2 is flat and horizontal fillets.
    #[test]
    fn the_si_form_and_the_flat_position() {
        assert!(read("E5518-C3").contains("; 550 MPa up; -; 27 J at -40 °C;"));
        assert!(notes("E5518-C3").iter().any(|note| note.contains("from memory")));
        assert!(read("E7020-A1").contains("; PA PB none; no gas; AC DCEP DCEN;"));
        assert!(notes("E7020-A1").contains(&"horizontal fillets: AC or DCEN"));
    }

    #[test]
    fn values_from_memory_are_marked() {
        for text in ["E11018-M", "E8045-P2", "E9018-B3"] {
            assert!(notes(text).iter().any(|note| note.contains("from memory")), "{text}");
        }
        assert!(read("E8045-P2").contains("; PA PB PC PD PE PG PJ J-L045 down; no gas; -;"));
    }

    #[test]
    fn a_newer_alloy_is_kept_and_its_steel_unknown() {
        assert_eq!(alloy("E8018-X7L"), "X7L; -; -");
        assert!(notes("E8018-X7L").iter().any(|note| note.contains("not known here")));
    }

    #[test]
    fn refusals_say_where() {
        refused("E9018", 5, "end of text", "alloy symbol of A5.5");
        refused("E9018 H4", 5, "H4", "alloy symbol of A5.5");
        refused("E8026-C3", 3, "26-C3", "position and covering digits");
        refused("E13018-M", 1, "13018-M", "strength of A5.5");
        refused("E8018-", 6, "end of text", "alloy symbol");
        refused("E8018-C3 H5", 9, "H5", "H4");
        refused("AWS A5.5 E7018-1", 15, "1", "alloy symbol");
        refused("E8016M", 5, "M", "a hyphen");
    }
}
