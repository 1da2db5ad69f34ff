//! AWS A5.36/A5.36M:2016, flux-cored and metal-cored wires with freely combined requirements:
//! `E71T1-C1A0-CS1`. The US form only.

use crate::trade::{Coded, GasGroup};

use super::aws_a5_28::hydrogen;
use super::cursor::Cursor;
use super::facts::{Facts, FillerKind, Impact, Strength, System};
use super::flux_cored_usage as flux_cored;
use super::{DesignationError, GasRequirement, WeldCondition, aws_alloy};

/// Least and greatest tensile strength in ksi. 7: AWS D1.1:2020, Annex M; the others from memory.
const GRADES: &[(&str, (i64, i64))] = &[
    ("6", (60, 80)),
    ("7", (70, 95)),
    ("8", (80, 100)),
    ("9", (90, 110)),
    ("10", (100, 120)),
    ("11", (110, 130)),
    ("12", (120, 140)),
    ("13", (130, 150)),
];

const CODES: &[&str] = &[
    "1", "2", "3", "4", "5", "6", "7", "8", "9", "10", "11", "12", "13", "14", "15", "16", "17",
    "G",
];

pub(super) const CONDITIONS: &[(&str, WeldCondition)] = &[
    ("A", WeldCondition::AsWelded),
    ("P", WeldCondition::HeatTreated),
    ("G", WeldCondition::AsAgreed),
];

/// What an impact symbol asks for.
#[derive(Debug, Clone, Copy)]
pub(super) enum Toughness {
    /// 20 ft·lbf at this many °F.
    At(i64),
    NotRequired,
    AsAgreed,
}

/// Impact symbols, from memory.
pub(super) const IMPACTS: &[(&str, Toughness)] = &[
    ("Y", Toughness::At(68)),
    ("0", Toughness::At(0)),
    ("2", Toughness::At(-20)),
    ("4", Toughness::At(-40)),
    ("5", Toughness::At(-50)),
    ("6", Toughness::At(-60)),
    ("8", Toughness::At(-80)),
    ("10", Toughness::At(-100)),
    ("15", Toughness::At(-150)),
    ("Z", Toughness::NotRequired),
    ("G", Toughness::AsAgreed),
];

const ALLOYS: &[&str] = &[
    "CS1", "CS2", "CS3", "A1", "B1", "B1L", "B2", "B2L", "B2H", "B3", "B3L", "B3H", "B6", "B6L",
    "B8", "B8L", "B9", "Ni1", "Ni2", "Ni3", "D1", "D2", "D3", "K1", "K2", "K3", "K4", "K5", "K6",
    "K7", "K8", "K9", "W2", "G",
];

/// `E` strength position `T` usability `-` gas condition impact `-` composition `-D|Q` `-H`.
pub(super) fn parse(cursor: &mut Cursor<'_>) -> Result<Facts, DesignationError> {
    cursor.need_word("E", "E for electrode")?;
    cursor.skip_blanks();
    let (low, high) = cursor.need(GRADES, "the strength of A5.36")?;
    let at_position = *cursor;
    let all_positions = cursor.need(&[("0", false), ("1", true)], "the position digit")?;
    cursor.need_word("T", "T for a tubular wire")?;
    let coded = flux_cored::read(cursor, CODES)?;
    let seven = low == 70;
    // AWS D1.1:2020, Annex M: T-12 to 90 ksi.
    let high = if seven && coded.code == "12" { 90 } else { high };
    let mut facts = Facts {
        strength: Strength {
            tensile: System::Us.between(low, high),
            yield_strength: if seven { System::Us.at_least(58) } else { None },
        },
        usability: Some(coded.positions(all_positions, &at_position)?),
        polarity: coded.polarity(all_positions),
        single_pass_only: Some(coded.usage.single_pass),
        usability_code: Some(coded.code),
        notes: vec!["usability code, condition and impact symbols of A5.36 are from memory"],
        ..Facts::unstated(FillerKind::TubularWire, &[])
    };
    facts.notes.extend((!seven).then_some("strength other than 70 ksi is from memory"));
    cursor.need_word("-", "the hyphen before gas and condition, as in E71T1-C1A0-CS1")?;
    let at_gas = *cursor;
    facts.gas = gas(cursor).unwrap_or(GasRequirement::SelfShielded);
    coded.check_gas(facts.gas, &at_gas)?;
    (facts.kind, facts.processes) = coded.kind(facts.gas);
    facts.condition = Some(cursor.need(CONDITIONS, "the condition of the weld metal")?);
    facts.impact = match cursor.need(IMPACTS, "the impact symbol")? {
        Toughness::At(fahrenheit) => System::Us.impact(27, (fahrenheit, 0)),
        Toughness::NotRequired => Impact::NotRequired,
        Toughness::AsAgreed => Impact::AsAgreed,
    };
    cursor.need_word("-", "the hyphen before the composition")?;
    aws_alloy::read(cursor, ALLOYS, &mut facts)?;
    let extra_tests = cursor.suffix(&[("D", ()), ("Q", ())]).is_some();
    facts.notes.extend(extra_tests.then_some(EXTRA_TESTS));
    facts.hydrogen = hydrogen(cursor, &mut facts.notes);
    cursor.end("D or Q, H2, H4, H8, H16, or the end of the designation")?;
    Ok(facts)
}

const EXTRA_TESTS: &str = "D or Q, extra tests at low and at high heat input, is from memory";

/// The gas: C1, Z or an M group of ISO 14175 but M11; none for a self-shielded wire.
pub(super) fn gas(cursor: &mut Cursor<'_>) -> Option<GasRequirement> {
    let listed = |(group, code): &&(GasGroup, &str)| {
        code.starts_with('M') && *code != "M11" || matches!(group, GasGroup::C1 | GasGroup::Z)
    };
    let groups: Vec<_> = GasGroup::ALL.iter().filter(listed).collect();
    let symbols: Vec<_> =
        groups.iter().map(|(group, code)| (*code, GasRequirement::Group(*group))).collect();
    cursor.symbol(&symbols)
}

#[cfg(test)]
mod tests {
    use crate::trade::designation::tests::{alloy, notes, read, refused};

    const UP: &str = "PA PB PC PD PE PF PH H-L045 up";

    /// AWS D1.1:2020, Annex M, for 70 to 95 ksi, 58 ksi and CS1 to CS3; usability codes as the
    /// table of A5.20/A5.20M:2005; impact symbols, other strengths, T15 and H2 from memory.
    #[test]
    fn designations_are_decoded() {
        let us = "70 ksi to 95 ksi; 58 ksi up";
        for (text, expected, alloyed) in [
            (
                "E71T1-C1A0-CS1",
                format!("flux-cored-wire; {us}; 27 J at 0 °F; {UP}; C1; DCEP; -; multiple; 136"),
                "CS1; unalloyed; as-welded",
            ),
            (
                "E71T1-M21A4-CS2-H4",
                format!(
                    "flux-cored-wire; {us}; 27 J at -40 °F; {UP}; M21; DCEP; 4 mL/100g; multiple; 136"
                ),
                "CS2; unalloyed; as-welded",
            ),
            (
                "E71T8-A2-CS3-H8",
                format!(
                    "self-shielded-flux-cored-wire; {us}; 27 J at -20 °F; {UP}; no gas; DCEN; 8 mL/100g; multiple; 114"
                ),
                "CS3; unalloyed; as-welded",
            ),
            (
                "E70T15-M21A2-CS1-H4",
                format!(
                    "metal-cored-wire; {us}; 27 J at -20 °F; PA PB PC none; M21; DC; 4 mL/100g; multiple; 138"
                ),
                "CS1; unalloyed; as-welded",
            ),
            (
                "E81T1-C1A4-Ni1-H8",
                format!(
                    "flux-cored-wire; 80 ksi to 100 ksi; -; 27 J at -40 °F; {UP}; C1; DCEP; 8 mL/100g; multiple; 136"
                ),
                "Ni1; low-alloy; as-welded",
            ),
            (
                "E71T12-M21A2-CS2",
                format!(
                    "flux-cored-wire; 70 ksi to 90 ksi; 58 ksi up; 27 J at -20 °F; {UP}; M21; DCEP; -; multiple; 136"
                ),
                "CS2; unalloyed; as-welded",
            ),
            (
                "E81T5-M21PZ-B2-H4",
                format!(
                    "flux-cored-wire; 80 ksi to 100 ksi; -; no impact; {UP}; M21; DCEP DCEN; 4 mL/100g; multiple; 136"
                ),
                "B2; chromium-molybdenum; post-weld-heat-treated",
            ),
        ] {
            assert_eq!(read(text), expected, "{text}");
            assert_eq!(alloy(text), alloyed, "{text}");
            assert!(notes(text).iter().any(|note| note.contains("from memory")), "{text}");
        }
    }

    /// From memory.
    #[test]
    fn impact_symbols_and_late_usability_codes() {
        for (symbol, expected) in [
            ("Y", "27 J at 68 °F"),
            ("5", "27 J at -50 °F"),
            ("6", "27 J at -60 °F"),
            ("8", "27 J at -80 °F"),
            ("10", "27 J at -100 °F"),
            ("15", "27 J at -150 °F"),
            ("Z", "no impact"),
            ("G", "impact as agreed"),
        ] {
            let text = format!("E71T1-C1A{symbol}-CS1");
            assert!(read(&text).contains(&format!("; {expected}; ")), "{text}");
        }
        assert!(read("E71T16-M21A2-CS1").contains("; AC; "));
        assert!(read("E71TG-ZGG-G").contains("; impact as agreed; "));
        assert!(read("E71TG-ZGG-G").contains("; Z; -; "));
        assert_eq!(alloy("E71TG-ZGG-G"), "G; -; as-agreed");
        assert_eq!(alloy("E81T5-M21AZ-B2"), "B2; chromium-molybdenum; as-welded");
        assert!(notes("E71T1-C1A0-CS1-D").iter().any(|note| note.starts_with("D or Q")));
        assert!(read("E71T1-C1A0-CS1-D-H2").contains("2 mL/100g"));
    }

    #[test]
    fn refusals_say_where() {
        refused("E71T1-C1A9-CS1", 9, "9-CS1", "impact symbol");
        refused("E71T1-C1X0-CS1", 8, "X0-CS1", "condition of the weld metal");
        refused("E71T1-A0-CS1", 6, "A0-CS1", "a shielding gas, as T1");
        refused("E71T8-C1A2-CS3", 6, "C1A2-CS3", "T8 shields itself");
        refused("E71T1-C1A0", 10, "end of text", "hyphen before the composition");
        refused("E71T1-C1A0-CS1-H5", 14, "-H5", "H4");
        refused("E71T18-C1A0-CS1", 5, "8-C1A0-CS1", "hyphen before gas");
        refused("E72T1-C1A0-CS1", 2, "2T1-C1A0-CS1", "position digit");
    }
}
