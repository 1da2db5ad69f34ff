//! Preheat by AWS D1.1, hydrogen classes and measuring points against printed tables, a worked example
//! and own arithmetic.

use arcbounds::{
    quantity::{Kind, Quantity, Temperature, UnitSystem},
    trade::{
        Coded, HydrogenClass, HydrogenControl, HydrogenLevel, HydrogenScale, PreheatCategory,
        PreheatError, PreheatExtent, Restraint, SteelFamily, SusceptibilityGroup,
        SusceptibilityPath, category_preheat, heated_width, hydrogen_control_preheat,
        measuring_point, susceptibility_index,
    },
};

use super::published::q;

const STEEL: SteelFamily = SteelFamily::LowAlloyFerritic;

fn computed<K: Kind>(canonical: f64) -> Quantity<K> {
    Quantity::computed(canonical).unwrap()
}

fn near<K: Kind>(id: &str, got: Quantity<K>, expected: f64, within: f64) {
    assert!((got.canonical() - expected).abs() <= within, "{id}: {got} is not {expected}");
}

/// AWS D1.1:2015, Table 3.3, A and B (read; also US Army TI 809-26, 1 March 2000, Table 3-1); C and D
/// in °F from a reprint based on D1.1, in °C from memory. Thickness, then A to D.
#[test]
fn preheat_categories() {
    let rows = [
        (UnitSystem::Metric, "3 mm", ["0 °C", "0 °C", "10 °C", "0 °C"]),
        (UnitSystem::Metric, "20 mm", ["0 °C", "0 °C", "10 °C", "0 °C"]),
        (UnitSystem::Metric, "20.1 mm", ["65 °C", "10 °C", "65 °C", "0 °C"]),
        (UnitSystem::Metric, "38 mm", ["65 °C", "10 °C", "65 °C", "0 °C"]),
        (UnitSystem::Metric, "50 mm", ["110 °C", "65 °C", "110 °C", "0 °C"]),
        (UnitSystem::Metric, "65.1 mm", ["150 °C", "110 °C", "150 °C", "0 °C"]),
        (UnitSystem::Us, "3/4 in", ["32 °F", "32 °F", "50 °F", "32 °F"]),
        (UnitSystem::Us, "1 in", ["150 °F", "50 °F", "150 °F", "32 °F"]),
        (UnitSystem::Us, "1 1/2 in", ["150 °F", "50 °F", "150 °F", "32 °F"]),
        (UnitSystem::Us, "2 1/2 in", ["225 °F", "150 °F", "225 °F", "32 °F"]),
        (UnitSystem::Us, "2.6 in", ["300 °F", "225 °F", "300 °F", "32 °F"]),
    ];
    for (columns, thickness, expected) in rows {
        for ((category, code), expected) in PreheatCategory::ALL.iter().zip(expected) {
            let got = category_preheat(&[*category], q(thickness), columns).unwrap();
            assert_eq!(got.minimum, q(expected), "{code} {thickness}");
            let freezing = expected == "0 °C" || expected == "32 °F";
            assert_eq!(got.if_freezing.is_some(), freezing, "{code} {thickness}");
        }
    }
    let cold = category_preheat(&[PreheatCategory::B], q("1/2 in"), UnitSystem::Us).unwrap();
    assert_eq!(cold.if_freezing, Some(q("70 °F")));
}

/// AWS D1.1, as reprinted: A36 of 25 mm with gas-shielded wire is B, with other than low-hydrogen
/// electrodes A; of two categories the higher counts (from memory).
#[test]
fn the_higher_category_governs_a_joint() {
    use PreheatCategory::{A, B, C, D};
    let joint = |categories: &[PreheatCategory]| {
        category_preheat(categories, q("25 mm"), UnitSystem::Metric)
    };
    assert_eq!(joint(&[B]).unwrap().minimum, q("10 °C"));
    assert_eq!(joint(&[A]).unwrap().minimum, q("65 °C"));
    let mixed = joint(&[D, B, C]).unwrap();
    assert_eq!((mixed.minimum, mixed.category), (q("65 °C"), C));
    assert_eq!(joint(&[]), Err(PreheatError::NoCategory));
    let thin = category_preheat(&[B], q("2 mm"), UnitSystem::Metric);
    assert!(matches!(thin, Err(PreheatError::OutOfRange(_))));
}

/// Own arithmetic on SI = 12 Pcm + log10 H, and its group from memory.
#[test]
fn susceptibility_indices() {
    for (pcm, hydrogen, index, group) in [
        (0.28, 10.0, 4.360, "D"),
        (0.18, 5.0, 2.859, "A"),
        (0.23, 10.0, 3.760, "C"),
        (0.28, 30.0, 4.837, "E"),
        (0.38, 30.0, 6.037, "G"),
        (0.30, 16.0, 4.804, "E"),
        (0.25, 4.0, 3.602, "C"),
    ] {
        let got = susceptibility_index(computed(pcm), computed(hydrogen)).unwrap();
        near(group, got, index, 5.1e-4);
        assert_eq!(SusceptibilityGroup::of_index(got).unwrap().code(), group, "{pcm} {hydrogen}");
    }
    for (index, group) in [(3.0, "A"), (3.04, "B"), (3.5, "B"), (5.55, "G"), (7.0, "G")] {
        let got = SusceptibilityGroup::of_index(computed(index)).unwrap();
        assert_eq!(got.code(), group, "{index}");
    }
    let above = SusceptibilityGroup::of_index(computed(7.01));
    assert_eq!(above, Err(PreheatError::NoGroup));
}

/// AWS D1.1, table of groups by Pcm and level, from memory; low with Pcm below 0.28 was seen as D in
/// a worked example.
#[test]
fn susceptibility_groups_of_the_table() {
    for (level, groups) in [
        (HydrogenLevel::ExtraLow, ["A", "B", "C", "D", "E"]),
        (HydrogenLevel::Low, ["B", "C", "D", "E", "F"]),
        (HydrogenLevel::NotControlled, ["C", "D", "E", "F", "G"]),
    ] {
        for (pcm, group) in [0.179, 0.229, 0.279, 0.329, 0.379].into_iter().zip(groups) {
            let got = SusceptibilityGroup::by_table(computed(pcm), level).unwrap();
            assert_eq!(got.code(), group, "{level} {pcm}");
        }
        let next = SusceptibilityGroup::by_table(computed(0.18), level).unwrap();
        assert_eq!(next.code(), groups[1], "{level}: 0.18 is not below 0.18");
        let above = SusceptibilityGroup::by_table(computed(0.38), level);
        assert_eq!(above, Err(PreheatError::NoGroup));
    }
}

fn control(
    pcm: f64,
    thickness: &str,
    restraint: Restraint,
    path: SusceptibilityPath,
) -> HydrogenControl {
    let level = HydrogenLevel::Low;
    HydrogenControl {
        metal: STEEL,
        pcm: computed(pcm),
        level,
        restraint,
        thickness: q(thickness),
        path,
        columns: UnitSystem::Metric,
    }
}

/// Worked example in a forum of the society that publishes AWS D1.1, with D1.1:2004, Table XI-2: low
/// hydrogen, Pcm below 0.28, group D; high restraint, 2 in: 300 °F.
#[test]
fn hydrogen_control_of_a_worked_example() {
    let case = control(0.27, "2 in", Restraint::High, SusceptibilityPath::PrintedTable);
    let got = hydrogen_control_preheat(&case).unwrap();
    assert_eq!(got.group, SusceptibilityGroup::D);
    let printed: Temperature = q("300 °F");
    // The metric column prints 150 °C for 300 °F, which is 148.9 °C.
    near("300 °F", got.minimum, printed.celsius(), 1.2);
    assert!(!got.less_may_do);
    let us = HydrogenControl { columns: UnitSystem::Us, ..case };
    assert_eq!(hydrogen_control_preheat(&us).unwrap().minimum, printed);
}

/// US columns from memory: ends of the thickness bands in inches, and "below 65 °F".
#[test]
fn hydrogen_control_in_us_columns() {
    for (thickness, medium, less) in [
        ("0.374 in", "65 °F", true),
        ("3/8 in", "175 °F", false),
        ("3/4 in", "175 °F", false),
        ("0.76 in", "230 °F", false),
        ("1 1/2 in", "230 °F", false),
        ("3 in", "265 °F", false),
        ("3.01 in", "300 °F", false),
    ] {
        let path = SusceptibilityPath::PrintedTable;
        let case = control(0.27, thickness, Restraint::Medium, path);
        let got = HydrogenControl { columns: UnitSystem::Us, ..case };
        let got = hydrogen_control_preheat(&got).unwrap();
        assert_eq!((got.minimum, got.less_may_do), (q(medium), less), "{thickness}");
    }
}

/// Table from memory: thickness bands and "below 20 °C".
#[test]
fn hydrogen_control_by_thickness() {
    let by_table = |thickness, restraint| {
        let path = SusceptibilityPath::PrintedTable;
        let got = hydrogen_control_preheat(&control(0.27, thickness, restraint, path)).unwrap();
        (got.minimum.celsius(), got.less_may_do)
    };
    for (thickness, low, medium, high) in [
        ("9.9 mm", 20.0, 20.0, 40.0),
        ("10 mm", 60.0, 80.0, 105.0),
        ("20 mm", 60.0, 80.0, 105.0),
        ("20.1 mm", 80.0, 110.0, 140.0),
        ("38 mm", 80.0, 110.0, 140.0),
        ("75 mm", 95.0, 130.0, 150.0),
        ("75.1 mm", 95.0, 150.0, 150.0),
    ] {
        let less = thickness == "9.9 mm";
        assert_eq!(by_table(thickness, Restraint::Low), (low, less), "{thickness}");
        assert_eq!(by_table(thickness, Restraint::Medium), (medium, less), "{thickness}");
        assert_eq!(by_table(thickness, Restraint::High), (high, false), "{thickness}");
    }
}

/// Own arithmetic: Pcm 0.277 with 5 mL/100 g has the index 4.023, group D by index, C by the table.
#[test]
fn both_paths_to_the_group_are_offered() {
    let case = |path| HydrogenControl {
        level: HydrogenLevel::ExtraLow,
        ..control(0.277, "25 mm", Restraint::Medium, path)
    };
    let table = hydrogen_control_preheat(&case(SusceptibilityPath::PrintedTable)).unwrap();
    let index = hydrogen_control_preheat(&case(SusceptibilityPath::CalculatedIndex)).unwrap();
    near("index", index.index, 4.023, 5e-4);
    assert_eq!(table.group, SusceptibilityGroup::C);
    assert_eq!(index.group, SusceptibilityGroup::D);
    assert!(table.minimum.at_most(index.minimum));
}

/// AWS A5.x designators H16, H8, H4 (read), ISO 2560 classes H15, H10, H5 (from memory); EN 1011-2
/// Table C.2 bounds (read), AWS D1.1 levels below 5 and below 10 mL/100 g (read).
#[test]
fn hydrogen_classes_and_what_codes_make_of_them() {
    use HydrogenLevel::{ExtraLow, Low, NotControlled};
    for (code, ceiling, scale, level, better) in [
        ("H2", "2 mL/100g", "E", ExtraLow, None),
        ("H4", "4 mL/100g", "D", ExtraLow, None),
        ("H5", "5 mL/100g", "D", Low, Some(ExtraLow)),
        ("H8", "8 mL/100g", "C", Low, None),
        ("H10", "10 mL/100g", "C", NotControlled, Some(Low)),
        ("H15", "15 mL/100g", "B", NotControlled, None),
        ("H16", "16 mL/100g", "A", NotControlled, None),
    ] {
        let class = HydrogenClass::from_code(code).unwrap();
        assert_eq!(class.ceiling(), Ok(q(ceiling)), "{code}");
        assert_eq!(class.scale().unwrap().code(), scale, "{code}");
        let got = class.level().unwrap();
        assert_eq!((got.level, got.at_the_limit_of_better), (level, better), "{code}");
    }
    for (content, scale) in
        [("3 mL/100g", "E"), ("3.1 mL/100g", "D"), ("5.1 mL/100g", "C"), ("15.1 mL/100g", "A")]
    {
        assert_eq!(HydrogenScale::of(q(content)).unwrap().code(), scale, "{content}");
    }
    assert!(HydrogenScale::E.at_least_as_dry_as(HydrogenScale::A));
    assert!(!HydrogenScale::B.at_least_as_dry_as(HydrogenScale::C));
}

/// ISO 13916:2017 (distances read, 2 min per 25 mm from memory); own arithmetic.
#[test]
fn measuring_points() {
    for (thickness, distance, minutes, extent) in [
        ("6 mm", "24 mm", "0.48 min", PreheatExtent::At),
        ("10 mm", "40 mm", "0.8 min", PreheatExtent::At),
        ("12.5 mm", "50 mm", "1 min", PreheatExtent::At),
        ("20 mm", "50 mm", "1.6 min", PreheatExtent::At),
        ("25 mm", "50 mm", "2 min", PreheatExtent::At),
        ("40 mm", "50 mm", "3.2 min", PreheatExtent::At),
        ("50 mm", "50 mm", "4 min", PreheatExtent::At),
        ("60 mm", "75 mm", "4.8 min", PreheatExtent::Throughout),
    ] {
        let got = measuring_point(q(thickness)).unwrap();
        assert_eq!(got.distance, q(distance), "{thickness}");
        assert_eq!(got.wait, q(minutes), "{thickness}");
        assert_eq!(got.extent, extent, "{thickness}");
    }
}

/// AWS D1.1:2015 (read): thickness of the thickest part, at least 3 in (75 mm).
#[test]
fn heated_widths() {
    for (thickness, columns, width) in [
        ("20 mm", UnitSystem::Metric, "75 mm"),
        ("100 mm", UnitSystem::Metric, "100 mm"),
        ("1 in", UnitSystem::Us, "3 in"),
        ("4 in", UnitSystem::Us, "4 in"),
    ] {
        assert_eq!(heated_width(q(thickness), columns), Ok(q(width)), "{thickness}");
    }
}
