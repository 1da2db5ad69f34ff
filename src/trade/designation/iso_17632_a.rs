//! ISO 17632-A, tubular wires by yield strength and 47 J: `T 46 4 P M21 1 H5`.

use crate::trade::Process;

use super::cursor::Cursor;
use super::facts::{Facts, FillerKind, Strength, System};
use super::iso_symbols as iso;
use super::{AlloyFamily, DesignationError, GasRequirement};

/// What fills the tube.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Core {
    /// Flux that needs gas: R, P, B.
    Flux,
    /// Metal powder, needs gas: M.
    Metal,
    /// Flux that needs no gas: V, W, Y.
    OwnShield,
    /// Other types, among them S and U of older editions (from memory).
    Other,
}

const CORES: &[(&str, Core)] = &[
    ("R", Core::Flux),
    ("P", Core::Flux),
    ("B", Core::Flux),
    ("M", Core::Metal),
    ("V", Core::OwnShield),
    ("W", Core::OwnShield),
    ("Y", Core::OwnShield),
    ("Z", Core::Other),
    ("S", Core::Other),
    ("U", Core::Other),
];

/// Symbols of the weld metal and their steel; Z, any other, is spelt like a core symbol. 1.5Ni is
/// from memory.
const COMPOSITIONS: &[(&str, Option<AlloyFamily>)] = {
    const LOW_ALLOY: Option<AlloyFamily> = Some(AlloyFamily::LowAlloy);
    &[
        ("Mo", LOW_ALLOY),
        ("MnMo", LOW_ALLOY),
        ("1Ni", LOW_ALLOY),
        ("1.5Ni", LOW_ALLOY),
        ("2Ni", LOW_ALLOY),
        ("3Ni", LOW_ALLOY),
        ("Mn1Ni", LOW_ALLOY),
        ("1NiMo", LOW_ALLOY),
        ("Z", None),
    ]
};

/// Single-run symbols: yield of the plate and least tensile strength of the joint in MPa, from
/// memory.
const SINGLE_RUN: &[(&str, (i64, i64))] =
    &[("2T", (275, 370)), ("3T", (355, 470)), ("4T", (420, 520)), ("5T", (500, 600))];

/// `T` strength impact composition core gas position `H`; composition, position and hydrogen may
/// be missing.
pub(super) fn parse(cursor: &mut Cursor<'_>) -> Result<Facts, DesignationError> {
    cursor.need_word("T", "T for a tubular wire")?;
    cursor.skip_blanks();
    let mut facts = Facts::unstated(FillerKind::TubularWire, &[]);
    let single_run = cursor.symbol(SINGLE_RUN);
    facts.single_pass_only = Some(single_run.is_some());
    facts.strength = match single_run {
        Some(printed) => {
            let note = "strength of a single-run class, plate and joint, is from memory";
            facts.notes.push(note);
            single_run_strength(printed)
        }
        None => iso::strength(cursor)?,
    };
    facts.impact = iso::impact(cursor)?;
    composition_core_gas(cursor, &mut facts)?;
    iso::position(cursor, &mut facts);
    facts.hydrogen = iso::hydrogen(cursor);
    cursor.end("a position digit, H5, H10, H15, or the end of the designation")?;
    Ok(facts)
}

fn single_run_strength((plate_yield, joint_tensile): (i64, i64)) -> Strength {
    Strength {
        tensile: System::Si.at_least(joint_tensile),
        yield_strength: System::Si.at_least(plate_yield),
    }
}

/// `Z` is a composition or a core; it is a composition where a core and a gas still follow.
fn composition_core_gas(
    cursor: &mut Cursor<'_>,
    facts: &mut Facts,
) -> Result<(), DesignationError> {
    cursor.skip_blanks();
    let start = *cursor;
    (facts.composition, facts.family) = iso::composition(cursor, COMPOSITIONS);
    match core_gas(cursor, facts) {
        Err(_) if facts.composition.is_some() && facts.family.is_none() => {
            *cursor = start;
            (facts.composition, facts.family) = (None, Some(AlloyFamily::Unalloyed));
            core_gas(cursor, facts)
        }
        read => read,
    }
}

/// Core and gas, and the kind and use that follow from them.
pub(super) fn core_gas(cursor: &mut Cursor<'_>, facts: &mut Facts) -> Result<(), DesignationError> {
    cursor.skip_blanks();
    let core = cursor.need(CORES, "the core symbol")?;
    cursor.skip_blanks();
    let at_gas = *cursor;
    let gas = iso::gas(cursor)?;
    if gas == GasRequirement::SelfShielded && matches!(core, Core::Flux | Core::Metal) {
        return Err(at_gas.wrong("a shielding gas, as this core needs one"));
    }
    facts.gas = gas;
    (facts.kind, facts.processes) = use_of(core, gas);
    facts.notes.extend(iso::gas_note(gas));
    Ok(())
}

fn use_of(core: Core, gas: GasRequirement) -> (FillerKind, &'static [Process]) {
    let inert = gas.is_inert();
    match core {
        _ if gas == GasRequirement::SelfShielded => {
            (FillerKind::SelfShieldedWire, &[Process::SelfShieldedFluxCored])
        }
        Core::Metal if inert => (FillerKind::MetalCoredWire, &[Process::MigMetalCored]),
        Core::Metal => (FillerKind::MetalCoredWire, &[Process::MagMetalCored]),
        Core::Flux | Core::OwnShield if inert => {
            (FillerKind::FluxCoredWire, &[Process::MigFluxCored])
        }
        Core::Flux | Core::OwnShield => (FillerKind::FluxCoredWire, &[Process::MagFluxCored]),
        Core::Other if inert => {
            (FillerKind::TubularWire, &[Process::MigFluxCored, Process::MigMetalCored])
        }
        Core::Other => (FillerKind::TubularWire, &[Process::MagFluxCored, Process::MagMetalCored]),
    }
}

#[cfg(test)]
mod tests {
    use crate::trade::designation::tests::{notes, read, refused};

    const ALL: &str = "PA PB PC PD PE PF PG PH PJ PK H-L045 J-L045 either";
    const FLUX: &str = "flux-cored-wire";

    /// Strength, impact, core, position and hydrogen symbols of ISO 17632-A as a one-page guide
    /// prints them; `T 46 3 1Ni B M 1 H5` is the guide's own example. ISO 6947 symbols of the
    /// position digits, gas letters of older editions and 1.5Ni are from memory.
    #[test]
    fn designations_are_decoded() {
        for (text, expected) in [
            (
                "T 46 4 P M21 1 H5",
                format!(
                    "{FLUX}; 530 MPa to 680 MPa; 460 MPa up; 47 J at -40 °C; {ALL}; M21; -; \
                     5 mL/100g; multiple; 136"
                ),
            ),
            (
                "T 46 3 1Ni B M 1 H5",
                format!(
                    "{FLUX}; 530 MPa to 680 MPa; 460 MPa up; 47 J at -30 °C; {ALL}; M2 without \
                     He; -; 5 mL/100g; multiple; 136"
                ),
            ),
            (
                "T 42 2 R C1 3 H10",
                format!(
                    "{FLUX}; 500 MPa to 640 MPa; 420 MPa up; 47 J at -20 °C; PA PB none; C1; -; \
                     10 mL/100g; multiple; 136"
                ),
            ),
            (
                "T 46 4 M M21 3 H5",
                "metal-cored-wire; 530 MPa to 680 MPa; 460 MPa up; 47 J at -40 °C; PA PB none; \
                 M21; -; 5 mL/100g; multiple; 138"
                    .to_owned(),
            ),
            (
                "T 42 Z W NO 3 H10",
                "self-shielded-flux-cored-wire; 500 MPa to 640 MPa; 420 MPa up; no impact; PA PB \
                 none; no gas; -; 10 mL/100g; multiple; 114"
                    .to_owned(),
            ),
            (
                "T 50 6 1.5Ni P M21 2 H5",
                format!(
                    "{FLUX}; 560 MPa to 720 MPa; 500 MPa up; 47 J at -60 °C; PA PB PC PD PE PF \
                     PH H-L045 up; M21; -; 5 mL/100g; multiple; 136"
                ),
            ),
        ] {
            assert_eq!(read(text), expected, "{text}");
        }
    }

    /// Same guide: the strength table and the impact symbols.
    #[test]
    fn strength_and_impact_symbols_are_those_of_the_table() {
        for (symbol, expected) in [
            ("35", "440 MPa to 570 MPa; 355 MPa up"),
            ("38", "470 MPa to 600 MPa; 380 MPa up"),
            ("42", "500 MPa to 640 MPa; 420 MPa up"),
            ("46", "530 MPa to 680 MPa; 460 MPa up"),
            ("50", "560 MPa to 720 MPa; 500 MPa up"),
        ] {
            assert!(read(&format!("T {symbol} 2 P M21")).contains(expected), "{symbol}");
        }
        for (symbol, celsius) in [
            ("A", "20"),
            ("0", "0"),
            ("2", "-20"),
            ("3", "-30"),
            ("4", "-40"),
            ("5", "-50"),
            ("6", "-60"),
            ("7", "-70"),
            ("8", "-80"),
            ("9", "-90"),
            ("10", "-100"),
        ] {
            let line = read(&format!("T 46 {symbol} P M21"));
            assert!(line.contains(&format!("47 J at {celsius} °C")), "{line}");
        }
    }

    /// `Z` and `M` have several meanings by place.
    #[test]
    fn repeated_letters_are_read_by_place() {
        assert!(read("T 46 Z Z M M21 1").starts_with("metal-cored-wire"));
        assert!(read("T 46 Z Z M21 1").starts_with("tubular-wire"));
        assert!(read("T 46 Z Z M 1").contains("M2 without He"));
        assert!(read("T 46 Z Z Z Z 1").contains("tubular-wire"));
        assert!(read("T 46 4 P M").contains("; -; M2 without He; -; -; multiple"));
        assert!(read("T 46 4 M I1 1").ends_with("133"));
    }

    /// From memory.
    #[test]
    fn a_single_run_class_says_so() {
        let line = read("T 4T Z R C1 3 H10");
        assert!(line.contains("520 MPa up; 420 MPa up; no impact"), "{line}");
        assert!(line.contains("; single; "), "{line}");
        assert!(notes("T 4T Z R C1 3 H10").iter().any(|note| note.contains("single-run")));
        assert!(notes("T 46 4 P M21").is_empty());
        for text in ["T 46 4 P M", "T 46 4 P C", "T 46 4 W N", "T 46 4 W NO"] {
            assert!(notes(text).iter().any(|note| note.contains("from memory")), "{text}");
        }
    }

    #[test]
    fn refusals_say_where() {
        refused("T 44 4 P M21 1 H5", 2, "44", "strength symbol");
        refused("T 46 1 P M21 1 H5", 5, "1", "impact symbol");
        refused("T 46 4 X M21 1 H5", 7, "X", "core symbol");
        refused("T 46 4 P 1 H5", 9, "1", "gas symbol");
        refused("T 46 4 P NO 1 H5", 9, "NO", "a shielding gas");
        refused("T 46 4 P M21 6", 13, "6", "position digit");
        refused("T 46 4 P M21 1 H4", 15, "H4", "H5");
        refused("T 46", 4, "end of text", "impact symbol");
    }
}
