//! ISO 18276-A, high-strength tubular wires by yield strength and 47 J:
//! `T 69 4 Mn2NiMo P M21 2 H5`.

use super::cursor::Cursor;
use super::facts::{Facts, FillerKind, Strength, System};
use super::iso_17632_a::core_gas;
use super::{AlloyFamily, DesignationError, WeldCondition, iso_symbols as iso};

/// Yield, least and greatest tensile strength in MPa, from memory.
const STRENGTHS: &[(&str, (i64, i64, i64))] = &[
    ("55", (550, 640, 820)),
    ("62", (620, 700, 890)),
    ("69", (690, 770, 940)),
    ("79", (790, 880, 1080)),
    ("89", (890, 940, 1180)),
];

/// Symbols of the weld metal, from memory; Z is any other.
const COMPOSITIONS: &[(&str, Option<AlloyFamily>)] = {
    const LOW_ALLOY: Option<AlloyFamily> = Some(AlloyFamily::LowAlloy);
    &[
        ("MnMo", LOW_ALLOY),
        ("Mn1Ni", LOW_ALLOY),
        ("Mn1.5Ni", LOW_ALLOY),
        ("Mn2.5Ni", LOW_ALLOY),
        ("1NiMo", LOW_ALLOY),
        ("1.5NiMo", LOW_ALLOY),
        ("2NiMo", LOW_ALLOY),
        ("Mn1NiMo", LOW_ALLOY),
        ("Mn2NiMo", LOW_ALLOY),
        ("Mn2NiCrMo", LOW_ALLOY),
        ("Mn2Ni1CrMo", LOW_ALLOY),
        ("Z", None),
    ]
};

const FROM_MEMORY: &str = "strength and composition symbols of ISO 18276-A are from memory";

/// `T` strength impact composition core gas position `T` `H`; the last three may be missing. `T` at
/// the end: stress-relieved.
pub(super) fn parse(cursor: &mut Cursor<'_>) -> Result<Facts, DesignationError> {
    cursor.need_word("T", "T for a tubular wire")?;
    cursor.skip_blanks();
    let mut facts = Facts::unstated(FillerKind::TubularWire, &[]);
    let (yielding, low, high) = cursor.need(STRENGTHS, "the strength symbol")?;
    facts.strength = Strength {
        tensile: System::Si.between(low, high),
        yield_strength: System::Si.at_least(yielding),
    };
    facts.impact = iso::impact(cursor)?;
    facts.single_pass_only = Some(false);
    facts.notes.push(FROM_MEMORY);
    cursor.skip_blanks();
    let start = *cursor;
    facts.family = cursor.need(COMPOSITIONS, "the composition symbol")?;
    facts.composition = Some(cursor.since(&start).to_owned());
    core_gas(cursor, &mut facts)?;
    iso::position(cursor, &mut facts);
    let relieved = cursor.suffix(&[("T", ())]).is_some();
    facts.condition =
        Some(if relieved { WeldCondition::HeatTreated } else { WeldCondition::AsWelded });
    facts.hydrogen = iso::hydrogen(cursor);
    cursor.end("a position digit, T, H5, H10, H15, or the end of the designation")?;
    Ok(facts)
}

#[cfg(test)]
mod tests {
    use crate::trade::designation::tests::{alloy, notes, read, refused};

    /// From memory; impact and position symbols as the A systems share them, in a one-page guide.
    #[test]
    fn designations_are_decoded() {
        let up = "PA PB PC PD PE PF PH H-L045 up";
        let all = "PA PB PC PD PE PF PG PH PJ PK H-L045 J-L045 either";
        for (text, expected, composition) in [
            (
                "T 62 5 Mn1.5Ni B M 3 H5",
                "flux-cored-wire; 700 MPa to 890 MPa; 620 MPa up; 47 J at -50 °C; PA PB none; M2 \
                 without He; -; 5 mL/100g; multiple; 136"
                    .to_owned(),
                "Mn1.5Ni",
            ),
            (
                "T 69 4 Mn2NiMo P M21 2 H5",
                format!(
                    "flux-cored-wire; 770 MPa to 940 MPa; 690 MPa up; 47 J at -40 °C; {up}; M21; -; 5 mL/100g; multiple; 136"
                ),
                "Mn2NiMo",
            ),
            (
                "T 55 4 1NiMo P M21 1 H5",
                format!(
                    "flux-cored-wire; 640 MPa to 820 MPa; 550 MPa up; 47 J at -40 °C; {all}; M21; -; 5 mL/100g; multiple; 136"
                ),
                "1NiMo",
            ),
            (
                "T 89 4 Mn2Ni1CrMo M M21 3 H5",
                "metal-cored-wire; 940 MPa to 1180 MPa; 890 MPa up; 47 J at -40 °C; PA PB none; \
                 M21; -; 5 mL/100g; multiple; 138"
                    .to_owned(),
                "Mn2Ni1CrMo",
            ),
        ] {
            assert_eq!(read(text), expected, "{text}");
            assert_eq!(alloy(text), format!("{composition}; low-alloy; as-welded"), "{text}");
            assert!(notes(text).contains(&super::FROM_MEMORY), "{text}");
        }
        assert!(read("T 79 4 Z P M21").contains("880 MPa to 1080 MPa; 790 MPa up"));
        assert_eq!(alloy("T 79 4 Z P M21"), "Z; -; as-welded");
        assert_eq!(
            alloy("T 69 4 Mn2NiMo P M21 2 T H5"),
            "Mn2NiMo; low-alloy; post-weld-heat-treated"
        );
    }

    #[test]
    fn refusals_say_where() {
        refused("T 69 4 P M21 2 H5", 7, "P", "composition symbol");
        refused("T 69 1 Mn2NiMo P M21", 5, "1", "impact symbol");
        refused("T 69 4 Mn2NiMo X M21", 15, "X", "core symbol");
        refused("T 69 4 Mn2NiMo P M21 6", 21, "6", "position digit");
        refused("ISO 18276-A T 46 4 P M21", 14, "46", "strength symbol");
    }
}
