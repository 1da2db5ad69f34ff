//! ISO 2560-B, covered electrodes by tensile strength and 27 J: `E 55 18-N2 A U H5`.

use crate::trade::{Polarity, Process};

use super::cursor::Cursor;
use super::facts::{Facts, FillerKind, PolarityRule};
use super::usability::ALL_DIRECTION_OPEN;
use super::{AlloyFamily, DesignationError, GasRequirement, aws_a5_1};
use super::{iso_symbols as iso, iso_symbols_b as iso_b};

/// Position and covering digits. They mean what those of AWS A5.1 do; 03 is not among those.
const COVERINGS: &[&str] =
    &["03", "10", "11", "12", "13", "14", "15", "16", "18", "19", "20", "24", "27", "28", "48"];

/// `E` strength covering `-` alloy, condition, `U`, `H`; alloy, `U` and `H` may be missing.
pub(super) fn parse(cursor: &mut Cursor<'_>) -> Result<Facts, DesignationError> {
    cursor.need_word("E", "E for a covered electrode")?;
    let mut facts = Facts {
        gas: GasRequirement::SelfShielded,
        single_pass_only: Some(false),
        family: Some(AlloyFamily::Unalloyed),
        ..Facts::unstated(FillerKind::CoveredElectrode, &[Process::ManualMetalArc])
    };
    facts.strength = iso_b::strength(cursor, iso_b::STRENGTHS)?;
    cursor.skip_blanks();
    let coverings: Vec<_> = COVERINGS.iter().map(|digits| (*digits, *digits)).collect();
    covering(cursor.need(&coverings, "the covering digits")?, &mut facts);
    if cursor.take("-") {
        iso_b::alloy(cursor, &mut facts)?;
        facts.notes.push("what the alloy symbol stands for is from memory");
    }
    facts.condition = Some(iso_b::condition(cursor)?);
    if cursor.suffix(&[("U", ())]).is_some() {
        facts.notes.push("U: 47 J are also reached at the temperature of the class");
    }
    facts.hydrogen = iso::hydrogen(cursor);
    cursor.end("U, H5, H10, H15, or the end of the designation")?;
    facts.notes.push("impact requirement, which differs by class, is not held here");
    Ok(facts)
}

fn covering(digits: &str, facts: &mut Facts) {
    if let Some((polarities, usability, notes)) = aws_a5_1::covering(digits) {
        facts.polarity = PolarityRule::Stated(polarities);
        facts.horizontal_fillet_polarity = aws_a5_1::horizontal_fillet_polarity(digits);
        facts.usability = Some(usability);
        facts.single_pass_only = Some(digits == "22");
        facts.notes = notes;
    } else {
        const ANY: &[Polarity] = &[Polarity::Ac, Polarity::Dcep, Polarity::Dcen];
        facts.polarity = PolarityRule::Stated(ANY);
        facts.usability = Some(ALL_DIRECTION_OPEN);
        facts.notes.push("covering 03, any current and all positions, is from memory");
    }
}

#[cfg(test)]
mod tests {
    use crate::trade::designation::tests::{alloy, notes, read, refused};

    const OPEN: &str = "PA PB PC PD PE PF PG PH PJ PK H-L045 J-L045 not stated";

    /// One-page guide to ISO 2560-B; `E 55 18-N2 A U H5` is its example, the form of the others is
    /// from memory. Polarity as the digits of AWS A5.1.
    #[test]
    fn designations_are_decoded() {
        for (text, mpa, polarity, hydrogen, alloyed) in [
            (
                "ISO 2560-B E 55 18-N2 A U H5",
                "550",
                "AC DCEP",
                "5 mL/100g",
                "N2; low-alloy; as-welded",
            ),
            ("ISO 2560-B E 49 18 A U H5", "490", "AC DCEP", "5 mL/100g", "-; unalloyed; as-welded"),
            ("ISO 2560-B E 43 10 A", "430", "DCEP", "-", "-; unalloyed; as-welded"),
            (
                "ISO 2560-B E 49 16-1 A H10",
                "490",
                "AC DCEP",
                "10 mL/100g",
                "1; unalloyed; as-welded",
            ),
            ("E 57 16-1M3 P", "570", "AC DCEP", "-", "1M3; low-alloy; post-weld-heat-treated"),
            ("E 49 18-G AP", "490", "AC DCEP", "-", "G; -; as-welded-and-post-weld-heat-treated"),
        ] {
            let expected = format!(
                "covered-electrode; {mpa} MPa up; -; -; {OPEN}; no gas; {polarity}; {hydrogen}; \
                 multiple; 111"
            );
            assert_eq!(read(text), expected, "{text}");
            assert_eq!(alloy(text), alloyed, "{text}");
        }
        assert_eq!(read("E 5518-N2 A U H5"), read("E 55 18-N2 A U H5"));
    }

    #[test]
    fn values_from_memory_are_marked() {
        for text in ["E 55 18-N2 A", "E 43 03 A"] {
            assert!(notes(text).iter().any(|note| note.contains("from memory")), "{text}");
        }
        assert!(notes("E 49 18 A").iter().all(|note| !note.contains("from memory")));
        assert!(notes("E 49 18 A U").iter().any(|note| note.starts_with("U: 47 J")));
    }

    #[test]
    fn refusals_say_where() {
        refused("E 49 26 A", 5, "26", "covering digits");
        refused("E 49 18", 7, "end of text", "condition of the weld metal");
        refused("E 49 18- A", 8, "A", "alloy symbol");
        refused("E 49 18 X", 8, "X", "condition of the weld metal");
        refused("E 49 18 A H4", 10, "H4", "H5");
        refused("ISO 2560-B E 46 18 A", 13, "46", "strength symbol");
    }
}
