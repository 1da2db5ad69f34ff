//! ISO 14341-A, solid wires by yield strength and 47 J: `G 42 4 M21 3Si1`, or the wire alone:
//! `G 3Si1`.

use crate::trade::{GasGroup, Process};

use super::cursor::Cursor;
use super::facts::{Facts, FillerKind, Impact, PolarityRule, Strength};
use super::iso_symbols as iso;
use super::{DesignationError, GasRequirement};

/// Wire compositions; from memory behind 2Ti. Z is any other agreed one.
const WIRES: &[(&str, ())] = &[
    ("0", ()),
    ("2Si", ()),
    ("3Si1", ()),
    ("3Si2", ()),
    ("4Si1", ()),
    ("2Ti", ()),
    ("2Al", ()),
    ("3Ni1", ()),
    ("2Ni2", ()),
    ("2Mo", ()),
    ("4Mo", ()),
    ("Z", ()),
];

/// `G` strength impact gas wire, or `G` wire.
pub(super) fn parse(cursor: &mut Cursor<'_>) -> Result<Facts, DesignationError> {
    cursor.need_word("G", "G for a gas-shielded wire")?;
    cursor.skip_blanks();
    let mut facts = Facts {
        kind: FillerKind::SolidWire,
        strength: Strength::default(),
        impact: Impact::NotStated,
        usability: None,
        gas: GasRequirement::NotStated,
        polarity: PolarityRule::NotStated,
        hydrogen: None,
        single_pass_only: None,
        processes: &[Process::MigSolidWire, Process::MagSolidWire],
        notes: Vec::new(),
    };
    if iso::strength_follows(cursor) {
        deposit(cursor, &mut facts)?;
    }
    cursor.skip_blanks();
    // The deposit form may repeat the letter: `G 46 5 M G3Si1`.
    cursor.take("G");
    cursor.need(WIRES, "the wire symbol")?;
    cursor.end("the end of the designation")?;
    Ok(facts)
}

fn deposit(cursor: &mut Cursor<'_>, facts: &mut Facts) -> Result<(), DesignationError> {
    facts.strength = iso::strength(cursor)?;
    facts.impact = iso::impact(cursor)?;
    cursor.skip_blanks();
    let at_gas = *cursor;
    facts.gas = iso::gas(cursor)?;
    facts.single_pass_only = Some(false);
    facts.processes = match facts.gas {
        GasRequirement::SelfShielded => {
            return Err(at_gas.wrong("a shielding gas, as a solid wire needs one"));
        }
        GasRequirement::Group(GasGroup::I1 | GasGroup::I2 | GasGroup::I3) => {
            &[Process::MigSolidWire]
        }
        _ => &[Process::MagSolidWire],
    };
    if facts.gas == GasRequirement::AnyM2WithoutHelium {
        facts.notes.push("M as any M2 gas without helium is from memory");
    }
    Ok(())
}
