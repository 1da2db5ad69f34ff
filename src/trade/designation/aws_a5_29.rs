//! AWS A5.29/A5.29M, low-alloy flux-cored wires: `E81T1-Ni1C`, `E91T1-K2M-J H4`.

use super::cursor::Cursor;
use super::facts::{self, Facts, FillerKind, Strength, System};
use super::flux_cored_usage::{self as flux_cored, CodedUsage, Shielding};
use super::{DesignationError, GasRequirement, aws_alloy, aws_impact};

/// Least and greatest tensile and least yield strength of a strength symbol.
#[derive(Debug, Clone, Copy)]
enum Grade {
    /// In ksi, from memory.
    Us(i64, i64, i64),
    /// In MPa: ten times the symbol is the least tensile strength, from memory.
    Si(i64),
}
use Grade::{Si, Us};

const GRADES: &[(&str, Grade)] = &[
    ("6", Us(60, 80, 50)),
    ("7", Us(70, 90, 58)),
    ("8", Us(80, 100, 68)),
    ("9", Us(90, 110, 78)),
    ("10", Us(100, 120, 88)),
    ("11", Us(110, 130, 98)),
    ("12", Us(120, 140, 108)),
    ("43", Si(430)),
    ("49", Si(490)),
    ("55", Si(550)),
    ("62", Si(620)),
    ("69", Si(690)),
    ("76", Si(760)),
    ("83", Si(830)),
];

impl Grade {
    fn strength(self) -> Strength {
        match self {
            Us(low, high, yielding) => Strength {
                tensile: System::Us.between(low, high),
                yield_strength: System::Us.at_least(yielding),
            },
            Si(low) => Strength { tensile: System::Si.at_least(low), yield_strength: None },
        }
    }

    /// Least tensile strength in 10 ksi, that of the class beside it for a symbol in MPa.
    const fn level(self) -> (System, i64) {
        match self {
            Us(low, ..) => (System::Us, low / 10),
            // 430, 490, 550, 620, 690, 760 and 830 MPa stand beside 60 to 120 ksi.
            Si(low) => (System::Si, (low + 10) / 70),
        }
    }
}

const CODES: &[&str] = &["1", "4", "5", "6", "7", "8", "11", "G"];

const ALLOYS: &[&str] = &[
    "A1", "B1", "B1L", "B2", "B2L", "B2H", "B3", "B3L", "B3H", "B6", "B6L", "B8", "B8L", "B9",
    "Ni1", "Ni2", "Ni3", "D1", "D2", "D3", "K1", "K2", "K3", "K4", "K5", "K6", "K7", "K8", "K9",
    "W2", "G",
];

/// `E` strength position `T` usability `-` alloy gas `-J` `H`. No hyphen behind `T`.
///
/// # Source
/// Fields: AWS A5.29:2010, abstract; their values are from memory.
pub(super) fn parse(cursor: &mut Cursor<'_>) -> Result<Facts, DesignationError> {
    cursor.need_word("E", "E for electrode")?;
    cursor.skip_blanks();
    let grade = cursor.need(GRADES, "the strength of A5.29")?;
    let at_position = *cursor;
    let all_positions = cursor.need(&[("0", false), ("1", true)], "the position digit")?;
    cursor.need_word("T", "T for a tubular wire")?;
    let coded = flux_cored::read(cursor, CODES)?;
    let mut facts = Facts {
        strength: grade.strength(),
        usability: Some(coded.positions(all_positions, &at_position)?),
        polarity: coded.polarity(all_positions),
        single_pass_only: Some(coded.usage.single_pass),
        usability_code: Some(coded.code),
        ..Facts::unstated(FillerKind::TubularWire, &[])
    };
    cursor.need_word("-", "the hyphen before the alloy symbol, as in E81T1-Ni1C")?;
    aws_alloy::read(cursor, ALLOYS, &mut facts)?;
    let (system, tens) = grade.level();
    aws_impact::tubular(&mut facts, system, tens, coded.code);
    facts.gas = gas(cursor, coded)?;
    (facts.kind, facts.processes) = coded.kind(facts.gas);
    let tougher = cursor.suffix(&[("J", ())]).is_some();
    facts.hydrogen = cursor.suffix(&[("H4", 4), ("H8", 8), ("H16", 16)]).and_then(facts::hydrogen);
    cursor.end("a gas letter, J, H4, H8, H16, or the end of the designation")?;
    note(&mut facts, coded, tougher);
    aws_alloy::heat_treated_if_creep_resisting(&mut facts);
    Ok(facts)
}

fn gas(cursor: &mut Cursor<'_>, coded: CodedUsage) -> Result<GasRequirement, DesignationError> {
    let at_gas = *cursor;
    let gases = [("C", GasRequirement::Co2), ("M", GasRequirement::ArgonCo2Test)];
    match cursor.symbol(&gases) {
        Some(gas) => coded.check_gas(gas, &at_gas).map(|()| gas),
        None if coded.usage.shielding == Shielding::Own => Ok(GasRequirement::SelfShielded),
        None => Ok(GasRequirement::NotStated),
    }
}

fn note(facts: &mut Facts, coded: CodedUsage, tougher: bool) {
    let no_letter =
        coded.usage.shielding == Shielding::Gas && facts.gas == GasRequirement::NotStated;
    facts.notes.push("strength, and the usability code taken over from A5.20, are from memory");
    facts.notes.extend(no_letter.then_some("no gas letter: which gas was used is not known"));
    facts.notes.extend(tougher.then_some("J: improved toughness; its test is not held here"));
}

#[cfg(test)]
mod tests {
    use crate::trade::designation::tests::{alloy, notes, read, refused};

    const UP: &str = "PA PB PC PD PE PF PH H-L045 up";

    /// AWS A5.29:2010, abstract, for the fields; all values from memory, usability codes as the
    /// table of A5.20/A5.20M:2005 in a vocational textbook.
    #[test]
    fn designations_are_decoded() {
        for (text, expected, alloyed) in [
            (
                "E81T1-Ni1C",
                format!("flux-cored-wire; 80 ksi to 100 ksi; 68 ksi up; 27 J at -20 °F; {UP}; CO2; DCEP; -; multiple; 136"),
                "Ni1; low-alloy; -",
            ),
            (
                "E91T1-K2M-J H4",
                format!("flux-cored-wire; 90 ksi to 110 ksi; 78 ksi up; 27 J at 0 °F; {UP}; 75-80 Ar; DCEP; 4 mL/100g; multiple; 136"),
                "K2; low-alloy; -",
            ),
            (
                "E81T5-B2M",
                format!("flux-cored-wire; 80 ksi to 100 ksi; 68 ksi up; no impact; {UP}; 75-80 Ar; DCEP DCEN; -; multiple; 136"),
                "B2; chromium-molybdenum; post-weld-heat-treated",
            ),
            (
                "E71T8-K6",
                format!("self-shielded-flux-cored-wire; 70 ksi to 90 ksi; 58 ksi up; 27 J at -20 °F; {UP}; no gas; DCEN; -; multiple; 114"),
                "K6; low-alloy; -",
            ),
            (
                "E80T1-W2C",
                "flux-cored-wire; 80 ksi to 100 ksi; 68 ksi up; 27 J at -20 °F; PA PB PC none; CO2; DCEP; -; multiple; 136".to_owned(),
                "W2; low-alloy; -",
            ),
            (
                "E101T1-GM",
                format!("flux-cored-wire; 100 ksi to 120 ksi; 88 ksi up; impact as agreed; {UP}; 75-80 Ar; DCEP; -; multiple; 136"),
                "G; -; -",
            ),
            (
                "E551T1-Ni1C",
                format!("flux-cored-wire; 550 MPa up; -; 27 J at -30 °C; {UP}; CO2; DCEP; -; multiple; 136"),
                "Ni1; low-alloy; -",
            ),
        ] {
            assert_eq!(read(text), expected, "{text}");
            assert_eq!(alloy(text), alloyed, "{text}");
            assert!(notes(text).iter().any(|note| note.contains("from memory")), "{text}");
        }
    }

    #[test]
    fn suffixes_may_stand_apart_or_together() {
        for text in ["E91T1-K2MJ H4", "E91T1-K2MJH4", "e91t1-k2m-j-h4"] {
            assert_eq!(read(text), read("E91T1-K2M-J H4"), "{text}");
        }
        assert!(notes("E91T1-K2M-J").iter().any(|note| note.starts_with("J: ")));
        assert!(notes("E81T1-Ni1").iter().any(|note| note.starts_with("no gas letter")));
        assert_eq!(alloy("E81T1-B2HM"), "B2H; chromium-molybdenum; post-weld-heat-treated");
        assert_eq!(alloy("E71T8-Ni1H4"), "Ni1; low-alloy; -");
    }

    #[test]
    fn refusals_say_where() {
        refused("E71T8-K6C", 8, "C", "T8 shields itself");
        refused("E71T4-Ni1", 2, "1T4-Ni1", "0, the only position digit");
        refused("E81T2-Ni1C", 4, "2-Ni1C", "usability code");
        refused("E131T1-Ni1C", 1, "131T1-Ni1C", "strength of A5.29");
        refused("E81T1-Ni1X", 9, "X", "a gas letter");
        refused("E81T1-Ni1C H5", 11, "H5", "H4");
        refused("AWS A5.29 E81T1", 15, "end of text", "hyphen before the alloy");
        refused("AWS A5.29 E71T-1C", 14, "-1C", "usability code");
    }
}
