//! Every row of the tables of sizes, inside, on and outside.

use arcbounds::{
    qualify::{
        record::{ProductForm, Transfer},
        welder::{
            TestPosition, WelderJob, WelderPack,
            WelderRuling::{self, NotJudged, Outside, Within},
            WelderTest,
            WelderVariable::{Deposit, OutsideDiameter, Thickness},
        },
    },
    quantity::UnitSystem::{self, Metric, Us},
    trade::Position,
};

use super::fixture::{
    asme, aws, butt_job, butt_test, fillet_job, fillet_test, iso, ruling, size, us_test,
};

/// Test size, layers, proposed size, ruling.
type Row = (&'static str, Option<u32>, &'static str, WelderRuling);

fn deposits(pack: &WelderPack, test: &WelderTest, rows: &[Row]) {
    for (tested, layers, proposed, expected) in rows {
        let test = WelderTest { deposit: size(tested), layer_count: *layers, ..test.clone() };
        let job = WelderJob { deposit: size(proposed), ..butt_job() };
        let got = ruling(pack, &test, &job, Deposit);
        assert_eq!(got, Some(*expected), "{}: {tested}, {layers:?} for {proposed}", pack.key);
    }
}

/// ISO 9606-1, table 6 (from memory): below 3: s to max(3, 2 s); 3 to below 12: 3 to 2 s; from 12 with at
/// least three layers: 3 and more.
#[test]
fn deposits_of_butts_by_iso_9606_1() {
    deposits(
        iso(),
        &butt_test(),
        &[
            ("1.2 mm", None, "1.1 mm", Outside),
            ("1.2 mm", None, "1.2 mm", Within),
            ("1.2 mm", None, "3 mm", Within),
            ("1.2 mm", None, "3.1 mm", Outside),
            ("2 mm", None, "4 mm", Within),
            ("2 mm", None, "4.1 mm", Outside),
            ("2.9 mm", None, "2.8 mm", Outside),
            ("3 mm", None, "2.9 mm", Outside),
            ("3 mm", None, "3 mm", Within),
            ("3 mm", None, "6 mm", Within),
            ("3 mm", None, "6.1 mm", Outside),
            ("11.9 mm", None, "23.8 mm", Within),
            ("11.9 mm", None, "23.9 mm", Outside),
            ("12 mm", Some(3), "2.9 mm", Outside),
            ("12 mm", Some(3), "3 mm", Within),
            ("12 mm", Some(3), "150 mm", Within),
            ("12 mm", Some(2), "12 mm", NotJudged),
            ("12 mm", None, "12 mm", NotJudged),
        ],
    );
}

/// ISO 9606-1, table 8 (from memory): below 3: t to max(3, 2 t); from 3: 3 and more. Every part counts.
#[test]
fn thicknesses_of_fillets_by_iso_9606_1() {
    for (tested, parts, expected) in [
        ("1 mm", vec!["0.9 mm"], Outside),
        ("1 mm", vec!["1 mm", "3 mm"], Within),
        ("1 mm", vec!["1 mm", "3.1 mm"], Outside),
        ("2.5 mm", vec!["5 mm"], Within),
        ("2.5 mm", vec!["5.1 mm"], Outside),
        ("3 mm", vec!["2.9 mm"], Outside),
        ("3 mm", vec!["3 mm", "80 mm"], Within),
        ("10 mm", vec!["3 mm"], Within),
        ("10 mm", vec![], NotJudged),
    ] {
        let test = WelderTest { thickness: size(tested), ..fillet_test() };
        let thicknesses = parts.iter().filter_map(|part| size(part)).collect();
        let job = WelderJob { thicknesses, ..fillet_job() };
        let got = ruling(iso(), &test, &job, Thickness);
        assert_eq!(got, Some(expected), "{tested} for {parts:?}");
    }
}

fn pipe_job(diameter: &str) -> WelderJob {
    WelderJob {
        product: Some(ProductForm::Pipe),
        outside_diameter: size(diameter),
        rotating: Some(false),
        ..butt_job()
    }
}

fn pipe_test(diameter: &str) -> WelderTest {
    WelderTest { product: Some(ProductForm::Pipe), outside_diameter: size(diameter), ..butt_test() }
}

/// ISO 9606-1, table 7 (from memory): up to 25: D to 2 D; above: at least max(25, 0.5 D).
#[test]
fn pipe_diameters_by_iso_9606_1() {
    for (tested, proposed, expected) in [
        ("20 mm", "19.9 mm", Outside),
        ("20 mm", "20 mm", Within),
        ("20 mm", "40 mm", Within),
        ("20 mm", "40.1 mm", Outside),
        ("25 mm", "50 mm", Within),
        ("25 mm", "50.1 mm", Outside),
        ("25.1 mm", "24.9 mm", Outside),
        ("25.1 mm", "25 mm", Within),
        ("25.1 mm", "900 mm", Within),
        ("168.3 mm", "84.1 mm", Outside),
        ("168.3 mm", "84.15 mm", Within),
    ] {
        let got = ruling(iso(), &pipe_test(tested), &pipe_job(proposed), OutsideDiameter);
        assert_eq!(got, Some(expected), "{tested} for {proposed}");
    }
}

/// ISO 9606-1, 5.3 (from memory): plate covers fixed pipe from 500 mm, turned pipe in PA to PD from 75 mm.
#[test]
fn pipes_that_a_plate_test_covers_by_iso_9606_1() {
    let job = |diameter: &str, rotating, position| WelderJob {
        rotating,
        positions: vec![position],
        ..pipe_job(diameter)
    };
    for (diameter, turned, position, expected) in [
        ("499 mm", Some(false), Position::Pa, Outside),
        ("500 mm", Some(false), Position::Pa, Within),
        ("74.9 mm", Some(true), Position::Pa, Outside),
        ("75 mm", Some(true), Position::Pa, Within),
        ("75 mm", Some(true), Position::Pc, Within),
        ("75 mm", Some(true), Position::Pf, Outside),
        ("500 mm", Some(true), Position::Pf, Within),
        // Whether it is turned decides, and nobody says so.
        ("75 mm", None, Position::Pa, NotJudged),
        ("500 mm", None, Position::Pa, Within),
    ] {
        let got = ruling(iso(), &butt_test(), &job(diameter, turned, position), OutsideDiameter);
        assert_eq!(got, Some(expected), "{diameter}, turned {turned:?}, {position}");
    }
}

/// ASME IX QW-452.1(b) (read): t covers 2 t; from 13 mm with three layers any. QW-404.32 (from memory): 1.1 t
/// for short-circuiting transfer below 13 mm.
#[test]
fn deposits_by_asme_ix() {
    let test = us_test(TestPosition::G3);
    let rows = [
        ("10 mm", Some(2), "20 mm", Within),
        ("10 mm", Some(2), "20.1 mm", Outside),
        ("12.9 mm", Some(5), "25.8 mm", Within),
        ("12.9 mm", Some(5), "25.9 mm", Outside),
        ("13 mm", Some(3), "200 mm", Within),
        ("13 mm", Some(2), "26 mm", Within),
        ("13 mm", Some(2), "26.1 mm", Outside),
        ("13 mm", None, "10 mm", NotJudged),
    ];
    deposits(asme(), &test, &rows);
    let short = WelderTest { transfer: Some(Transfer::ShortCircuit), ..test };
    let rows = [
        ("10 mm", Some(3), "11 mm", Within),
        ("10 mm", Some(3), "11.1 mm", Outside),
        ("13 mm", Some(3), "40 mm", Within),
    ];
    deposits(asme(), &short, &rows);
    let inches = WelderTest { system: UnitSystem::Us, ..us_test(TestPosition::G3) };
    let rows = [
        ("0.375 in", Some(2), "0.75 in", Within),
        ("0.375 in", Some(2), "0.76 in", Outside),
        ("0.5 in", Some(3), "8 in", Within),
        ("0.499 in", Some(3), "1 in", Outside),
    ];
    deposits(asme(), &inches, &rows);
}

/// ASME IX QW-452.3 (read): below 25 mm (1 in) the size welded; 25 to 73 mm (2 7/8 in): 25 mm; above: 73 mm.
#[test]
fn pipe_diameters_by_asme_ix() {
    let test = |system, diameter: &str| WelderTest {
        system,
        positions: vec![TestPosition::G6],
        ..pipe_test(diameter)
    };
    for (system, tested, proposed, expected) in [
        (Metric, "20 mm", "19.9 mm", Outside),
        (Metric, "20 mm", "20 mm", Within),
        (Metric, "25 mm", "24.9 mm", Outside),
        (Metric, "25 mm", "25 mm", Within),
        (Metric, "73 mm", "25 mm", Within),
        (Metric, "73.1 mm", "72.9 mm", Outside),
        (Metric, "73.1 mm", "73 mm", Within),
        (Us, "0.75 in", "0.74 in", Outside),
        (Us, "1 in", "1 in", Within),
        (Us, "2.875 in", "1 in", Within),
        (Us, "6.625 in", "2.874 in", Outside),
        (Us, "6.625 in", "2.875 in", Within),
    ] {
        let got = ruling(asme(), &test(system, tested), &pipe_job(proposed), OutsideDiameter);
        assert_eq!(got, Some(expected), "{tested} for {proposed}");
    }
    // QW-461.9: a plate test for pipe from 73 mm.
    let plate = us_test(TestPosition::G2);
    for (proposed, expected) in [("72.9 mm", Outside), ("73 mm", Within)] {
        assert_eq!(ruling(asme(), &plate, &pipe_job(proposed), OutsideDiameter), Some(expected));
    }
}

/// AWS D1.1:2020, table 6.11 (secondary): 10 mm (3/8 in) covers 3 to 20 mm; between: 3 to 2 T; from 25 mm
/// (1 in) 3 mm to unlimited.
#[test]
fn plate_thicknesses_by_aws_d1_1() {
    for (system, tested, proposed, expected) in [
        (Metric, "9.9 mm", "5 mm", NotJudged),
        (Metric, "10 mm", "2.9 mm", Outside),
        (Metric, "10 mm", "3 mm", Within),
        (Metric, "10 mm", "20 mm", Within),
        (Metric, "10 mm", "20.1 mm", Outside),
        (Metric, "24 mm", "48 mm", Within),
        (Metric, "24 mm", "48.1 mm", Outside),
        (Metric, "25 mm", "2.9 mm", Outside),
        (Metric, "25 mm", "150 mm", Within),
        (Us, "0.375 in", "0.75 in", Within),
        (Us, "0.375 in", "0.76 in", Outside),
        (Us, "1 in", "0.124 in", Outside),
        (Us, "1 in", "6 in", Within),
    ] {
        let test = WelderTest { system, thickness: size(tested), ..us_test(TestPosition::G3) };
        let thicknesses = size(proposed).into_iter().collect();
        let job = WelderJob { thicknesses, ..butt_job() };
        let got = ruling(aws(), &test, &job, Thickness);
        assert_eq!(got, Some(expected), "{tested} for {proposed}");
    }
}

/// AWS D1.1:2020, table 10.13 (read, inches): up to 4 in any wall: 3/4 to 4 in, wall 1/8 to 3/4 in; above
/// 4 in: wall up to 3/8 in gives 1/8 to 3/4 in, a thicker one 3/16 in and more.
#[test]
fn tubes_by_aws_d1_1() {
    let test = |diameter: &str, wall: &str| WelderTest {
        system: UnitSystem::Us,
        positions: vec![TestPosition::G6],
        thickness: size(wall),
        ..pipe_test(diameter)
    };
    for (diameter, wall, proposed, expected) in [
        ("4 in", "0.5 in", "0.124 in", Outside),
        ("4 in", "0.5 in", "0.125 in", Within),
        ("4 in", "0.5 in", "0.75 in", Within),
        ("4 in", "0.5 in", "0.76 in", Outside),
        ("6 in", "0.375 in", "0.75 in", Within),
        ("6 in", "0.375 in", "0.76 in", Outside),
        ("6 in", "0.376 in", "0.187 in", Outside),
        ("6 in", "0.376 in", "0.1875 in", Within),
        ("6 in", "0.376 in", "3 in", Within),
    ] {
        let thicknesses = size(proposed).into_iter().collect();
        let job = WelderJob { thicknesses, ..pipe_job("4 in") };
        let got = ruling(aws(), &test(diameter, wall), &job, Thickness);
        assert_eq!(got, Some(expected), "{diameter} x {wall} for {proposed}");
    }
    for (proposed, expected) in
        [("0.74 in", Outside), ("0.75 in", Within), ("4 in", Within), ("4.1 in", Outside)]
    {
        let got = ruling(aws(), &test("3 in", "0.5 in"), &pipe_job(proposed), OutsideDiameter);
        assert_eq!(got, Some(expected), "{proposed}");
    }
    // Table 6.10 (read): a plate test for pipe from 600 mm.
    for (proposed, expected) in [("599 mm", Outside), ("600 mm", Within)] {
        let got = ruling(aws(), &us_test(TestPosition::G3), &pipe_job(proposed), OutsideDiameter);
        assert_eq!(got, Some(expected), "{proposed}");
    }
}
