//! ISO 17632-A, tubular wires by yield strength and 47 J: `T 46 4 P M21 1 H5`.

use crate::trade::{GasGroup, Process};

use super::cursor::Cursor;
use super::facts::{Facts, FillerKind, PolarityRule, Strength, System};
use super::iso_symbols as iso;
use super::{DesignationError, GasRequirement};

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

/// Symbols of the weld metal; the value says whether a core symbol is spelt alike. 1.5Ni is from
/// memory.
const COMPOSITIONS: &[(&str, bool)] = &[
    ("Mo", false),
    ("MnMo", false),
    ("1Ni", false),
    ("1.5Ni", false),
    ("2Ni", false),
    ("3Ni", false),
    ("Mn1Ni", false),
    ("1NiMo", false),
    ("Z", true),
];

/// Single-run symbols: yield of the plate and least tensile strength of the joint in MPa, from
/// memory.
const SINGLE_RUN: &[(&str, (i64, i64))] =
    &[("2T", (275, 370)), ("3T", (355, 470)), ("4T", (420, 520)), ("5T", (500, 600))];

/// `T` strength impact composition core gas position `H`; composition, position and hydrogen may
/// be missing.
pub(super) fn parse(cursor: &mut Cursor<'_>) -> Result<Facts, DesignationError> {
    cursor.need_word("T", "T for a tubular wire")?;
    cursor.skip_blanks();
    let mut notes = Vec::new();
    let single_run = cursor.symbol(SINGLE_RUN);
    let strength = match single_run {
        Some(printed) => {
            notes.push("strength of a single-run class, plate and joint, is from memory");
            single_run_strength(printed)
        }
        None => iso::strength(cursor)?,
    };
    let impact = iso::impact(cursor)?;
    let (core, gas) = composition_core_gas(cursor)?;
    cursor.skip_blanks();
    let usability = cursor.symbol(iso::POSITIONS);
    notes.extend(usability.map(|_| iso::POSITIONS_FROM_MEMORY));
    let hydrogen = iso::hydrogen(cursor);
    cursor.end("a position digit, H5, H10, H15, or the end of the designation")?;
    if gas == GasRequirement::AnyM2WithoutHelium {
        notes.push("M as any M2 gas without helium is from memory");
    }
    let (kind, processes) = use_of(core, gas);
    Ok(Facts {
        kind,
        strength,
        impact,
        usability,
        gas,
        polarity: PolarityRule::NotStated,
        hydrogen,
        single_pass_only: Some(single_run.is_some()),
        processes,
        notes,
    })
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
) -> Result<(Core, GasRequirement), DesignationError> {
    cursor.skip_blanks();
    let start = *cursor;
    let may_be_core = cursor.symbol(COMPOSITIONS) == Some(true);
    match core_gas(cursor) {
        Err(_) if may_be_core => {
            *cursor = start;
            core_gas(cursor)
        }
        read => read,
    }
}

fn core_gas(cursor: &mut Cursor<'_>) -> Result<(Core, GasRequirement), DesignationError> {
    cursor.skip_blanks();
    let core = cursor.need(CORES, "the core symbol")?;
    cursor.skip_blanks();
    let at_gas = *cursor;
    let gas = iso::gas(cursor)?;
    if gas == GasRequirement::SelfShielded && matches!(core, Core::Flux | Core::Metal) {
        return Err(at_gas.wrong("a shielding gas, as this core needs one"));
    }
    Ok((core, gas))
}

fn use_of(core: Core, gas: GasRequirement) -> (FillerKind, &'static [Process]) {
    let inert = matches!(gas, GasRequirement::Group(GasGroup::I1 | GasGroup::I2 | GasGroup::I3));
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
