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

#[test]
fn a_prefix_or_shape_that_is_not_read_is_refused_where_it_stands() {
    refused("", 0, "end of text", "E71T-1C");
    refused("welding wire", 0, "welding", "E71T-1C");
    refused("AWS A5.9 ER308L", 5, "5.9", "number of a standard");
    refused("AWS A5.15: E7018", 5, "5.15:", "number of a standard");
    refused("ISO 17632-B - T 55 4", 4, "17632-B", "17632-A");
    refused("ISO 14175-M21", 4, "14175-M21", "17632-A");
    refused("Ø 1.2 E71T-1C", 0, "Ø", "E71T-1C");
    refused("E7", 0, "E7", "E71T-1C");
    refused("AWS A5.20: E7018", 14, "18", "T for a tubular wire");
}

/// Shapes of standards that are not read.
#[test]
fn neighbouring_standards_are_not_mistaken() {
    refused("E81T1-Ni1C", 1, "81T1-Ni1C", "strength of A5.20");
    refused("E71T1-C1A0-CS1", 4, "1-C1A0-CS1", "hyphen behind T");
    refused("ER80S-D2", 2, "80S-D2", "strength of A5.18");
    refused("ER308L", 2, "308L", "strength of A5.18");
    refused("E80C-Ni1 H4", 1, "80C-Ni1", "strength of A5.18");
    refused("E8018-C3 H4R", 1, "8018-C3", "strength of A5.1");
    refused("E11018-M", 1, "11018-M", "strength of A5.1");
    refused("E7018-A1", 5, "-A1", "-1 where the class has it");
    refused("E 55 18-N2 A U H5", 2, "55", "strength symbol");
    refused("T 69 4 Mn2NiMo P M21 2 H5", 2, "69", "strength symbol");
    refused("G 49A 3 C1 S6", 2, "49A", "wire symbol");
    refused("E308LT1-1", 0, "E308LT1-1", "E71T-1C");
}

/// Pieces of real designations in any order.
const PIECES: &str = "(AWS |A5.20 |ISO 17632-A-|E|ER|T|G| |-|[0-9]{1,2}|70|71|46|4|P|M21|M|C|NO|\
                      1Ni|Z|3Si1|H5|H8|J|R|B|S-|T-){0,12}";

proptest! {
    #[test]
    fn no_text_upsets_the_parser(text in "\\PC*") {
        let _ = Designation::parse(&text);
    }

    #[test]
    fn no_near_miss_upsets_the_parser(text in PIECES) {
        if let Err(error) = Designation::parse(&text) {
            prop_assert!(error.at <= text.chars().count());
        }
    }
}
