//! AWS A5.18/A5.18M:2005, carbon-steel wires and rods for gas-shielded arcs: `ER70S-6`,
//! `E70C-6M H4`.

use crate::trade::Process;

use super::cursor::Cursor;
use super::facts::{self, Facts, FillerKind, Impact, Strength, System};
use super::{AlloyFamily, DesignationError, GasRequirement};

/// Impact energy of a class, always 27 J (20 ft·lbf).
#[derive(Debug, Clone, Copy)]
enum Toughness {
    /// At this many °F and, in the SI form, °C.
    At(i64, i64),
    NotRequired,
    AsAgreed,
}
use Toughness::{AsAgreed, At, NotRequired};

/// Classes of solid wire. Toughness from memory.
const SOLID: &[(&str, Toughness)] = &[
    ("2", At(-20, -30)),
    ("3", At(0, -20)),
    ("4", NotRequired),
    ("6", At(-20, -30)),
    ("7", At(-20, -30)),
    ("G", AsAgreed),
];

/// One class of composite wire: its code, and whether a gas letter belongs to it.
type Composite = (&'static str, bool, Toughness);

/// Classes of composite wire. Toughness from memory, but for -6M, which AWS D1.1:2020, Annex M
/// repeats.
const COMPOSITE: &[(&str, Composite)] = &[
    ("3", ("3", true, At(0, -20))),
    ("6", ("6", true, At(-20, -30))),
    ("G", ("G", false, AsAgreed)),
    ("GS", ("GS", false, NotRequired)),
];

/// What a solid wire or rod serves.
pub(super) const SOLID_PROCESSES: &[Process] =
    &[Process::MagSolidWire, Process::TigSolidFiller, Process::Plasma];

const STRENGTHS: &[(&str, System)] = &[("70", System::Us), ("48", System::Si)];
const FROM_MEMORY: &str = "toughness of the class is from memory";

/// `ER` strength `S-` class, or `E` strength `C-` class gas; then `N` and `H`.
pub(super) fn parse(cursor: &mut Cursor<'_>) -> Result<Facts, DesignationError> {
    let solid = cursor.take("ER");
    if !solid {
        cursor.need_word("E", "ER or E")?;
    }
    cursor.skip_blanks();
    let system = cursor.need(STRENGTHS, "the strength of A5.18")?;
    let mut facts =
        if solid { solid_wire(cursor, system)? } else { composite_wire(cursor, system)? };
    let _ = cursor.suffix(&[("N", ())]);
    facts.hydrogen = cursor.suffix(&[("H4", 4), ("H8", 8), ("H16", 16)]).and_then(facts::hydrogen);
    cursor.end("N, H4, H8, H16, or the end of the designation")?;
    Ok(facts)
}

fn solid_wire(cursor: &mut Cursor<'_>, system: System) -> Result<Facts, DesignationError> {
    cursor.need_word("S", "S for a solid wire behind ER")?;
    cursor.need_word("-", "the hyphen before the class")?;
    let toughness = cursor.need(SOLID, "the class of a solid wire of A5.18")?;
    let mut facts = wire(system, toughness);
    facts.notes.push("tested in CO2 (from memory); other gases by agreement");
    facts.notes.push(FROM_MEMORY);
    Ok(facts)
}

fn composite_wire(cursor: &mut Cursor<'_>, system: System) -> Result<Facts, DesignationError> {
    cursor.need_word("C", "C for a composite wire behind E")?;
    cursor.need_word("-", "the hyphen before the class")?;
    let (code, needs_gas, toughness) =
        cursor.need(COMPOSITE, "the class of a composite wire of A5.18")?;
    let gases = [("C", GasRequirement::Co2), ("M", GasRequirement::ArgonCo2Test)];
    let gas = cursor.symbol(&gases);
    if needs_gas && gas.is_none() {
        return Err(cursor.wrong(format!("the gas letter of class {code} (C, M)")));
    }
    let mut facts = Facts {
        kind: FillerKind::MetalCoredWire,
        gas: gas.unwrap_or(GasRequirement::NotStated),
        processes: &[Process::MagMetalCored],
        single_pass_only: Some(code == "GS"),
        usability_code: (code == "GS").then_some("GS"),
        ..wire(system, toughness)
    };
    if (code, facts.gas) != ("6", GasRequirement::ArgonCo2Test) {
        facts.notes.push(FROM_MEMORY);
    }
    if code == "GS" {
        facts.notes.push("that the class is for single passes is from memory");
    }
    Ok(facts)
}

/// What all classes share; a solid wire unless changed.
fn wire(system: System, toughness: Toughness) -> Facts {
    Facts {
        strength: strength(system),
        impact: match toughness {
            At(fahrenheit, celsius) => system.impact(27, (fahrenheit, celsius)),
            NotRequired => Impact::NotRequired,
            AsAgreed => Impact::AsAgreed,
        },
        single_pass_only: Some(false),
        family: Some(AlloyFamily::Unalloyed),
        notes: match system {
            System::Us => vec!["yield strength of 58 ksi is from memory"],
            System::Si => Vec::new(),
        },
        ..Facts::unstated(FillerKind::SolidWire, SOLID_PROCESSES)
    }
}

/// 70 ksi (480 MPa) tensile as the class number says; 58 ksi yield from memory.
fn strength(system: System) -> Strength {
    match system {
        System::Us => {
            Strength { tensile: system.at_least(70), yield_strength: system.at_least(58) }
        }
        System::Si => Strength { tensile: system.at_least(480), yield_strength: None },
    }
}

#[cfg(test)]
mod tests {
    use crate::trade::designation::tests::{notes, read, refused};

    /// ASME SFA-5.18:2007 = AWS A5.18/A5.18M:2005, Table 1, for the classes; 58 ksi yield and
    /// impact temperatures from memory, -6M as AWS D1.1:2020, Annex M, repeats it.
    #[test]
    fn classes_are_decoded() {
        let solid = "solid-wire; 70 ksi up; 58 ksi up";
        let rest = "-; -; -; -; multiple; 135 141 15";
        for (text, expected) in [
            ("ER70S-6", format!("{solid}; 27 J at -20 °F; {rest}")),
            ("ER70S-3", format!("{solid}; 27 J at 0 °F; {rest}")),
            ("ER70S-2", format!("{solid}; 27 J at -20 °F; {rest}")),
            ("ER70S-4", format!("{solid}; no impact; {rest}")),
            ("ER70S-7", format!("{solid}; 27 J at -20 °F; {rest}")),
            ("ER70S-G", format!("{solid}; impact as agreed; {rest}")),
            ("ER48S-6", format!("solid-wire; 480 MPa up; -; 27 J at -30 °C; {rest}")),
            (
                "E70C-6M H4",
                "metal-cored-wire; 70 ksi up; 58 ksi up; 27 J at -20 °F; -; 75-80 Ar; -; \
                 4 mL/100g; multiple; 138"
                    .to_owned(),
            ),
            (
                "E70C-3C",
                "metal-cored-wire; 70 ksi up; 58 ksi up; 27 J at 0 °F; -; CO2; -; -; multiple; 138"
                    .to_owned(),
            ),
            (
                "E70C-GS",
                "metal-cored-wire; 70 ksi up; 58 ksi up; no impact; -; -; -; -; single; 138"
                    .to_owned(),
            ),
        ] {
            assert_eq!(read(text), expected, "{text}");
        }
    }

    #[test]
    fn values_from_memory_are_marked() {
        for text in ["ER70S-6", "ER70S-3", "E70C-3M", "E70C-GS"] {
            assert!(notes(text).contains(&super::FROM_MEMORY), "{text}");
        }
        assert!(!notes("E70C-6M").contains(&super::FROM_MEMORY));
    }

    #[test]
    fn a_nuclear_suffix_changes_nothing_that_is_stated() {
        assert_eq!(read("ER70S-6N"), read("ER70S-6"));
    }

    #[test]
    fn refusals_say_where() {
        refused("ER70S-5", 6, "5", "class of a solid wire");
        refused("ER70C-6M", 4, "C-6M", "S for a solid wire");
        refused("E70S-6", 3, "S-6", "C for a composite wire");
        refused("E70C-6", 6, "end of text", "gas letter");
        refused("ER70S6", 5, "6", "hyphen");
        refused("ER70S-6M", 7, "M", "the end");
    }
}
