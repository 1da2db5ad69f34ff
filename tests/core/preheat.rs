//! Preheat by EN 1011-2 against its printed table and own arithmetic.

use arcbounds::{
    quantity::{Cet, Kind, Quantity, Thickness},
    trade::{
        ChartReading, Coded, Composition, Content, Element, HeatInputNeed, HeatPaths,
        HydrogenScale, MethodA, MethodAAnswer, MethodB, MethodBConstants, NotChecked, PlateStrip,
        PreheatError, PreheatNeed, SteelFamily, combined_thickness, governing_cet,
        heat_input_for_preheat, mean_thickness_near_weld, method_a_preheat, method_b_parts,
        method_b_preheat,
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

fn method_b([cet, d, hydrogen, heat]: [f64; 4]) -> MethodB {
    MethodB {
        metal: STEEL,
        cet: computed(cet),
        thickness: computed(d),
        hydrogen: computed(hydrogen),
        heat_input: computed(heat),
        composition: None,
        yield_strength: None,
        ambient: q("20 °C"),
        constants: MethodBConstants::En1011,
    }
}

/// EN 1011-2:2001, C.3; no published example was found: own arithmetic. CET %, d mm, HD mL/100 g, Q
/// kJ/mm; total; parts of composition, thickness, hydrogen, heat input; preheat stated (0: none).
type MethodBRow = (&'static str, [f64; 4], f64, [f64; 4], f64);
const METHOD_B_ROWS: &[MethodBRow] = &[
    ("B1", [0.33, 20.0, 5.0, 1.0], 79.03, [97.5, -27.38, 8.901, 0.0], 80.0),
    ("B2", [0.33, 50.0, 5.0, 1.0], 139.0, [97.5, 32.62, 8.901, 0.0], 140.0),
    ("B3", [0.30, 30.0, 10.0, 1.5], 106.9, [75.0, 1.165, 38.80, -8.05], 110.0),
    ("B4", [0.36, 40.0, 5.0, 1.5], 142.9, [120.0, 20.46, 8.901, -6.46], 145.0),
    ("B5", [0.40, 60.0, 3.0, 2.0], 170.2, [150.0, 39.95, -8.928, -10.8], 175.0),
    ("B6", [0.25, 15.0, 5.0, 1.0], 1.061, [37.5, -45.34, 8.901, 0.0], 0.0),
    ("B7", [0.20, 10.0, 1.0, 0.5], -92.79, [0.0, -65.49, -38.0, 10.7], 0.0),
    ("B8", [0.50, 90.0, 20.0, 0.5], 352.8, [225.0, 48.14, 76.91, 2.75], 355.0),
    // Formula C.8 read in an engineering article of 2020 that quotes DIN EN 1011-2; own arithmetic.
    ("TH-07", [0.32, 30.0, 5.0, 1.0], 100.1, [90.0, 1.165, 8.901, 0.0], 105.0),
];

#[test]
fn method_b_and_its_parts() {
    for (id, inputs, total, [composition, thickness, hydrogen, heat], stated) in METHOD_B_ROWS {
        let case = method_b(*inputs);
        let got = method_b_preheat(&case).unwrap();
        near(id, got.calculated, *total, 0.051);
        let need = if *stated > 0.0 {
            PreheatNeed::AtLeast(computed(*stated))
        } else {
            PreheatNeed::NoneCalculated
        };
        assert_eq!(got.need, need, "{id}");
        let parts = method_b_parts(&case).unwrap();
        near(id, parts.composition, *composition, 0.006);
        near(id, parts.thickness, *thickness, 0.006);
        near(id, parts.hydrogen, *hydrogen, 0.006);
        near(id, parts.heat_input, *heat, 0.006);
        near(id, parts.sum().unwrap(), got.calculated.celsius(), 1e-9);
    }
}

/// SEW 088 Beiblatt 1 as quoted in Verbindungen im Stahl- und Verbundbau, p. 368 (700 and -330 for
/// 697 and -328); numbers own arithmetic: 99.0 °C, 1.04 K below EN 1011-2.
#[test]
fn the_other_printed_constants() {
    let case = method_b([0.32, 30.0, 5.0, 1.0]);
    let german = MethodB { constants: MethodBConstants::Sew088, ..case.clone() };
    let [en, sew] = [case, german].map(|case| method_b_preheat(&case).unwrap().calculated);
    near("TH-08", sew, 99.0, 0.05);
    near("TH-08 difference", sew, en.celsius() - 1.04, 0.005);
}

/// Ranges of EN 1011-2:2001, C.3, from memory.
#[test]
fn method_b_outside_its_validity_has_no_number() {
    for (inputs, names) in [
        ([0.19, 20.0, 5.0, 1.0], "0.2 % to 0.5 %"),
        ([0.51, 20.0, 5.0, 1.0], "0.2 % to 0.5 %"),
        ([0.33, 9.0, 5.0, 1.0], "10 mm to 90 mm"),
        ([0.33, 91.0, 5.0, 1.0], "10 mm to 90 mm"),
        ([0.33, 20.0, 0.5, 1.0], "1 mL/100g to 20 mL/100g"),
        ([0.33, 20.0, 21.0, 1.0], "1 mL/100g to 20 mL/100g"),
        ([0.33, 20.0, 5.0, 0.4], "0.5 kJ/mm to 4 kJ/mm"),
        ([0.33, 20.0, 5.0, 4.1], "0.5 kJ/mm to 4 kJ/mm"),
    ] {
        let refused = method_b_preheat(&method_b(inputs)).unwrap_err();
        assert!(refused.to_string().contains(names), "{refused}");
    }
    let good = method_b([0.33, 20.0, 5.0, 1.0]);
    let stronger = MethodB { yield_strength: Some(q("1100 MPa")), ..good.clone() };
    assert!(matches!(method_b_preheat(&stronger), Err(PreheatError::OutOfRange(_))));
    let frozen = MethodB { ambient: q("4 °C"), ..good.clone() };
    assert!(matches!(method_b_preheat(&frozen), Err(PreheatError::OutOfRange(_))));
    let other = MethodB { metal: SteelFamily::Austenitic, ..good };
    assert!(matches!(method_b_preheat(&other), Err(PreheatError::Metal(_))));
}

fn composition(percents: &[(Element, f64)]) -> Composition {
    let contents =
        percents.iter().map(|(element, value)| (*element, Content::Is(computed(*value))));
    Composition::new(contents).unwrap()
}

#[test]
fn what_was_not_given_is_named_as_not_checked() {
    let case = method_b([0.33, 20.0, 5.0, 1.0]);
    let all = [NotChecked::Composition, NotChecked::YieldStrength];
    assert_eq!(method_b_preheat(&case).unwrap().not_checked, all);
    let all_elements: Vec<_> = Element::ALL.iter().map(|(element, _)| (*element, 0.0)).collect();
    let known = |carbon, manganese| {
        let mut percents = all_elements.clone();
        percents.extend([(Element::C, carbon), (Element::Mn, manganese)]);
        Some(composition(&percents))
    };
    let full = MethodB {
        composition: known(0.18, 1.5),
        yield_strength: Some(q("355 MPa")),
        ..case.clone()
    };
    assert_eq!(method_b_preheat(&full).unwrap().not_checked, []);
    let partly = MethodB { composition: Some(composition(&[(Element::C, 0.18)])), ..full.clone() };
    assert_eq!(method_b_preheat(&partly).unwrap().not_checked, [NotChecked::Composition]);
    let outside = MethodB { composition: known(0.40, 1.5), ..full };
    let refused = method_b_preheat(&outside).unwrap_err();
    assert!(refused.to_string().contains("C 0.4 % (valid 0.05 % to 0.32 %)"), "{refused}");
}

/// Own arithmetic: B3 asks for 106.9 °C at 1.5 kJ/mm; per kJ/mm the preheat falls by 32 - 53*0.30 =
/// 16.1 K, so 100 °C is enough from 1.5 + 6.915/16.1 = 1.930 kJ/mm.
#[test]
fn heat_input_that_a_preheat_is_enough_for() {
    let case = method_b([0.30, 30.0, 10.0, 1.5]);
    let HeatInputNeed::AtLeast(heat) = heat_input_for_preheat(&case, q("100 °C")).unwrap() else {
        panic!("some heat input is needed")
    };
    near("100 °C", heat, 1.930, 0.001);
    let enough = heat_input_for_preheat(&case, q("125 °C")).unwrap();
    assert_eq!(enough, HeatInputNeed::AnyInRange);
    assert_eq!(heat_input_for_preheat(&case, q("60 °C")).unwrap(), HeatInputNeed::NoneInRange);
}

/// EN 1011-2:2001, C.3, from memory: weld metal counts with 0.03 % more.
#[test]
fn the_higher_cet_governs() {
    let cet = |text: &str| text.parse::<Cet>().unwrap();
    assert_eq!(governing_cet(cet("0.33 %"), cet("0.28 %")), Ok(cet("0.33 %")));
    assert_eq!(governing_cet(cet("0.30 %"), cet("0.29 %")), Ok(cet("0.32 %")));
}

fn method_a(ce: &str, scale: HydrogenScale, heat: &str, combined: &str) -> MethodA {
    MethodA { metal: STEEL, ce: q(ce), scale, heat_input: q(heat), combined: q(combined) }
}

/// EN 1011-2:2001, Table C.1, all 20 cells (read): largest combined thickness without preheat at CE
/// 0.49 with 1.0 and 2.0 kJ/mm, at CE 0.43 with 1.0 and 2.0 kJ/mm.
#[test]
fn method_a_table() {
    for (scale, cells) in [
        (HydrogenScale::A, [25, 50, 40, 80]),
        (HydrogenScale::B, [30, 55, 50, 90]),
        (HydrogenScale::C, [35, 65, 60, 100]),
        (HydrogenScale::D, [50, 100, 100, 100]),
        (HydrogenScale::E, [60, 100, 100, 100]),
    ] {
        let columns = [
            ("0.49 %", "1 kJ/mm"),
            ("0.49 %", "2 kJ/mm"),
            ("0.43 %", "1 kJ/mm"),
            ("0.43 %", "2 kJ/mm"),
        ];
        for ((ce, heat), cell) in columns.into_iter().zip(cells) {
            let at = method_a(ce, scale, heat, &format!("{cell} mm"));
            let up_to = q(&format!("{cell} mm"));
            let answer = method_a_preheat(&at, &[]);
            assert_eq!(
                answer,
                Ok(MethodAAnswer::NoPreheatByTable { up_to }),
                "{scale} {ce} {heat}"
            );
            let above = method_a(ce, scale, heat, &format!("{cell}.1 mm"));
            let answer = method_a_preheat(&above, &[]);
            assert_eq!(answer, Err(PreheatError::ChartRequired), "{scale} {ce} {heat}");
        }
    }
}

/// Own arithmetic on the table: CE 0.45 counts as 0.49, 1.3 kJ/mm as 1.0; 40 mm is below 50 in scale
/// D, above 35 in scale C.
#[test]
fn method_a_takes_the_next_worse_cell() {
    use HydrogenScale::{C, D};
    assert!(method_a_preheat(&method_a("0.45 %", D, "1.3 kJ/mm", "40 mm"), &[]).is_ok());
    for undecided in [
        method_a("0.45 %", C, "1.3 kJ/mm", "40 mm"),
        method_a("0.50 %", D, "2 kJ/mm", "20 mm"),
        method_a("0.40 %", D, "0.9 kJ/mm", "20 mm"),
    ] {
        assert_eq!(method_a_preheat(&undecided, &[]), Err(PreheatError::ChartRequired));
    }
    for outside in ["0.29 %", "0.71 %"] {
        let refused = method_a_preheat(&method_a(outside, D, "2 kJ/mm", "20 mm"), &[]);
        assert!(matches!(refused, Err(PreheatError::OutOfRange(_))), "{outside}");
    }
}

fn reading(combined: &str, preheat: Option<&str>) -> ChartReading {
    ChartReading {
        highest_ce: q("0.47 %"),
        worst_scale: HydrogenScale::C,
        lowest_heat_input: q("1.2 kJ/mm"),
        largest_combined: q(combined),
        preheat: preheat.map(q),
        read_by: "a welding engineer".into(),
        read_on: time::macros::date!(2026 - 02 - 09),
        figure: "an invented reading, for this test only".into(),
    }
}

#[test]
fn method_a_readings_cover_what_is_no_worse() {
    let rows = [reading("40 mm", Some("20 °C")), reading("60 mm", Some("75 °C"))];
    let case = method_a("0.45 %", HydrogenScale::C, "1.3 kJ/mm", "50 mm");
    assert_eq!(method_a_preheat(&case, &rows), Ok(MethodAAnswer::ByReading(&rows[1])));
    let drier = MethodA { scale: HydrogenScale::D, combined: q("60 mm"), ..case };
    assert_eq!(method_a_preheat(&drier, &rows), Ok(MethodAAnswer::ByReading(&rows[1])));
    for worse in [
        MethodA { ce: q("0.48 %"), ..case },
        MethodA { scale: HydrogenScale::B, ..case },
        MethodA { heat_input: q("1.1 kJ/mm"), ..case },
        MethodA { combined: q("61 mm"), ..case },
    ] {
        assert_eq!(method_a_preheat(&worse, &rows), Err(PreheatError::ChartRequired));
    }
}

/// EN 1011-2:2001, Figure C.1, from memory; own arithmetic.
#[test]
fn combined_thickness_of_joints() {
    let mm = |text: &str| text.parse::<Thickness>().unwrap();
    let (flange, other_flange, web) = (mm("20 mm"), mm("20 mm"), mm("15 mm"));
    for (paths, expected) in [
        (HeatPaths::Butt { first: flange, second: flange }, "40 mm"),
        (HeatPaths::Butt { first: mm("30 mm"), second: flange }, "50 mm"),
        (HeatPaths::Corner { first: flange, second: web }, "35 mm"),
        (HeatPaths::Fillet { flange, other_flange, web }, "55 mm"),
        (HeatPaths::OpposedFillets { flange, other_flange, web }, "27.5 mm"),
    ] {
        assert_eq!(combined_thickness(&paths), Ok(q(expected)), "{paths:?}");
    }
}

/// Own arithmetic: 25 mm at 40 mm and 50 mm at 20 mm thickness are (1000 + 1000)/75 = 26.67 mm; what
/// lies beyond 75 mm does not count; a bar of 30 mm width has its own thickness.
#[test]
fn mean_thickness_within_75_mm() {
    let strip =
        |width: &str, thickness: &str| PlateStrip { width: q(width), thickness: q(thickness) };
    let stepped = [strip("25 mm", "40 mm"), strip("50 mm", "20 mm"), strip("500 mm", "100 mm")];
    near("stepped", mean_thickness_near_weld(&stepped).unwrap(), 26.67, 0.005);
    assert_eq!(mean_thickness_near_weld(&[strip("30 mm", "12 mm")]), Ok(q("12 mm")));
    assert_eq!(mean_thickness_near_weld(&[]), Err(PreheatError::NoPlate));
}
