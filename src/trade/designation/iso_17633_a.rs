//! ISO 17633-A, stainless tubular wires and rods by nominal composition: `T 19 12 3 L R M 3`.

use crate::trade::Process;

use super::cursor::Cursor;
use super::facts::{Facts, FillerKind};
use super::{DesignationError, GasRequirement, iso_symbols as iso, stainless_alloy};

/// What fills the tube: slow- or fast-freezing slag, metal powder; U without gas and Z other are
/// from memory.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Core {
    Flux,
    Metal,
    OwnShield,
    Other,
}

const CORES: &[(&str, Core)] = &[
    ("R", Core::Flux),
    ("P", Core::Flux),
    ("M", Core::Metal),
    ("U", Core::OwnShield),
    ("Z", Core::Other),
];

/// `T`, nominal chromium, nickel and molybdenum, letters, core, gas, position; the last may be
/// missing. The form is from memory.
pub(super) fn parse(cursor: &mut Cursor<'_>) -> Result<Facts, DesignationError> {
    cursor.need_word("T", "T for a tubular wire or rod")?;
    let mut facts = Facts::unstated(FillerKind::TubularWire, &[]);
    facts.notes.push("core symbols of ISO 17633-A are from memory");
    stainless_alloy::nominal(cursor, &mut facts)?;
    let core = cursor.need(CORES, "letters of the alloy (L, H, Si, Nb, N, ...), or the core")?;
    cursor.skip_blanks();
    let at_gas = *cursor;
    facts.gas = gas(cursor, &mut facts)?;
    if facts.gas == GasRequirement::SelfShielded && matches!(core, Core::Flux | Core::Metal) {
        return Err(at_gas.wrong("a shielding gas, as this core needs one"));
    }
    (facts.kind, facts.processes) = use_of(core, facts.gas);
    iso::position(cursor, &mut facts);
    cursor.end("a position digit, or the end of the designation")?;
    Ok(facts)
}

/// The gas symbol; `M1` of older editions is any gas of that group.
fn gas(cursor: &mut Cursor<'_>, facts: &mut Facts) -> Result<GasRequirement, DesignationError> {
    let mut ahead = *cursor;
    let older = ahead.take("M1") && !ahead.rest().starts_with(|c: char| c.is_ascii_digit());
    if older {
        *cursor = ahead;
        facts.notes.push("gas symbol M1 as any M1 gas without helium is from memory");
        return Ok(GasRequirement::AnyM1WithoutHelium);
    }
    let gas = iso::gas(cursor)?;
    facts.notes.extend(iso::gas_note(gas));
    Ok(gas)
}

fn use_of(core: Core, gas: GasRequirement) -> (FillerKind, &'static [Process]) {
    let inert = gas.is_inert();
    match core {
        _ if gas == GasRequirement::SelfShielded => {
            (FillerKind::SelfShieldedWire, &[Process::SelfShieldedFluxCored])
        }
        Core::Metal if inert => {
            (FillerKind::MetalCoredWire, &[Process::MigMetalCored, Process::TigCoredFiller])
        }
        Core::Metal => (FillerKind::MetalCoredWire, &[Process::MagMetalCored]),
        Core::Flux | Core::OwnShield if inert => {
            (FillerKind::FluxCoredWire, &[Process::MigFluxCored, Process::TigCoredFiller])
        }
        Core::Flux | Core::OwnShield => (FillerKind::FluxCoredWire, &[Process::MagFluxCored]),
        Core::Other if inert => (
            FillerKind::TubularWire,
            &[Process::MigFluxCored, Process::MigMetalCored, Process::TigCoredFiller],
        ),
        Core::Other => (FillerKind::TubularWire, &[Process::MagFluxCored, Process::MagMetalCored]),
    }
}

#[cfg(test)]
mod tests {
    use crate::trade::designation::tests::{alloy, notes, read, refused};

    const ALL: &str = "PA PB PC PD PE PF PG PH PJ PK H-L045 J-L045 either";

    /// From memory; position digits as the A systems share them, in a one-page guide.
    #[test]
    fn designations_are_decoded() {
        for (text, expected, composition) in [
            (
                "T 19 12 3 L R M 3",
                "flux-cored-wire; -; -; -; PA PB none; M2 without He; -; -; -; 136".to_owned(),
                "19 12 3 L",
            ),
            (
                "T 19 9 L P M21 1",
                format!("flux-cored-wire; -; -; -; {ALL}; M21; -; -; -; 136"),
                "19 9 L",
            ),
            (
                "T 22 9 3 N L P M21 1",
                format!("flux-cored-wire; -; -; -; {ALL}; M21; -; -; -; 136"),
                "22 9 3 N L",
            ),
            (
                "T 18 8 Mn M M1 2",
                "metal-cored-wire; -; -; -; PA PB PC PD PE PF PH H-L045 up; M1 without He; -; -; \
                 -; 138"
                    .to_owned(),
                "18 8 Mn",
            ),
            (
                "T 13 4 M M12 2",
                "metal-cored-wire; -; -; -; PA PB PC PD PE PF PH H-L045 up; M12; -; -; -; 138"
                    .to_owned(),
                "13 4",
            ),
            (
                "T 23 12 L U NO 4",
                "self-shielded-flux-cored-wire; -; -; -; PA none; no gas; -; -; -; 114".to_owned(),
                "23 12 L",
            ),
            (
                "T 19 9 L M I1",
                "metal-cored-wire; -; -; -; -; I1; -; -; -; 133 143".to_owned(),
                "19 9 L",
            ),
        ] {
            assert_eq!(read(text), expected, "{text}");
            assert_eq!(alloy(text), format!("{composition}; stainless; -"), "{text}");
            assert!(notes(text).iter().any(|note| note.contains("from memory")), "{text}");
        }
        assert!(read("T 19 9 L Z M21").starts_with("tubular-wire; "));
    }

    #[test]
    fn refusals_say_where() {
        refused("T 19 12 3 L X M 3", 12, "X", "or the core");
        refused("T 19 12 3 L R NO 3", 14, "NO", "a shielding gas");
        refused("T 19 12 3 L R 3", 14, "3", "gas symbol");
        refused("T 19 12 3 L R M 6", 16, "6", "position digit");
        refused("T 19 12 3 L R M 3 H5", 18, "H5", "the end");
        refused("ISO 17633-A T 46 4 P M21", 14, "46", "nominal chromium");
    }
}
