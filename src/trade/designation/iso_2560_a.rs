//! ISO 2560-A, covered electrodes by yield strength and 47 J: `E 46 3 1Ni B 5 4 H5`.

use crate::trade::Process;

use super::cursor::Cursor;
use super::facts::{Facts, FillerKind, PolarityRule};
use super::iso_symbols as iso;
use super::{AlloyFamily, DesignationError, GasRequirement, Usability};

const COMPOSITIONS: &[(&str, Option<AlloyFamily>)] = {
    const LOW_ALLOY: Option<AlloyFamily> = Some(AlloyFamily::LowAlloy);
    &[
        ("Mo", LOW_ALLOY),
        ("MnMo", LOW_ALLOY),
        ("1Ni", LOW_ALLOY),
        ("2Ni", LOW_ALLOY),
        ("3Ni", LOW_ALLOY),
        ("Mn1Ni", LOW_ALLOY),
        ("1NiMo", LOW_ALLOY),
        ("Z", None),
    ]
};

const COVERINGS: &[(&str, ())] =
    &[("A", ()), ("B", ()), ("C", ()), ("R", ()), ("RR", ()), ("RC", ()), ("RA", ()), ("RB", ())];

/// Recovery and current: odd digits alternating and direct current, even digits direct current.
const CURRENTS: &[(&str, PolarityRule)] = &[
    ("1", PolarityRule::AcOrDc),
    ("2", PolarityRule::DcOnly),
    ("3", PolarityRule::AcOrDc),
    ("4", PolarityRule::DcOnly),
    ("5", PolarityRule::AcOrDc),
    ("6", PolarityRule::DcOnly),
    ("7", PolarityRule::AcOrDc),
    ("8", PolarityRule::DcOnly),
];

/// `E` strength impact composition covering current position `H`; composition, the two digits
/// and hydrogen may be missing.
pub(super) fn parse(cursor: &mut Cursor<'_>) -> Result<Facts, DesignationError> {
    cursor.need_word("E", "E for a covered electrode")?;
    let strength = iso::strength(cursor)?;
    let impact = iso::impact(cursor)?;
    let (composition, family) = iso::composition(cursor, COMPOSITIONS);
    cursor.skip_blanks();
    cursor.need(COVERINGS, "the covering symbol")?;
    let digits = current_and_position(cursor)?;
    let hydrogen = iso::hydrogen(cursor);
    cursor.end("digits for current and position, H5, H10, H15, or the end of the designation")?;
    Ok(Facts {
        strength,
        impact,
        usability: digits.map(|(_, usability)| usability),
        gas: GasRequirement::SelfShielded,
        polarity: digits.map_or(PolarityRule::NotStated, |(current, _)| current),
        hydrogen,
        single_pass_only: Some(false),
        composition,
        family,
        notes: digits.map(|_| iso::POSITIONS_FROM_MEMORY).into_iter().collect(),
        ..Facts::unstated(FillerKind::CoveredElectrode, &[Process::ManualMetalArc])
    })
}

/// Both digits or none: one alone could mean either.
fn current_and_position(
    cursor: &mut Cursor<'_>,
) -> Result<Option<(PolarityRule, Usability)>, DesignationError> {
    cursor.skip_blanks();
    let Some(current) = cursor.symbol(CURRENTS) else { return Ok(None) };
    cursor.skip_blanks();
    let position = cursor.need(iso::POSITIONS, "the position digit behind the current digit")?;
    Ok(Some((current, position)))
}

#[cfg(test)]
mod tests {
    use crate::trade::designation::tests::{notes, read, refused};

    const ALL: &str = "PA PB PC PD PE PF PG PH PJ PK H-L045 J-L045 either";
    const UP: &str = "PA PB PC PD PE PF PH H-L045 up";

    /// ISO 2560-A symbols as one-page guides print them, which also print the first two
    /// designations as examples; ISO 6947 symbols of the position digits from memory.
    #[test]
    fn designations_are_decoded() {
        for (text, expected) in [
            (
                "E 46 3 1Ni B 5 4 H5",
                "530 MPa to 680 MPa; 460 MPa up; 47 J at -30 °C; PA none; no gas; AC or DC; \
                 5 mL/100g"
                    .to_owned(),
            ),
            (
                "E 42 2 B 4 2 H10",
                format!(
                    "500 MPa to 640 MPa; 420 MPa up; 47 J at -20 °C; {UP}; no gas; DC; 10 mL/100g"
                ),
            ),
            (
                "E 42 4 B 3 2 H5",
                format!(
                    "500 MPa to 640 MPa; 420 MPa up; 47 J at -40 °C; {UP}; no gas; AC or DC; \
                     5 mL/100g"
                ),
            ),
            (
                "E 38 0 RC 1 1",
                format!("470 MPa to 600 MPa; 380 MPa up; 47 J at 0 °C; {ALL}; no gas; AC or DC; -"),
            ),
            (
                "E 42 0 RR 1 2",
                format!("500 MPa to 640 MPa; 420 MPa up; 47 J at 0 °C; {UP}; no gas; AC or DC; -"),
            ),
        ] {
            assert_eq!(read(text), format!("covered-electrode; {expected}; multiple; 111"));
        }
    }

    #[test]
    fn digits_left_out_leave_current_and_position_open() {
        let line = read("E 42 A A");
        assert!(line.contains("47 J at 20 °C; -; no gas; -; -"), "{line}");
        assert!(notes("E 42 A A").is_empty());
        assert!(notes("E 38 0 RC 1 1").iter().any(|note| note.contains("from memory")));
    }

    #[test]
    fn position_five_is_down_and_flat() {
        assert!(read("E 42 4 B 3 5").contains("PA PB PG down"));
    }

    #[test]
    fn refusals_say_where() {
        refused("E 46 3 1Ni X 5 4 H5", 11, "X", "covering symbol");
        refused("E 46 1 B 5 4 H5", 5, "1", "impact symbol");
        refused("E 42 4 B 3 H5", 11, "H5", "position digit");
        refused("E 42 4 B 9 2", 9, "9", "digits for current");
        refused("E 42 4 B 3 2 H4", 13, "H4", "H5");
    }
}
