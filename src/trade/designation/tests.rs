//! Prefixes, shapes, texts that make no sense; and how the tests of each standard read and print.

use proptest::prelude::*;

use super::*;
use crate::quantity::{Kind, Range};
use crate::trade::Coded;

/// What a designation states, in one line: kind; tensile; yield; impact; positions and direction;
/// gas; polarity; hydrogen; passes; processes. A dash stands for what is not stated.
pub(super) fn read(text: &str) -> String {
    let read = Designation::parse(text).unwrap_or_else(|error| panic!("{error}"));
    let strength = read.strength();
    [
        read.kind().to_string(),
        range(strength.tensile),
        range(strength.yield_strength),
        impact(read.impact()),
        read.usable_positions().map_or("-".to_owned(), usability),
        gas(read.gas()),
        polarity(&read),
        read.hydrogen().map_or("-".to_owned(), |limit| limit.to_string()),
        match read.single_pass_only() {
            Some(true) => "single".to_owned(),
            Some(false) => "multiple".to_owned(),
            None => "-".to_owned(),
        },
        list(read.processes()),
    ]
    .join("; ")
}

/// Composition, family and condition, a dash for what is not stated.
pub(super) fn alloy(text: &str) -> String {
    let read = Designation::parse(text).unwrap_or_else(|error| panic!("{error}"));
    let family = read.family().map_or("-".to_owned(), |family| family.to_string());
    let condition = read.condition().map_or("-".to_owned(), |condition| condition.to_string());
    format!("{}; {family}; {condition}", read.composition().unwrap_or("-"))
}

fn list<T: Coded>(values: &[T]) -> String {
    values.iter().map(|value| value.code()).collect::<Vec<_>>().join(" ")
}

fn range<K: Kind>(range: Option<Range<K>>) -> String {
    match range.map(|range| (range.min(), range.max())) {
        Some((Some(min), Some(max))) => format!("{min} to {max}"),
        Some((Some(min), None)) => format!("{min} up"),
        _ => "-".to_owned(),
    }
}

fn impact(impact: Impact) -> String {
    match impact {
        Impact::Required(asked) => format!("{} J at {}", asked.energy_joules, asked.temperature),
        Impact::NotRequired => "no impact".to_owned(),
        Impact::AsAgreed => "impact as agreed".to_owned(),
        Impact::NotStated => "-".to_owned(),
    }
}

fn usability(usability: Usability) -> String {
    format!("{} {}", list(usability.positions), usability.progression)
}

fn gas(gas: GasRequirement) -> String {
    match gas {
        GasRequirement::SelfShielded => "no gas".to_owned(),
        GasRequirement::Co2 => "CO2".to_owned(),
        GasRequirement::ArgonCo2Test => "75-80 Ar".to_owned(),
        GasRequirement::Group(group) => group.to_string(),
        GasRequirement::AnyM1WithoutHelium => "M1 without He".to_owned(),
        GasRequirement::AnyM2WithoutHelium => "M2 without He".to_owned(),
        GasRequirement::NotStated => "-".to_owned(),
    }
}

fn polarity(read: &Designation) -> String {
    match (read.polarities(), read.polarity_rule()) {
        (Some(polarities), _) => list(polarities),
        (None, PolarityRule::AcOrDc) => "AC or DC".to_owned(),
        (None, PolarityRule::DcOnly) => "DC".to_owned(),
        (None, _) => "-".to_owned(),
    }
}

/// Where a text is refused, what stands there, and whether this was expected.
pub(super) fn refused(text: &str, at: usize, found: &str, expected: &str) {
    let error = Designation::parse(text).unwrap_err();
    assert_eq!((error.at, error.found.as_str()), (at, found), "{text}: {error}");
    assert!(error.expected.contains(expected), "{text}: {error}");
    assert_eq!(error.text, text);
}

/// The notes of a text.
pub(super) fn notes(text: &str) -> Vec<&'static str> {
    Designation::parse(text).unwrap().notes()
}

#[test]
fn a_standard_in_front_is_stripped_and_kept() {
    for (text, standard) in [
        ("E71T-1C", "AWS A5.20"),
        ("AWS E71T-1C", "AWS A5.20"),
        ("AWS A5.20: E71T-1C", "AWS A5.20"),
        ("AWS A5.20/A5.20M:2005 - E71T-1C", "AWS A5.20"),
        ("A5.20 E71T-1C", "AWS A5.20"),
        ("SFA-5.20 E71T-1C", "AWS A5.20"),
        ("ASME SFA-5.20: E71T-1C", "AWS A5.20"),
        ("e71t-1c ", "AWS A5.20"),
        ("ER70S-6", "AWS A5.18"),
        ("E70C-6M", "AWS A5.18"),
        ("AWS A5.18 ER70S-6", "AWS A5.18"),
        ("E7018", "AWS A5.1"),
        ("AWS A5.1: E7018", "AWS A5.1"),
        ("T 46 4 P M21 1 H5", "ISO 17632-A"),
        ("ISO 17632-A - T 46 4 P M21 1 H5", "ISO 17632-A"),
        ("EN ISO 17632-A:2015-T46 4 P M21 1 H5", "ISO 17632-A"),
        ("G 42 4 M21 3Si1", "ISO 14341-A"),
        ("ISO 14341-A-G 42 4 M21 3Si1", "ISO 14341-A"),
        ("E 42 4 B 3 2 H5", "ISO 2560-A"),
        ("E42 4 B 32 H5", "ISO 2560-A"),
        ("ISO 2560-A E 42 4 B 3 2 H5", "ISO 2560-A"),
    ] {
        let read = Designation::parse(text).unwrap_or_else(|error| panic!("{error}"));
        assert_eq!(read.standard().code(), standard, "{text}");
        assert_eq!(read.text(), text);
    }
}

/// Strings with the same beginning, each of another standard.
const NEIGHBOURS: &[(&str, &str)] = &[
    ("E70C-6M", "AWS A5.18"),
    ("E70C-B2L", "AWS A5.28"),
    ("E70T-1C", "AWS A5.20"),
    ("E70T1-Ni1C", "AWS A5.29"),
    ("E70T1-C1A0-CS1", "AWS A5.36"),
    ("E71T1-GC", "AWS A5.29"),
    ("E71T8-A2-CS3-H8", "AWS A5.36"),
    ("E71T1-A1C", "AWS A5.29"),
    ("E7018", "AWS A5.1"),
    ("E7018-1", "AWS A5.1"),
    ("E7018M", "AWS A5.1"),
    ("E7018-H4R", "AWS A5.1"),
    ("E7018 H4R", "AWS A5.1"),
    ("E7018-A1", "AWS A5.5"),
    ("E7010-P1", "AWS A5.5"),
    ("E7018-G", "AWS A5.5"),
    ("E9018M", "AWS A5.5"),
    ("E11018-M", "AWS A5.5"),
    ("ER70S-6", "AWS A5.18"),
    ("ER70S-G", "AWS A5.18"),
    ("ER48S-6", "AWS A5.18"),
    ("ER70S-A1", "AWS A5.28"),
    ("ER80S-D2", "AWS A5.28"),
    ("ER100S-1", "AWS A5.28"),
    ("ER308L", "AWS A5.9"),
    ("ER308Si", "AWS A5.9"),
    ("EC410NiMo", "AWS A5.9"),
    ("E308LT1-1", "AWS A5.22"),
    ("E308T0-G", "AWS A5.22"),
    ("E430T1-G", "AWS A5.22"),
    ("E410NiMoT1-4", "AWS A5.22"),
    ("E2209T1-1", "AWS A5.22"),
    ("E101T1-K3C", "AWS A5.29"),
    ("E491T1-GC", "AWS A5.29"),
    ("E491T1-G", "AWS A5.29"),
    ("R308LT1-5", "AWS A5.22"),
    ("E 42 4 B 3 2 H5", "ISO 2560-A"),
    ("E 42 10 A 1 1", "ISO 2560-A"),
    ("E 42 A A", "ISO 2560-A"),
    ("E 43 10 A", "ISO 2560-B"),
    ("E49 18 A U H5", "ISO 2560-B"),
    ("E 5518-N2 A U H5", "ISO 2560-B"),
    ("E4918 A", "ISO 2560-B"),
    ("E4918", "AWS A5.1"),
    ("G 42 4 M21 3Si1", "ISO 14341-A"),
    ("G 49A 3 C1 S6", "ISO 14341-B"),
    ("G 19 12 3 L Si", "ISO 14343-A"),
    ("G Z 17 Ti", "ISO 14343-A"),
    ("G Z", "ISO 14341-A"),
    ("W 46 3 W3Si1", "ISO 636-A"),
    ("W 49A 3 S6", "ISO 636-B"),
    ("W 19 9 L", "ISO 14343-A"),
    ("SS316LSi", "ISO 14343-B"),
    ("T 46 4 P M21 1 H5", "ISO 17632-A"),
    ("T 4T Z R C1 3 H10", "ISO 17632-A"),
    ("T 49 4 T5-1 C A U H5", "ISO 17632-B"),
    ("T 55 4 T1-1 M21 A-N2 H5", "ISO 17632-B"),
    ("T 55 4 1NiMo P M21 1 H5", "ISO 18276-A"),
    ("T 62 5 Mn1.5Ni B M 3 H5", "ISO 18276-A"),
    ("T 69 4 Mn2NiMo P M21 2 H5", "ISO 18276-A"),
    ("T 69 4 T1-1 M21 A-N3M2 H5", "ISO 18276-B"),
    ("T 19 12 3 L R M 3", "ISO 17633-A"),
    ("TS316L-F M 0", "ISO 17633-B"),
];

#[test]
fn shapes_tell_neighbouring_standards_apart() {
    for (text, standard) in NEIGHBOURS {
        let read = Designation::parse(text).unwrap_or_else(|error| panic!("{error}"));
        assert_eq!(read.standard().code(), *standard, "{text}");
    }
}

/// Each standard named in front of one of its designations.
#[test]
fn every_standard_can_be_named() {
    let named = [
        ("AWS A5.1: E7018", "AWS A5.1"),
        ("AWS A5.5/A5.5M:2014 - E8018-C3", "AWS A5.5"),
        ("AWS A5.9/A5.9M:2017: ER308L", "AWS A5.9"),
        ("AWS A5.18: ER70S-6", "AWS A5.18"),
        ("SFA-5.20: E71T-1C", "AWS A5.20"),
        ("SFA-5.22: E308LT1-1", "AWS A5.22"),
        ("A5.28 ER80S-D2", "AWS A5.28"),
        ("AWS A5.29/A5.29M:2010 E81T1-Ni1C", "AWS A5.29"),
        ("AWS A5.36: E71T1-C1A0-CS1", "AWS A5.36"),
        ("ISO 636-A - W 42 5 3Si1", "ISO 636-A"),
        ("ISO 636-B - W 49A 3 S6", "ISO 636-B"),
        ("EN ISO 2560-A - E 42 4 B 3 2 H5", "ISO 2560-A"),
        ("ISO 2560-B-E 55 18-N2 A U H5", "ISO 2560-B"),
        ("EN ISO 14341-A-G 42 4 M21 3Si1", "ISO 14341-A"),
        ("ISO 14341-B-G 49A 3 C1 S6", "ISO 14341-B"),
        ("EN ISO 14343-A: G 19 12 3 L Si", "ISO 14343-A"),
        ("ISO 14343-B - SS316LSi", "ISO 14343-B"),
        ("EN ISO 17632-A - T 46 4 P M21 1 H5", "ISO 17632-A"),
        ("ISO 17632-B - T 49 2 T1-0 C1 A", "ISO 17632-B"),
        ("EN ISO 17633-A - T 19 9 L P M21 1", "ISO 17633-A"),
        ("ISO 17633-B - TS316L-F M 0", "ISO 17633-B"),
        ("EN ISO 18276-A - T 69 4 Mn2NiMo P M21 2 H5", "ISO 18276-A"),
        ("ISO 18276-B - T 69 4 T1-1 M21 A-N3M2 H5", "ISO 18276-B"),
    ];
    for (text, standard) in named {
        let read = Designation::parse(text).unwrap_or_else(|error| panic!("{error}"));
        assert_eq!(read.standard().code(), standard, "{text}");
    }
    let codes: Vec<_> = named.iter().map(|(_, code)| *code).collect();
    let all: Vec<_> = Standard::ALL.iter().map(|(_, code)| *code).collect();
    assert!(all.iter().all(|code| codes.contains(code)), "{all:?}");
}

/// What the carbon-steel standards state of the steel: nothing but their scope, or a composition
/// symbol; Z and 0 are agreed, so their steel is unknown.
#[test]
fn composition_and_steel_of_the_carbon_steel_standards() {
    for (text, expected) in [
        ("E7018-1 H4R", "-; unalloyed; -"),
        ("ER70S-6", "-; unalloyed; -"),
        ("E71T-1C", "-; unalloyed; -"),
        ("E 42 4 B 3 2 H5", "-; unalloyed; -"),
        ("E 46 3 1Ni B 5 4 H5", "1Ni; low-alloy; -"),
        ("E 46 3 Z B 5 4 H5", "Z; -; -"),
        ("G 46 5 M G3Si1", "3Si1; unalloyed; -"),
        ("G 50 6 M21 3Ni1", "3Ni1; low-alloy; -"),
        ("G 0", "0; -; -"),
        ("T 46 4 P M21 1 H5", "-; unalloyed; -"),
        ("T 50 6 1.5Ni P M21 2 H5", "1.5Ni; low-alloy; -"),
        ("T 46 Z Z M M21 1", "Z; -; -"),
        ("T 46 Z Z M21 1", "-; unalloyed; -"),
    ] {
        assert_eq!(alloy(text), expected, "{text}");
    }
}

#[test]
fn a_prefix_or_shape_that_is_not_read_is_refused_where_it_stands() {
    refused("", 0, "end of text", "E71T-1C");
    refused("welding wire", 0, "welding", "E71T-1C");
    refused("AWS A5.15: E7018", 5, "5.15:", "number of a standard");
    refused("AWS A5.14 ERNiCr-3", 5, "5.14", "number of a standard");
    refused("ISO 3581-A - E 19 9 L", 4, "3581-A", "17632-A");
    refused("ISO 14175-M21", 4, "14175-M21", "17632-A");
    refused("Ø 1.2 E71T-1C", 0, "Ø", "E71T-1C");
    refused("E7", 0, "E7", "E71T-1C");
    refused("ERNiCr-3", 0, "ERNiCr-3", "E71T-1C");
    refused("E308L-16", 0, "E308L-16", "E71T-1C");
    refused("AWS A5.20: E7018", 14, "18", "T for a tubular wire");
}

/// The text is refused by the standard it looks like most.
#[test]
fn a_near_miss_is_refused_by_the_standard_of_its_shape() {
    refused("E81T-1C", 1, "81T-1C", "strength of A5.20");
    refused("E71T1C", 4, "1C", "hyphen behind T of A5.20");
    refused("E71T-1X", 6, "X", "C or M for the gas, J, D or Q");
    for with_gas_or_without_need in ["E71T-1CX", "E71T-8X"] {
        let error = Designation::parse(with_gas_or_without_need).unwrap_err();
        assert!(error.expected.starts_with("J, D or Q"), "{error}");
    }
    refused("E81T1-C1A9-Ni1", 9, "9-Ni1", "impact symbol");
    refused("E81T3-Ni1C", 4, "3-Ni1C", "usability code");
    refused("ER60S-6", 2, "60S-6", "strength of A5.28");
    refused("ER80S-", 6, "end of text", "alloy symbol");
    refused("E8018", 5, "end of text", "alloy symbol of A5.5");
    refused("E308LT1-7", 8, "7", "gas behind the hyphen");
    refused("G 19 12 3 Q", 10, "Q", "letters of the alloy");
    refused("G 49 3 C1 S6", 5, "3", "condition");
    refused("T 44 4 P M21", 2, "44", "strength symbol");
    refused("T 69 4 P M21", 7, "P", "composition symbol");
    refused("E 55 4 B 3 2", 5, "4", "covering digits");
}

/// Pieces of real designations in any order.
const PIECES: &str = "(AWS |A5.20 |A5.36 |ISO 17632-A-|ISO 2560-B |E|ER|EC|R|T|TS|SS|G|W| |-|\
                      [0-9]{1,2}|70|71|49|46|308|19 9|4|A|P|AP|M21|M1|M|C1|C|NO|1Ni|Ni1|B2|CS1|Z|\
                      3Si1|S6|L|Mo|Mn2NiMo|H5|H8|J|R|B|S-|T-|T1-|18|U|é){0,12}";

proptest! {
    #[test]
    fn no_text_upsets_the_parser(text in "\\PC*") {
        kept_or_located(&text)?;
    }

    #[test]
    fn no_near_miss_upsets_the_parser(text in PIECES) {
        kept_or_located(&text)?;
    }

    /// A designation that was read reads the same again from its own text, whatever its prefix.
    #[test]
    fn text_is_kept_as_typed(index in 0..KNOWN.len(), lower: bool, blank in "[ ]{0,2}") {
        let known = KNOWN[index];
        let text = format!("{blank}{}{blank}", if lower { known.to_lowercase() } else { known.to_owned() });
        let read = Designation::parse(&text).unwrap();
        prop_assert_eq!(read.text(), text.as_str());
        prop_assert_eq!(&Designation::parse(read.text()).unwrap(), &read);
        let plain = Designation::parse(known).unwrap();
        prop_assert_eq!(read.standard(), plain.standard());
        prop_assert_eq!(read.strength(), plain.strength());
        prop_assert_eq!(read.gas(), plain.gas());
        let named = format!("{} {known}", read.standard());
        prop_assert_eq!(Designation::parse(&named).unwrap().facts, plain.facts);
    }
}

fn kept_or_located(text: &str) -> Result<(), TestCaseError> {
    match Designation::parse(text) {
        Ok(read) => {
            prop_assert_eq!(read.text(), text);
            prop_assert_eq!(Designation::parse(read.text()), Ok(read.clone()));
        }
        Err(error) => {
            prop_assert!(error.at <= text.chars().count());
            prop_assert_eq!(error.text.as_str(), text);
            let rest: String = text.chars().skip(error.at).collect();
            let stands = rest.split_whitespace().next().unwrap_or("end of text");
            prop_assert_eq!(error.found.as_str(), stands);
        }
    }
    Ok(())
}

/// One designation of every standard.
const KNOWN: &[&str] = &[
    "E7018-1 H4R",
    "E8018-C3 H4R",
    "ER316LSi",
    "ER70S-6",
    "E71T-12M-J H8",
    "E308LT1-1",
    "E80C-Ni1 H4",
    "E91T1-K2M-J H4",
    "E71T1-M21A4-CS2-H4",
    "W 46 3 W3Si1",
    "W 49A 3 S6",
    "E 46 3 1Ni B 5 4 H5",
    "E 55 18-N2 A U H5",
    "G 46 5 M G3Si1",
    "G 55A 4 M21 S4M31",
    "G 19 12 3 L Si",
    "SS316LSi",
    "T 46 3 1Ni B M 1 H5",
    "T 55 4 T1-1 M21 A-N2 H5",
    "T 22 9 3 N L P M21 1",
    "TS316L-F M 0",
    "T 69 4 Mn2NiMo P M21 2 H5",
    "T 69 4 T1-1 M21 A-N3M2 H5",
];
