//! AWS A5.20/A5.20M:2005, carbon-steel flux-cored wires: `E71T-1C`, `E71T-12M-J H8`.

use super::cursor::Cursor;
use super::facts::{self, Facts, Impact, Strength, System};
use super::flux_cored_usage::{
    self as flux_cored, CodedUsage, Shielding,
    Toughness::{AsAgreed, At, NotRequired, NotRequiredFromMemory},
};
use super::{AlloyFamily, DesignationError, GasRequirement, Usability};

const CODES: &[&str] =
    &["1", "2", "3", "4", "5", "6", "7", "8", "9", "10", "11", "12", "13", "14", "G", "GS"];

/// The strength field, US or SI.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Grade {
    Ksi70,
    Ksi60,
    Mpa490,
    Mpa430,
}

impl Grade {
    const fn system(self) -> System {
        match self {
            Self::Ksi70 | Self::Ksi60 => System::Us,
            Self::Mpa490 | Self::Mpa430 => System::Si,
        }
    }
}

const GRADES: &[(&str, Grade)] =
    &[("7", Grade::Ksi70), ("6", Grade::Ksi60), ("49", Grade::Mpa490), ("43", Grade::Mpa430)];

/// The fields of one designation, as typed.
struct Fields {
    grade: Grade,
    all_positions: bool,
    coded: CodedUsage,
    usability: Usability,
    gas: Option<GasRequirement>,
    improved_toughness: bool,
    extra_tests: bool,
}

/// `E` strength position `T-` usability gas `-J` `D|Q` `H`.
pub(super) fn parse(cursor: &mut Cursor<'_>) -> Result<Facts, DesignationError> {
    let fields = fields(cursor)?;
    let hydrogen = cursor.suffix(&[("H4", 4), ("H8", 8), ("H16", 16)]).and_then(facts::hydrogen);
    let may_name_gas = fields.coded.usage.shielding != Shielding::Own
        && fields.gas.is_none()
        && !(fields.improved_toughness || fields.extra_tests);
    cursor.end(if may_name_gas {
        "C or M for the gas, J, D or Q, H4, H8, H16, or the end of the designation"
    } else {
        "J, D or Q, H4, H8, H16, or the end of the designation"
    })?;
    let gas = gas(&fields);
    let (kind, processes) = fields.coded.kind(gas);
    Ok(Facts {
        strength: strength(&fields),
        impact: impact(&fields),
        usability: Some(fields.usability),
        gas,
        polarity: fields.coded.polarity(fields.all_positions),
        hydrogen,
        single_pass_only: Some(fields.coded.usage.single_pass),
        usability_code: Some(fields.coded.code),
        family: Some(AlloyFamily::Unalloyed),
        notes: notes(&fields),
        ..Facts::unstated(kind, processes)
    })
}

fn fields(cursor: &mut Cursor<'_>) -> Result<Fields, DesignationError> {
    cursor.need_word("E", "E for electrode")?;
    cursor.skip_blanks();
    let at_strength = *cursor;
    let grade = cursor.need(GRADES, "the strength of A5.20")?;
    let at_position = *cursor;
    let all_positions = cursor.need(&[("0", false), ("1", true)], "the position digit")?;
    cursor.need_word("T", "T for a tubular wire")?;
    cursor.need_word("-", "the hyphen behind T of A5.20, as in E71T-1C")?;
    let coded = flux_cored::read(cursor, CODES)?;
    let usability = coded.positions(all_positions, &at_position)?;
    let lower = matches!(grade, Grade::Ksi60 | Grade::Mpa430);
    if lower && !matches!(coded.code, "13" | "G" | "GS") {
        return Err(at_strength.wrong(format!("7 or 49, the strength of T{}", coded.code)));
    }
    let at_gas = *cursor;
    let gas = cursor.symbol(&[("C", GasRequirement::Co2), ("M", GasRequirement::ArgonCo2Test)]);
    if let Some(gas) = gas {
        coded.check_gas(gas, &at_gas)?;
    }
    let improved_toughness = cursor.suffix(&[("J", ())]).is_some();
    let extra_tests = cursor.suffix(&[("D", ()), ("Q", ())]).is_some();
    Ok(Fields { grade, all_positions, coded, usability, gas, improved_toughness, extra_tests })
}

fn gas(fields: &Fields) -> GasRequirement {
    match fields.coded.usage.shielding {
        Shielding::Own => GasRequirement::SelfShielded,
        Shielding::Gas | Shielding::Open => fields.gas.unwrap_or(GasRequirement::NotStated),
    }
}

/// AWS D1.1:2020, Annex M: 70 to 95 ksi, T-12 to 90 ksi, yield 58 ksi. The MPa form, and that
/// single-pass classes state a least tensile strength only, are from memory.
fn strength(fields: &Fields) -> Strength {
    let least =
        |number| Strength { tensile: fields.grade.system().at_least(number), yield_strength: None };
    match fields.grade {
        Grade::Mpa490 => least(490),
        Grade::Mpa430 => least(430),
        Grade::Ksi60 => least(60),
        Grade::Ksi70 if fields.coded.usage.single_pass => least(70),
        Grade::Ksi70 => {
            let upper = if fields.coded.code == "12" { 90 } else { 95 };
            Strength {
                tensile: System::Us.between(70, upper),
                yield_strength: System::Us.at_least(58),
            }
        }
    }
}

/// J is 20 ft·lbf at -40 °F (27 J at -40 °C), from memory.
fn impact(fields: &Fields) -> Impact {
    match fields.coded.usage.toughness {
        _ if fields.improved_toughness => fields.grade.system().impact(27, (-40, -40)),
        At(fahrenheit, celsius) => fields.grade.system().impact(27, (fahrenheit, celsius)),
        NotRequired | NotRequiredFromMemory => Impact::NotRequired,
        AsAgreed => Impact::AsAgreed,
    }
}

fn notes(fields: &Fields) -> Vec<&'static str> {
    let usage = fields.coded.usage;
    let toughness_from_memory =
        matches!(usage.toughness, NotRequiredFromMemory) && !fields.improved_toughness;
    let unstated_gas = usage.shielding == Shielding::Gas && fields.gas.is_none();
    [
        (fields.grade.system() == System::Si, "strength in MPa is from memory"),
        (fields.grade == Grade::Ksi60, "60 ksi strength is from memory"),
        (
            fields.grade == Grade::Ksi70 && usage.single_pass,
            "that a single-pass class states a least tensile strength only is from memory",
        ),
        (fields.improved_toughness, "J, 27 J at -40 °F or -40 °C, is from memory"),
        (toughness_from_memory, "that the class needs no impact test is from memory"),
        (unstated_gas, "no gas letter: in editions before 2005 this also meant CO2 (from memory)"),
        (fields.extra_tests, "D or Q, extra tests at low and at high heat input, is from memory"),
    ]
    .into_iter()
    .filter_map(|(holds, note)| holds.then_some(note))
    .collect()
}

#[cfg(test)]
mod tests {
    use crate::trade::designation::tests::{notes, read, refused};

    /// A5.20/A5.20M:2005 usability table as a vocational textbook prints it (positions, gas,
    /// polarity, passes); strength and impact as AWS D1.1:2020, Annex M, repeats them. J, and the
    /// missing impact test of T-11 and GS, are from memory.
    #[test]
    fn classes_are_decoded() {
        let up = "PA PB PC PD PE PF PH H-L045 up";
        let down = "PA PB PC PD PE PG PJ J-L045 down";
        let us = "70 ksi to 95 ksi; 58 ksi up";
        let flux = "flux-cored-wire";
        let own = "self-shielded-flux-cored-wire";
        for (text, expected) in [
            ("E71T-1C", format!("{flux}; {us}; 27 J at 0 °F; {up}; CO2; DCEP; -; multiple; 136")),
            (
                "E71T-1M",
                format!("{flux}; {us}; 27 J at 0 °F; {up}; 75-80 Ar; DCEP; -; multiple; 136"),
            ),
            (
                "E71T-12M-J H8",
                format!(
                    "{flux}; 70 ksi to 90 ksi; 58 ksi up; 27 J at -40 °F; {up}; 75-80 Ar; DCEP; \
                     8 mL/100g; multiple; 136"
                ),
            ),
            (
                "E70T-1C",
                format!("{flux}; {us}; 27 J at 0 °F; PA PB PC none; CO2; DCEP; -; multiple; 136"),
            ),
            (
                "E71T-8",
                format!("{own}; {us}; 27 J at -20 °F; {up}; no gas; DCEN; -; multiple; 114"),
            ),
            ("E71T-11", format!("{own}; {us}; no impact; {down}; no gas; DCEN; -; multiple; 114")),
            (
                "E70T-4",
                format!("{own}; {us}; no impact; PA PB PC none; no gas; DCEP; -; multiple; 114"),
            ),
            (
                "E71T-9C H8",
                format!("{flux}; {us}; 27 J at -20 °F; {up}; CO2; DCEP; 8 mL/100g; multiple; 136"),
            ),
            (
                "E71T-GS",
                "tubular-wire; 70 ksi up; -; no impact; PA PB PC PD PE PF PG PH PJ PK H-L045 \
                 J-L045 not stated; -; -; -; single; 114 136"
                    .to_owned(),
            ),
        ] {
            assert_eq!(read(text), expected, "{text}");
        }
    }

    /// The remaining rows of the same table: polarity, gas, passes, impact.
    #[test]
    fn every_usability_code_has_its_row() {
        for (text, expected) in [
            ("E71T-2C", "no impact; up; CO2; DCEP; single"),
            ("E70T-3", "no impact; none; no gas; DCEP; single"),
            ("E70T-5C", "27 J at -20 °F; none; CO2; DCEP; multiple"),
            ("E71T-5M", "27 J at -20 °F; up; 75-80 Ar; DCEP DCEN; multiple"),
            ("E70T-6", "27 J at -20 °F; none; no gas; DCEP; multiple"),
            ("E70T-7", "no impact; none; no gas; DCEN; multiple"),
            ("E71T-7", "no impact; up; no gas; DCEN; multiple"),
            ("E70T-8", "27 J at -20 °F; none; no gas; DCEN; multiple"),
            ("E71T-9M", "27 J at -20 °F; up; 75-80 Ar; DCEP; multiple"),
            ("E70T-10", "no impact; none; no gas; DCEN; single"),
            ("E70T-11", "no impact; none; no gas; DCEN; multiple"),
            ("E71T-12C", "27 J at -20 °F; up; CO2; DCEP; multiple"),
            ("E61T-13", "no impact; down; no gas; DCEN; single"),
            ("E71T-14", "no impact; down; no gas; DCEN; single"),
            ("E70T-G", "impact as agreed; none; -; -; multiple"),
        ] {
            let line = read(text);
            let fields: Vec<_> = line.split("; ").collect();
            let direction = fields[4].split(' ').next_back().unwrap();
            let direction = if fields[4].ends_with("not stated") { "open" } else { direction };
            let got = [fields[3], direction, fields[5], fields[6], fields[8]].join("; ");
            assert_eq!(got, expected, "{text}");
        }
    }

    /// From memory: MPa strength and °C of the SI form.
    #[test]
    fn the_si_form_keeps_its_own_figures() {
        assert_eq!(
            read("E490T-1C"),
            "flux-cored-wire; 490 MPa up; -; 27 J at -20 °C; PA PB PC none; CO2; DCEP; -; \
             multiple; 136"
        );
        assert!(read("E491T-8").contains("; 27 J at -30 °C; "));
        assert!(read("E431T-13").contains("; 430 MPa up; -; no impact; "));
        assert!(notes("E490T-1C").iter().any(|note| note.contains("from memory")));
    }

    #[test]
    fn values_from_memory_are_marked() {
        for text in ["E71T-11", "E71T-GS", "E71T-12M-J H8", "E71T-1", "E61T-13", "E71T-9C-D H8"] {
            assert!(notes(text).iter().any(|note| note.contains("from memory")), "{text}");
        }
        assert!(notes("E71T-1C").is_empty());
    }

    #[test]
    fn suffixes_may_stand_apart_or_together() {
        for text in ["E71T-12MJ H8", "E71T-12M-JH8", "E71T-12M J-H8", "e71t-12m-j h8"] {
            assert_eq!(read(text), read("E71T-12M-J H8"), "{text}");
        }
        assert!(read("E71T-1C H16").contains("16 mL/100g"));
    }

    #[test]
    fn refusals_say_where() {
        refused("E71T-8C", 6, "C", "no gas letter");
        refused("E72T-1C", 2, "2T-1C", "position digit");
        refused("E71T-15C", 6, "5C", "J, D or Q");
        refused("E71T-0", 5, "0", "usability code");
        refused("E71T-", 5, "end of text", "usability code");
        refused("E71T-4", 2, "1T-4", "0, the only position digit");
        refused("E70T-13", 2, "0T-13", "1, the only position digit");
        refused("E61T-1C", 1, "61T-1C", "7 or 49");
        refused("E71T-1C H5", 8, "H5", "H4");
        refused("E71T-1CX", 7, "X", "the end");
    }
}
