//! AWS A5.1/A5.1M, carbon-steel covered electrodes: `E7018-1 H4R`.

use crate::quantity::Range;
use crate::trade::{Polarity, Process};

use super::cursor::Cursor;
use super::facts::{self, Facts, FillerKind, Impact, PolarityRule, Strength, System};
use super::usability::{ALL_DIRECTION_OPEN, ALL_DOWN, FLAT_AND_HORIZONTAL_FILLET, Usability};
use super::{DesignationError, GasRequirement};

const DCEP: &[Polarity] = &[Polarity::Dcep];
const AC_DCEP: &[Polarity] = &[Polarity::Ac, Polarity::Dcep];
const AC_DCEN: &[Polarity] = &[Polarity::Ac, Polarity::Dcen];
const ANY: &[Polarity] = &[Polarity::Ac, Polarity::Dcep, Polarity::Dcen];

/// Test temperature of 27 J (20 ft·lbf) in °F and °C; `None`: no test.
type At = Option<(i64, i64)>;
const MINUS_30: At = Some((-20, -30));
const MINUS_20: At = Some((0, -20));

/// Class digits, strength class in ksi, yield in ksi, impact, polarities.
type Class = (&'static str, i64, Option<i64>, At, &'static [Polarity]);

/// The class table of A5.1/A5.1M as a one-page guide prints it.
const CLASSES: &[Class] = &[
    ("10", 60, Some(48), MINUS_30, DCEP),
    ("11", 60, Some(48), MINUS_30, AC_DCEP),
    ("12", 60, Some(48), None, AC_DCEN),
    ("13", 60, Some(48), None, ANY),
    ("19", 60, Some(48), MINUS_20, ANY),
    ("20", 60, Some(48), None, ANY),
    ("22", 60, None, None, AC_DCEN),
    ("27", 60, Some(48), MINUS_30, ANY),
    ("14", 70, Some(58), None, ANY),
    ("15", 70, Some(58), MINUS_30, DCEP),
    ("16", 70, Some(58), MINUS_30, AC_DCEP),
    ("18", 70, Some(58), MINUS_30, AC_DCEP),
    ("24", 70, Some(58), None, ANY),
    ("27", 70, Some(58), MINUS_30, ANY),
    ("28", 70, Some(58), MINUS_20, AC_DCEP),
    ("48", 70, Some(58), MINUS_30, AC_DCEP),
];

const STRENGTHS: &[(&str, (System, i64))] = &[
    ("60", (System::Us, 60)),
    ("70", (System::Us, 70)),
    ("43", (System::Si, 60)),
    ("49", (System::Si, 70)),
];

/// `E` strength, position and covering digits, `M`, `-1`, `H`, `R`.
pub(super) fn parse(cursor: &mut Cursor<'_>) -> Result<Facts, DesignationError> {
    cursor.need_word("E", "E for electrode")?;
    cursor.skip_blanks();
    let (system, ksi) = cursor.need(STRENGTHS, "the strength of A5.1")?;
    let known: Vec<_> =
        CLASSES.iter().filter(|class| class.1 == ksi).map(|class| (class.0, class)).collect();
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
        facts.notes.push("R: covering picks up little moisture; limit 0.3 or 0.4 % by edition");
    }
    Ok(facts)
}

fn facts(
    system: System,
    &(digits, ksi, yield_ksi, at, polarities): &Class,
    hydrogen: Option<crate::quantity::HydrogenContent>,
) -> Facts {
    let strength = match system {
        System::Us => Strength {
            tensile: system.at_least(ksi),
            yield_strength: yield_ksi.and_then(|ksi| system.at_least(ksi)),
        },
        System::Si => Strength {
            tensile: system.at_least(if ksi == 60 { 430 } else { 490 }),
            yield_strength: None,
        },
    };
    Facts {
        kind: FillerKind::CoveredElectrode,
        strength,
        impact: at.map_or(Impact::NotRequired, |at| system.impact(27, at)),
        usability: Some(usability(digits)),
        gas: GasRequirement::SelfShielded,
        polarity: PolarityRule::Stated(polarities),
        hydrogen,
        single_pass_only: Some(digits == "22"),
        processes: &[Process::ManualMetalArc],
        notes: notes(system, digits, ksi),
    }
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

fn notes(system: System, digits: &str, ksi: i64) -> Vec<&'static str> {
    [
        (system == System::Si, "strength in MPa is from memory"),
        (digits == "20", "horizontal fillets: AC or DCEN"),
        (digits == "27" && ksi == 60, "horizontal fillets: AC or DCEN"),
    ]
    .into_iter()
    .filter_map(|(holds, note)| holds.then_some(note))
    .collect()
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
