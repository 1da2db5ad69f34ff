//! ISO 17633-B, stainless tubular wires and rods by alloy type: `TS316L-F M 0`. All from memory.

use crate::trade::{Coded, GasGroup, Process};

use super::cursor::Cursor;
use super::facts::{Facts, FillerKind};
use super::usability::{ALL_DIRECTION_OPEN, FLAT_AND_HORIZONTAL, Usability};
use super::{DesignationError, GasRequirement, stainless_alloy};

const FORMS: &[(&str, FillerKind)] =
    &[("F", FillerKind::FluxCoredWire), ("M", FillerKind::MetalCoredWire), ("R", FillerKind::Rod)];

const POSITIONS: &[(&str, Usability)] = &[("0", FLAT_AND_HORIZONTAL), ("1", ALL_DIRECTION_OPEN)];

const FROM_MEMORY: &str = "form, gas and position symbols of ISO 17633-B are from memory";

/// `TS`, alloy number, `-` form, gas, position.
pub(super) fn parse(cursor: &mut Cursor<'_>) -> Result<Facts, DesignationError> {
    cursor.need_word("TS", "TS for a stainless tubular wire or rod")?;
    let mut facts = Facts::unstated(FillerKind::TubularWire, &[]);
    facts.notes.push(FROM_MEMORY);
    stainless_alloy::number(cursor, &mut facts)?;
    cursor.need_word("-", "letters of the alloy, or the hyphen before the form")?;
    let form = cursor.need(FORMS, "the form: flux-cored, metal-cored, rod")?;
    cursor.skip_blanks();
    let at_gas = *cursor;
    facts.gas = gas(cursor, &mut facts)?;
    if facts.gas == GasRequirement::SelfShielded && form != FillerKind::FluxCoredWire {
        return Err(at_gas.wrong("a shielding gas, as this form needs one"));
    }
    (facts.kind, facts.processes) = use_of(form, facts.gas);
    cursor.skip_blanks();
    facts.usability = Some(cursor.need(POSITIONS, "the position digit")?);
    cursor.end("the end of the designation")?;
    Ok(facts)
}

/// C CO2, M argon with CO2, B both of these, A argon with oxygen, I argon, N none, or a group of
/// ISO 14175.
fn gas(cursor: &mut Cursor<'_>, facts: &mut Facts) -> Result<GasRequirement, DesignationError> {
    let mut symbols: Vec<_> =
        GasGroup::ALL.iter().map(|(group, code)| (*code, GasRequirement::Group(*group))).collect();
    symbols.extend([
        ("C", GasRequirement::Co2),
        ("M", GasRequirement::AnyM2WithoutHelium),
        ("B", GasRequirement::NotStated),
        ("A", GasRequirement::Group(GasGroup::M13)),
        ("I", GasRequirement::Group(GasGroup::I1)),
        ("N", GasRequirement::SelfShielded),
        ("NO", GasRequirement::SelfShielded),
    ]);
    let gas = cursor
        .symbol(&symbols)
        .ok_or_else(|| cursor.wrong("the gas symbol (C, M, B, A, I, N or a group as M21)"))?;
    let both = gas == GasRequirement::NotStated;
    facts.notes.extend(both.then_some("gas letter B: CO2 and argon with CO2, not held as a limit"));
    Ok(gas)
}

fn use_of(form: FillerKind, gas: GasRequirement) -> (FillerKind, &'static [Process]) {
    let inert = gas.is_inert();
    match form {
        FillerKind::Rod => (form, &[Process::TigCoredFiller]),
        FillerKind::MetalCoredWire if inert => (form, &[Process::MigMetalCored]),
        FillerKind::MetalCoredWire => (form, &[Process::MagMetalCored]),
        _ if gas == GasRequirement::SelfShielded => {
            (FillerKind::SelfShieldedWire, &[Process::SelfShieldedFluxCored])
        }
        _ if inert => (form, &[Process::MigFluxCored]),
        _ => (form, &[Process::MagFluxCored]),
    }
}

#[cfg(test)]
mod tests {
    use crate::trade::designation::tests::{alloy, notes, read, refused};

    /// From memory.
    #[test]
    fn designations_are_decoded() {
        let open = "PA PB PC PD PE PF PG PH PJ PK H-L045 J-L045 not stated";
        for (text, expected, alloyed) in [
            (
                "TS316L-F M 0",
                "flux-cored-wire; -; -; -; PA PB PC none; M2 without He; -; -; -; 136".to_owned(),
                "316L",
            ),
            (
                "TS308L-F C 1",
                "flux-cored-wire; -; -; -; POS; CO2; -; -; -; 136".replace("POS", open),
                "308L",
            ),
            (
                "TS308L-F C1 1",
                "flux-cored-wire; -; -; -; POS; C1; -; -; -; 136".replace("POS", open),
                "308L",
            ),
            (
                "TS309L-F N 0",
                "self-shielded-flux-cored-wire; -; -; -; PA PB PC none; no gas; -; -; -; 114"
                    .to_owned(),
                "309L",
            ),
            (
                "TS410NiMo-M A 0",
                "metal-cored-wire; -; -; -; PA PB PC none; M13; -; -; -; 138".to_owned(),
                "410NiMo",
            ),
            ("TS308L-R I 1", "rod; -; -; -; POS; I1; -; -; -; 143".replace("POS", open), "308L"),
            (
                "TS308L-F B 0",
                "flux-cored-wire; -; -; -; PA PB PC none; -; -; -; -; 136".to_owned(),
                "308L",
            ),
        ] {
            assert_eq!(read(text), expected, "{text}");
            assert_eq!(alloy(text), format!("{alloyed}; stainless; -"), "{text}");
            assert!(notes(text).contains(&super::FROM_MEMORY), "{text}");
        }
        assert!(notes("TS308L-F B 0").iter().any(|note| note.starts_with("gas letter B")));
    }

    #[test]
    fn refusals_say_where() {
        refused("TS316L F M 0", 6, "F", "hyphen before the form");
        refused("TS316L-X M 0", 7, "X", "the form");
        refused("TS316L-F X 0", 9, "X", "gas symbol");
        refused("TS316L-M N 0", 9, "N", "a shielding gas");
        refused("TS316L-F M 2", 11, "2", "position digit");
        refused("TS316L-F M", 10, "end of text", "position digit");
        refused("TS31-F M 0", 2, "31-F", "stainless alloy number");
    }
}
