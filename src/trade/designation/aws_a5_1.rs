//! AWS A5.1/A5.1M, carbon-steel covered electrodes: `E7018-1 H4R`.

use crate::quantity::Range;
use crate::trade::{Polarity, Process};

use super::cursor::Cursor;
use super::facts::{self, Facts, FillerKind, Impact, PolarityRule, Strength, System};
use super::usability::{ALL_DIRECTION_OPEN, ALL_DOWN, FLAT_AND_HORIZONTAL_FILLET, Usability};
use super::{AlloyFamily, DesignationError, GasRequirement};

const DCEP: &[Polarity] = &[Polarity::Dcep];
const AC_DCEP: &[Polarity] = &[Polarity::Ac, Polarity::Dcep];
const AC_DCEN: &[Polarity] = &[Polarity::Ac, Polarity::Dcen];
const ANY: &[Polarity] = &[Polarity::Ac, Polarity::Dcep, Polarity::Dcen];

/// Test temperature of 27 J (20 ft·lbf) in °F and °C; `None`: no test.
type At = Option<(i64, i64)>;
const MINUS_30: At = Some((-20, -30));
const MINUS_20: At = Some((0, -20));

/// A strength in ksi and, in the SI form, in MPa.
type Printed = (i64, i64);
const LOW: Printed = (60, 430);
const HIGH: Printed = (70, 490);
const LOW_YIELD: Option<Printed> = Some((48, 330));
const HIGH_YIELD: Option<Printed> = Some((58, 400));

/// Class digits, tensile strength, yield strength, impact, polarities.
type Class = (&'static str, Printed, Option<Printed>, At, &'static [Polarity]);

/// The class table of A5.1/A5.1M as one-page guides print it.
const CLASSES: &[Class] = &[
    ("10", LOW, LOW_YIELD, MINUS_30, DCEP),
    ("11", LOW, LOW_YIELD, MINUS_30, AC_DCEP),
    ("12", LOW, LOW_YIELD, None, AC_DCEN),
    ("13", LOW, LOW_YIELD, None, ANY),
    ("19", LOW, LOW_YIELD, MINUS_20, ANY),
    ("20", LOW, LOW_YIELD, None, ANY),
    ("22", LOW, None, None, AC_DCEN),
    ("27", LOW, LOW_YIELD, MINUS_30, ANY),
    ("14", HIGH, HIGH_YIELD, None, ANY),
    ("15", HIGH, HIGH_YIELD, MINUS_30, DCEP),
    ("16", HIGH, HIGH_YIELD, MINUS_30, AC_DCEP),
    ("18", HIGH, HIGH_YIELD, MINUS_30, AC_DCEP),
    ("24", HIGH, HIGH_YIELD, None, ANY),
    ("27", HIGH, HIGH_YIELD, MINUS_30, ANY),
    ("28", HIGH, HIGH_YIELD, MINUS_20, AC_DCEP),
    ("48", HIGH, HIGH_YIELD, MINUS_30, AC_DCEP),
];

const STRENGTHS: &[(&str, (System, Printed))] = &[
    ("60", (System::Us, LOW)),
    ("70", (System::Us, HIGH)),
    ("43", (System::Si, LOW)),
    ("49", (System::Si, HIGH)),
];

/// Whether these digits are those of a low-hydrogen covering: 15, 16, 18, 28, 48; of A5.5 also 45 (from
/// memory).
pub(super) fn is_low_hydrogen(digits: &str) -> bool {
    matches!(digits, "15" | "16" | "18" | "28" | "45" | "48")
}

/// `E` strength, position and covering digits, `M`, `-1`, `H`, `R`.
pub(super) fn parse(cursor: &mut Cursor<'_>) -> Result<Facts, DesignationError> {
    cursor.need_word("E", "E for electrode")?;
    cursor.skip_blanks();
    let (system, tensile) = cursor.need(STRENGTHS, "the strength of A5.1")?;
    let known: Vec<_> =
        CLASSES.iter().filter(|class| class.1 == tensile).map(|class| (class.0, class)).collect();
    let class = cursor.need(&known, "the position and covering digits of this strength")?;
    let military = class.0 == "18" && cursor.take("M");
    let improved = !military && matches!(class.0, "16" | "18" | "24") && cursor.take("-1");
    let hydrogen = cursor.suffix(&[("H4", 4), ("H8", 8), ("H16", 16)]).and_then(facts::hydrogen);
    let dry = cursor.suffix(&[("R", ())]).is_some();
    cursor.end("-1 where the class has it, H4, H8, H16, R, or the end of the designation")?;
    let mut facts = facts(system, class, hydrogen);
    if military {
        make_military(&mut facts, system);
    }
    if improved {
        make_improved(&mut facts, system, class.0);
    }
    if dry {
        facts.notes.push("R: covering moisture after exposure at most 0.3 %; 0.4 % in later editions is from memory");
    }
    Ok(facts)
}

fn facts(
    system: System,
    &(digits, tensile, yield_strength, at, polarities): &Class,
    hydrogen: Option<crate::quantity::HydrogenContent>,
) -> Facts {
    let at_least =
        |(ksi, mpa): Printed| system.at_least(if system == System::Us { ksi } else { mpa });
    let strength =
        Strength { tensile: at_least(tensile), yield_strength: yield_strength.and_then(at_least) };
    Facts {
        strength,
        impact: at.map_or(Impact::NotRequired, |at| system.impact(27, at)),
        usability: Some(usability(digits)),
        gas: GasRequirement::SelfShielded,
        polarity: PolarityRule::Stated(polarities),
        horizontal_fillet_polarity: horizontal_fillet_polarity(digits),
        hydrogen,
        single_pass_only: Some(digits == "22"),
        low_hydrogen_covering: Some(is_low_hydrogen(digits)),
        family: Some(AlloyFamily::Unalloyed),
        notes: notes(digits),
        ..Facts::unstated(FillerKind::CoveredElectrode, &[Process::ManualMetalArc])
    }
}

/// What position and covering digits mean in this standard and its neighbours: polarities,
/// positions, notes. `None` for digits that are not in the table.
pub(super) fn covering(
    digits: &str,
) -> Option<(&'static [Polarity], Usability, Vec<&'static str>)> {
    let class = CLASSES.iter().find(|class| class.0 == digits)?;
    Some((class.4, usability(digits), notes(digits)))
}

/// First of the two digits: 1 all, 2 flat and horizontal fillet, 4 flat, overhead, horizontal and
/// vertical down. Digit 1 says vertical and leaves the direction open.
fn usability(digits: &str) -> Usability {
    match digits.as_bytes() {
        [b'2', ..] => FLAT_AND_HORIZONTAL_FILLET,
        [b'4', ..] => ALL_DOWN,
        _ => ALL_DIRECTION_OPEN,
    }
}

/// Coverings of iron oxide run on any current in the flat position only (class table of A5.1; from memory).
pub(super) fn horizontal_fillet_polarity(digits: &str) -> Option<PolarityRule> {
    is_iron_oxide(digits).then_some(PolarityRule::Stated(AC_DCEN))
}

fn is_iron_oxide(digits: &str) -> bool {
    matches!(digits, "20" | "27")
}

fn notes(digits: &str) -> Vec<&'static str> {
    is_iron_oxide(digits).then_some("horizontal fillets: AC or DCEN").into_iter().collect()
}

/// E7018M: 67 J (50 ft·lbf) at -30 °C (-20 °F), yield 53 to 72 ksi, DCEP; 70 ksi is nominal.
fn make_military(facts: &mut Facts, system: System) {
    facts.strength = Strength {
        tensile: None,
        yield_strength: match system {
            System::Us => Range::new(system.stress(53), system.stress(72)).ok(),
            System::Si => None,
        },
    };
    facts.impact = system.impact(67, (-20, -30));
    facts.polarity = PolarityRule::Stated(DCEP);
    facts.notes.push("tensile strength is nominal, no least value; yield to 77 ksi at 2.4 mm");
}

/// `-1`: colder impact test. -50 °F of E7016-1 as printed, the others from memory.
fn make_improved(facts: &mut Facts, system: System, digits: &str) {
    let at = if digits == "24" { (0, -20) } else { (-50, -45) };
    facts.impact = system.impact(27, at);
    if digits != "16" || system == System::Si {
        facts.notes.push("impact temperature of -1 is from memory");
    }
}

#[cfg(test)]
mod tests {
    use crate::trade::designation::tests::{notes, read, refused};

    const OPEN: &str = "PA PB PC PD PE PF PG PH PJ PK H-L045 J-L045 not stated";

    /// AWS A5.1/A5.1M class table as a one-page guide prints it.
    #[test]
    fn every_class_has_its_row() {
        let flat = "PA PB none";
        let down = "PA PB PC PD PE PG PJ J-L045 down";
        let (low, high) = ("60 ksi up; 48 ksi up", "70 ksi up; 58 ksi up");
        let (cold, cool) = ("27 J at -20 °F", "27 J at 0 °F");
        for (text, strength, impact, positions, polarity, passes) in [
            ("E6010", low, cold, OPEN, "DCEP", "multiple"),
            ("E6011", low, cold, OPEN, "AC DCEP", "multiple"),
            ("E6012", low, "no impact", OPEN, "AC DCEN", "multiple"),
            ("E6013", low, "no impact", OPEN, "AC DCEP DCEN", "multiple"),
            ("E6019", low, cool, OPEN, "AC DCEP DCEN", "multiple"),
            ("E6020", low, "no impact", flat, "AC DCEP DCEN", "multiple"),
            ("E6022", "60 ksi up; -", "no impact", flat, "AC DCEN", "single"),
            ("E6027", low, cold, flat, "AC DCEP DCEN", "multiple"),
            ("E7014", high, "no impact", OPEN, "AC DCEP DCEN", "multiple"),
            ("E7015", high, cold, OPEN, "DCEP", "multiple"),
            ("E7016", high, cold, OPEN, "AC DCEP", "multiple"),
            ("E7018", high, cold, OPEN, "AC DCEP", "multiple"),
            ("E7018M", "-; 53 ksi to 72 ksi", "67 J at -20 °F", OPEN, "DCEP", "multiple"),
            ("E7024", high, "no impact", flat, "AC DCEP DCEN", "multiple"),
            ("E7027", high, cold, flat, "AC DCEP DCEN", "multiple"),
            ("E7028", high, cool, flat, "AC DCEP", "multiple"),
            ("E7048", high, cold, down, "AC DCEP", "multiple"),
        ] {
            let expected = format!(
                "covered-electrode; {strength}; {impact}; {positions}; no gas; {polarity}; -; \
                 {passes}; 111"
            );
            assert_eq!(read(text), expected, "{text}");
        }
    }

    /// Same guide: -50 °F for E7016-1; of E7018-1 and E7024-1 from memory. H: mL per 100 g.
    #[test]
    fn suffixes_are_decoded() {
        for text in ["E7018-1 H4R", "E7018-1H4R", "E7018-1-H4 R", "e7018-1 h4r"] {
            assert_eq!(
                read(text),
                format!(
                    "covered-electrode; 70 ksi up; 58 ksi up; 27 J at -50 °F; {OPEN}; no gas; AC \
                     DCEP; 4 mL/100g; multiple; 111"
                ),
                "{text}"
            );
        }
        assert!(read("E7016-1").contains("27 J at -50 °F"));
        assert!(read("E7024-1").contains("27 J at 0 °F"));
        assert!(notes("E7016-1").is_empty());
        assert!(notes("E7018-1").iter().any(|note| note.contains("from memory")));
        assert!(notes("E7018 R").iter().any(|note| note.contains("moisture")));
    }

    /// A second guide prints the MPa column beside ksi: 430/330 and 490/400.
    #[test]
    fn the_si_form_keeps_its_own_figures() {
        assert_eq!(
            read("E4918"),
            format!(
                "covered-electrode; 490 MPa up; 400 MPa up; 27 J at -30 °C; {OPEN}; no gas; AC DCEP; -; \
                 multiple; 111"
            )
        );
        assert!(read("E4310").starts_with("covered-electrode; 430 MPa up; 330 MPa up;"));
    }

    #[test]
    fn iron_oxide_coverings_name_the_current_for_fillets() {
        for text in ["E6020", "E6027", "E7027"] {
            assert_eq!(notes(text), ["horizontal fillets: AC or DCEN"], "{text}");
        }
        assert!(notes("E7024").is_empty());
    }

    #[test]
    fn refusals_say_where() {
        refused("E7026", 3, "26", "position and covering digits");
        refused("E6018", 3, "18", "position and covering digits");
        refused("E7010", 3, "10", "position and covering digits");
        refused("AWS A5.1 E9018", 10, "9018", "strength of A5.1");
        refused("E6013-1", 5, "-1", "the end");
        refused("E7018 H6", 6, "H6", "H4");
        refused("E70188", 5, "8", "the end");
    }
}
