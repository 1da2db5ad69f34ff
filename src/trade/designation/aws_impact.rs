//! Impact tests of the low-alloy classes of AWS, by alloy: all from memory, so each one says so.

use super::facts::{Facts, Impact, System};

/// 20 ft·lbf and 50 ft·lbf; AWS prints 27 J and 68 J beside them.
const TWENTY: u16 = 27;
const FIFTY: u16 = 68;

/// What a class has to show.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Test {
    /// Energy in J at °F and °C as printed.
    At(u16, (i64, i64)),
    /// None is required.
    Free,
}
use Test::{At, Free};

const AT_32F: Test = At(TWENTY, (32, 0));
const AT_0F: Test = At(TWENTY, (0, -20));
const AT_20F: Test = At(TWENTY, (-20, -30));
const AT_40F: Test = At(TWENTY, (-40, -40));
const AT_50F: Test = At(TWENTY, (-50, -45));
const AT_60F: Test = At(TWENTY, (-60, -50));
const AT_75F: Test = At(TWENTY, (-75, -60));
const AT_80F: Test = At(TWENTY, (-80, -60));
const AT_100F: Test = At(TWENTY, (-100, -75));

/// A5.5, by alloy.
const COVERED: &[(&str, Test)] = &[
    ("A1", Free),
    ("C1", AT_75F),
    ("C1L", AT_100F),
    ("C2", AT_100F),
    ("C2L", At(TWENTY, (-150, -100))),
    ("C3", AT_40F),
    ("C3L", AT_60F),
    ("C4", AT_60F),
    ("C5L", At(TWENTY, (-175, -115))),
    ("NM1", AT_40F),
    ("D1", AT_60F),
    ("D2", AT_60F),
    ("D3", AT_60F),
    ("P1", AT_20F),
    ("P2", AT_20F),
    ("W1", AT_0F),
    ("W2", AT_0F),
    ("M", AT_60F),
    ("M1", At(FIFTY, (0, -20))),
];

/// A5.28, by alloy.
const WIRE: &[(&str, Test)] = &[
    ("A1", Free),
    ("Ni1", AT_50F),
    ("Ni2", AT_80F),
    ("Ni3", AT_100F),
    ("D2", AT_20F),
    ("1", At(FIFTY, (-60, -50))),
    ("K3", AT_60F),
    ("K4", AT_60F),
    ("W2", AT_20F),
];

/// A5.29, by strength in 10 ksi (none where all are alike), usability and alloy.
const TUBULAR: &[(&[i64], &str, &str, Test)] = &[
    (&[], "1", "A1", Free),
    (&[], "5", "A1", AT_20F),
    (&[], "1", "Ni1", AT_20F),
    (&[], "6", "Ni1", AT_20F),
    (&[], "8", "Ni1", AT_20F),
    (&[], "5", "Ni1", AT_60F),
    (&[], "8", "Ni2", AT_20F),
    (&[], "1", "Ni2", AT_40F),
    (&[], "5", "Ni2", AT_75F),
    (&[], "5", "Ni3", AT_100F),
    (&[], "11", "Ni3", AT_0F),
    (&[], "1", "D1", AT_40F),
    (&[9], "5", "D2", AT_60F),
    (&[10], "5", "D2", AT_40F),
    (&[], "1", "D3", AT_20F),
    (&[], "5", "K1", AT_40F),
    (&[], "4", "K2", AT_0F),
    (&[], "7", "K2", AT_20F),
    (&[], "8", "K2", AT_20F),
    (&[], "11", "K2", AT_32F),
    (&[8], "1", "K2", AT_20F),
    (&[9], "1", "K2", AT_0F),
    (&[8], "5", "K2", AT_20F),
    (&[9], "5", "K2", AT_60F),
    (&[10, 11], "1", "K3", AT_0F),
    (&[10, 11], "5", "K3", AT_60F),
    (&[11], "1", "K4", AT_0F),
    (&[11, 12], "5", "K4", AT_60F),
    (&[], "1", "K5", Free),
    (&[], "5", "K6", AT_75F),
    (&[], "8", "K6", AT_20F),
    (&[], "1", "K7", AT_60F),
    (&[], "8", "K8", AT_20F),
    (&[], "1", "W2", AT_20F),
];

const FROM_MEMORY: &str = "impact requirement, which differs by alloy, is from memory";
const NOT_HELD: &str = "impact requirement, which differs by alloy, is not held here";

/// Impact requirement of a covered electrode of A5.5.
pub(super) fn covered(facts: &mut Facts, system: System) {
    let test = by_alloy(COVERED, facts);
    put(facts, system, test);
}

/// Impact requirement of a wire or rod of A5.28.
pub(super) fn wire(facts: &mut Facts, system: System) {
    let test = by_alloy(WIRE, facts);
    put(facts, system, test);
}

/// Impact requirement of a flux-cored wire of A5.29 with its least tensile strength in 10 ksi.
pub(super) fn tubular(facts: &mut Facts, system: System, strength: i64, usability: &str) {
    let alloy = facts.composition.as_deref().unwrap_or_default();
    let row = TUBULAR.iter().find(|(strengths, code, of, _)| {
        (strengths.is_empty() || strengths.contains(&strength))
            && *code == usability
            && of.eq_ignore_ascii_case(alloy)
    });
    let test = row.map(|(.., test)| *test).or_else(|| of_family(alloy));
    put(facts, system, test);
}

fn by_alloy(rows: &[(&str, Test)], facts: &Facts) -> Option<Test> {
    let alloy = facts.composition.as_deref().unwrap_or_default();
    let row = rows.iter().find(|(of, _)| of.eq_ignore_ascii_case(alloy));
    row.map(|(_, test)| *test).or_else(|| of_family(alloy))
}

/// Chromium-molybdenum classes need no impact test in any of the three.
fn of_family(alloy: &str) -> Option<Test> {
    let known = alloy.starts_with(['B', 'b']) && alloy.len() > 1;
    known.then_some(Free)
}

fn put(facts: &mut Facts, system: System, test: Option<Test>) {
    let agreed = facts.composition.as_deref().is_some_and(|alloy| alloy.eq_ignore_ascii_case("G"));
    facts.impact = match test {
        Some(At(joules, temperatures)) => system.impact(joules, temperatures),
        Some(Free) => Impact::NotRequired,
        None if agreed => Impact::AsAgreed,
        None => Impact::NotStated,
    };
    facts.notes.push(if facts.impact == Impact::NotStated { NOT_HELD } else { FROM_MEMORY });
}

#[cfg(test)]
mod tests {
    use crate::trade::designation::{
        Designation, Impact,
        tests::{notes, read},
    };

    fn impact(text: &str) -> String {
        match Designation::parse(text).unwrap().impact() {
            Impact::Required(asked) => {
                format!("{} J at {}", asked.energy_joules, asked.temperature)
            }
            Impact::NotRequired => "none".to_owned(),
            Impact::AsAgreed => "agreed".to_owned(),
            Impact::NotStated => "-".to_owned(),
        }
    }

    /// A one-page guide to A5.5: test temperatures from -20 °C of the weathering classes to -75 °C of C2.
    #[test]
    fn the_span_of_a_printed_guide() {
        assert_eq!(impact("E5518-W2"), "27 J at -20 °C");
        assert_eq!(impact("E5518-C2"), "27 J at -75 °C");
    }

    /// AWS A5.5:2014, A5.28:2005 and A5.29:2010, all from memory.
    #[test]
    fn each_alloy_has_its_own_test_temperature() {
        for (text, expected) in [
            ("E8018-C3 H4R", "27 J at -40 °F"),
            ("E8018-C1", "27 J at -75 °F"),
            ("E7018-C2L", "27 J at -150 °F"),
            ("E11018-M", "27 J at -60 °F"),
            ("E12018-M1", "68 J at 0 °F"),
            ("E8010-P1", "27 J at -20 °F"),
            ("E9018-B3", "none"),
            ("E7018-A1", "none"),
            ("E8018-G", "agreed"),
            ("E8018-X7L", "-"),
            ("ER80S-Ni1", "27 J at -50 °F"),
            ("ER55S-Ni1", "27 J at -45 °C"),
            ("ER80S-D2", "27 J at -20 °F"),
            ("ER100S-1", "68 J at -60 °F"),
            ("ER90S-B3", "none"),
            ("E80C-Ni1 H4", "27 J at -50 °F"),
            ("E81T1-Ni1C", "27 J at -20 °F"),
            ("E551T1-Ni1C", "27 J at -30 °C"),
            ("E80T5-Ni1C", "27 J at -60 °F"),
            ("E81T1-K2C", "27 J at -20 °F"),
            ("E91T1-K2M", "27 J at 0 °F"),
            ("E101T1-K3M", "27 J at 0 °F"),
            ("E71T8-K6", "27 J at -20 °F"),
            ("E81T5-B2M", "none"),
            ("E101T1-GM", "agreed"),
            ("E101T1-K2M", "-"),
            ("E101T1-K9M", "-"),
        ] {
            assert_eq!(impact(text), expected, "{text}: {}", read(text));
            let said = if expected == "-" { "not held here" } else { "from memory" };
            let about_impact = |note: &&str| note.starts_with("impact") && note.contains(said);
            assert!(notes(text).iter().any(about_impact), "{text}");
        }
    }
}
