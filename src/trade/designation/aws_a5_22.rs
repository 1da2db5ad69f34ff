//! AWS A5.22/A5.22M, stainless flux-cored wires and rods: `E308LT1-1`, `R308LT1-5`.

use crate::trade::{GasGroup, Polarity, Process};

use super::cursor::Cursor;
use super::facts::{Facts, FillerKind, PolarityRule};
use super::usability::{ALL_DIRECTION_OPEN, FLAT_AND_HORIZONTAL, Usability};
use super::{DesignationError, GasRequirement, stainless_alloy};

const DCEP: PolarityRule = PolarityRule::Stated(&[Polarity::Dcep]);
const DCEN: PolarityRule = PolarityRule::Stated(&[Polarity::Dcen]);

/// Gas, polarity and processes of the digit behind the hyphen, from memory.
type Shield = (GasRequirement, PolarityRule, FillerKind, &'static [Process]);

const WIRE_SHIELDS: &[(&str, Shield)] = {
    use GasRequirement::{ArgonCo2Test, Co2, NotStated, SelfShielded};
    const FLUX: FillerKind = FillerKind::FluxCoredWire;
    const MAG: &[Process] = &[Process::MagFluxCored];
    const OWN: &[Process] = &[Process::SelfShieldedFluxCored];
    const EITHER: &[Process] =
        &[Process::SelfShieldedFluxCored, Process::MagFluxCored, Process::MigFluxCored];
    &[
        ("1", (Co2, DCEP, FLUX, MAG)),
        ("3", (SelfShielded, DCEP, FillerKind::SelfShieldedWire, OWN)),
        ("4", (ArgonCo2Test, DCEP, FLUX, MAG)),
        ("G", (NotStated, PolarityRule::NotStated, FillerKind::TubularWire, EITHER)),
    ]
};

const ROD_SHIELDS: &[(&str, Shield)] = {
    use GasRequirement::{Group, NotStated};
    const TIG: &[Process] = &[Process::TigCoredFiller];
    &[
        ("5", (Group(GasGroup::I1), DCEN, FillerKind::Rod, TIG)),
        ("G", (NotStated, PolarityRule::NotStated, FillerKind::Rod, TIG)),
    ]
};

/// Positions behind `T`; the direction of vertical welds is not stated.
const POSITIONS: &[(&str, Usability)] = &[("0", FLAT_AND_HORIZONTAL), ("1", ALL_DIRECTION_OPEN)];

const FROM_MEMORY: &str = "gas and polarity of the digit behind the hyphen are from memory";

/// `E` or `R`, alloy, `T` position, `-` gas, `J`.
///
/// # Source
/// That composition, position and external gas are coded: AWS A5.22/A5.22M:2012, abstract.
pub(super) fn parse(cursor: &mut Cursor<'_>) -> Result<Facts, DesignationError> {
    let shields = cursor.need(&[("E", WIRE_SHIELDS), ("R", ROD_SHIELDS)], "a wire or a rod")?;
    let mut facts = Facts::unstated(FillerKind::TubularWire, &[]);
    stainless_alloy::number(cursor, &mut facts)?;
    cursor.need_word("T", "letters of the alloy, or T for a tubular wire or rod")?;
    facts.usability = Some(cursor.need(POSITIONS, "the position digit")?);
    cursor.need_word("-", "the hyphen before the gas, as in E308LT1-1")?;
    (facts.gas, facts.polarity, facts.kind, facts.processes) =
        cursor.need(shields, "the gas behind the hyphen")?;
    let tougher = cursor.suffix(&[("J", ())]).is_some();
    cursor.end("J, or the end of the designation")?;
    facts.notes.push(FROM_MEMORY);
    facts.notes.extend(tougher.then_some("J: improved toughness; its test is not held here"));
    Ok(facts)
}

#[cfg(test)]
mod tests {
    use crate::trade::designation::tests::{alloy, notes, read, refused};

    const OPEN: &str = "PA PB PC PD PE PF PG PH PJ PK H-L045 J-L045 not stated";

    /// AWS A5.22/A5.22M:2012, abstract, for the fields; meaning of the digits from memory.
    #[test]
    fn designations_are_decoded() {
        for (text, expected, alloyed) in [
            (
                "E308LT1-1",
                format!("flux-cored-wire; -; -; -; {OPEN}; CO2; DCEP; -; -; 136"),
                "308L",
            ),
            (
                "E316LT1-4",
                format!("flux-cored-wire; -; -; -; {OPEN}; 75-80 Ar; DCEP; -; -; 136"),
                "316L",
            ),
            (
                "E309LT0-3",
                "self-shielded-flux-cored-wire; -; -; -; PA PB PC none; no gas; DCEP; -; -; 114"
                    .to_owned(),
                "309L",
            ),
            ("R308LT1-5", format!("rod; -; -; -; {OPEN}; I1; DCEN; -; -; 143"), "308L"),
            (
                "E410NiMoT1-G",
                format!("tubular-wire; -; -; -; {OPEN}; -; -; -; -; 114 136 132"),
                "410NiMo",
            ),
            (
                "E2209T0-4",
                "flux-cored-wire; -; -; -; PA PB PC none; 75-80 Ar; DCEP; -; -; 136".to_owned(),
                "2209",
            ),
        ] {
            assert_eq!(read(text), expected, "{text}");
            assert_eq!(alloy(text), format!("{alloyed}; stainless; -"), "{text}");
            assert!(notes(text).contains(&super::FROM_MEMORY), "{text}");
        }
        assert_eq!(alloy("E316LKT0-3"), "316LK; stainless; -");
        assert!(notes("E308LT1-1J").iter().any(|note| note.contains("toughness")));
    }

    #[test]
    fn refusals_say_where() {
        refused("E308LT2-1", 6, "2-1", "position digit");
        refused("E308LT1-2", 8, "2", "gas behind the hyphen (1, 3, 4, G)");
        refused("R308LT1-1", 8, "1", "gas behind the hyphen (5, G)");
        refused("E308LXT1-1", 5, "XT1-1", "letters of the alloy");
        refused("E308LT1-1 H4", 10, "H4", "J, or the end");
        refused("AWS A5.22 E308L", 15, "end of text", "T for a tubular");
        refused("AWS A5.22 E71T-1C", 11, "71T-1C", "stainless alloy number");
    }
}
