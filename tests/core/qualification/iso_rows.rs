//! Every row of the tables of ISO 15614-1:2017, 8.3, level 2: inside, on and outside each end.

use arcbounds::{
    qualify::{
        Standing,
        record::{Joint, Layering, ProductForm, Record, WeldKind},
    },
    quantity::Range,
    trade::{Position, Process},
};

use super::fixture::*;

/// A hair of a millimetre; far above the tolerance of comparisons.
const HAIR: f64 = 0.001;

fn with_thickness(t: f64, layering: Layering) -> Record {
    let mut record = iso_record();
    let piece = &mut record.pieces[0];
    piece.parts = parts(ProductForm::Plate, &format!("{t} mm"));
    piece.layering = Some(layering);
    record
}

/// Thickness, lower and upper end as Table 7 gives them.
type Row = (f64, f64, f64);

/// Table 7, parent metal, multi-run. Both sides of every row edge. The row up to 3 mm is from memory.
const MULTI_RUN: &[Row] = &[
    (2.0, 1.0, 4.0),
    (3.0, 1.5, 6.0),
    (3.001, 3.0, 6.002),
    (12.0, 3.0, 24.0),
    (12.001, 6.0005, 24.002),
    (20.0, 10.0, 40.0),
    (20.001, 10.0005, 40.002),
    (40.0, 20.0, 80.0),
    (40.001, 20.0005, 80.002),
    (100.0, 50.0, 200.0),
    (100.001, 50.0, 200.002),
    (150.0, 50.0, 300.0),
    (150.001, 50.0, 300.002),
    (200.0, 50.0, 400.0),
];

/// Table 7, parent metal, single run; nothing is given above 40 mm.
const SINGLE_RUN: &[Row] = &[
    (2.0, 1.0, 4.0),
    (3.0, 1.5, 6.0),
    (3.001, 3.0, 3.9013),
    (5.0, 3.0, 6.5),
    (8.0, 4.0, 10.4),
    (12.0, 6.0, 15.6),
    (12.001, 6.0005, 13.2011),
    (20.0, 10.0, 22.0),
    (20.001, 10.0005, 22.0011),
    (40.0, 20.0, 44.0),
];

fn place(record: &Record, rule: &str, thickness: f64) -> Standing {
    let mut proposal = repeated(record);
    let value = arcbounds::quantity::Thickness::computed(thickness).unwrap();
    for part in &mut proposal.parts {
        part.thickness = Some(Range::new(Some(value), Some(value)).unwrap());
    }
    standing(&judged(record, iso(), &demanding(), &proposal), rule)
}

fn walk(rows: &[Row], layering: Layering, rule: &str) {
    for &(t, min, max) in rows {
        let record = with_thickness(t, layering);
        let own = limit(&record, iso(), &demanding(), rule);
        assert_ends(&own, Some(min), Some(max));
        assert_eq!(place(&record, rule, min), Standing::Inside, "{t}");
        assert_eq!(place(&record, rule, min + HAIR), Standing::Inside, "{t}");
        assert_eq!(place(&record, rule, min - HAIR), Standing::Outside, "{t}");
        assert_eq!(place(&record, rule, max - HAIR), Standing::Inside, "{t}");
        assert_eq!(place(&record, rule, max), Standing::Inside, "{t}");
        // From 30 mm the thicker part is unlimited; two parts of one thickness are still both held.
        assert_eq!(place(&record, rule, max + HAIR), Standing::Outside, "{t}");
    }
}

#[test]
fn parent_thickness_multi_run() {
    walk(MULTI_RUN, Layering::MultiRun, "parent-thickness-multi-run");
}

#[test]
fn parent_thickness_single_run() {
    walk(SINGLE_RUN, Layering::SingleRun, "parent-thickness-single-run");
    let record = with_thickness(40.001, Layering::SingleRun);
    assert!(matches!(place(&record, "parent-thickness-single-run", 40.0), Standing::NotJudged(_)));
}

/// 8.3.2.1: unequal thickness, the thicker part unlimited from a 30 mm test.
#[test]
fn the_thicker_part_is_free_from_thirty_millimetres() {
    for (t, expected) in [(29.9, Standing::Outside), (30.0, Standing::Inside)] {
        let record = with_thickness(t, Layering::MultiRun);
        let mut proposal = repeated(&record);
        proposal.parts[1].thickness = one("400 mm");
        let judgement = judged(&record, iso(), &demanding(), &proposal);
        assert_eq!(standing(&judgement, "parent-thickness-multi-run"), expected, "{t}");
    }
}

/// Table 7, deposited thickness: test piece, deposit, highest.
#[test]
fn deposited_thickness() {
    let rows: &[(f64, f64, f64)] = &[
        (3.0, 3.0, 6.0),
        (12.0, 12.0, 24.0),
        (20.0, 19.999, 39.998),
        (20.0, 20.0, 40.0),
        (20.001, 19.999, 39.998),
        (30.0, 20.0, 60.0),
        (40.0, 40.0, 80.0),
        (40.001, 19.999, 39.998),
        (40.001, 20.0, 200.0),
        (100.0, 100.0, 200.0),
        (100.001, 19.999, 39.998),
        (100.001, 20.0, 300.0),
        (150.0, 150.0, 300.0),
        (150.001, 19.999, 39.998),
        (200.0, 20.0, 266.0),
    ];
    for &(t, s, max) in rows {
        let mut record = with_thickness(t, Layering::MultiRun);
        record.pieces[0].deposits[0].thickness = Some(q(&format!("{s} mm")));
        assert_ends(&limit(&record, iso(), &demanding(), "deposit-thickness"), None, Some(max));
        let place = |thickness: f64| {
            let mut proposal = repeated(&record);
            let text = format!("{thickness} mm");
            proposal.deposits = vec![(Process::MagSolidWire, one(&text))];
            standing(&judged(&record, iso(), &demanding(), &proposal), "deposit-thickness")
        };
        assert_eq!(place(max - HAIR), Standing::Inside, "{t} {s}");
        assert_eq!(place(max), Standing::Inside, "{t} {s}");
        assert_eq!(place(max + HAIR), Standing::Outside, "{t} {s}");
    }
}

fn fillet(t: f64, throat: &str) -> Record {
    let mut record = with_thickness(t, Layering::SingleRun);
    let piece = &mut record.pieces[0];
    piece.joint = Joint { weld: Some(WeldKind::Fillet), ..Joint::default() };
    piece.throat = Some(q(throat));
    record
}

/// Table 8, parent metal of fillets.
#[test]
fn parent_thickness_of_fillets() {
    let rows: &[(f64, f64, Option<f64>)] = &[
        (2.0, 1.4, Some(4.0)),
        (3.0, 2.1, Some(6.0)),
        (3.001, 3.0, Some(6.002)),
        (29.999, 3.0, Some(59.998)),
        (30.0, 5.0, None),
        (60.0, 5.0, None),
    ];
    for &(t, min, max) in rows {
        let record = fillet(t, "3 mm");
        let at = |thickness| place(&record, "parent-thickness-fillet", thickness);
        assert_eq!(at(min - HAIR), Standing::Outside, "{t}");
        assert_eq!(at(min), Standing::Inside, "{t}");
        match max {
            Some(max) => {
                assert_eq!(at(max), Standing::Inside, "{t}");
                assert_eq!(at(max + HAIR), Standing::Outside, "{t}");
            }
            None => assert_eq!(at(900.0), Standing::Inside, "{t}"),
        }
    }
}

/// Table 8, throat in a single run: 0.75 a to 1.5 a.
#[test]
fn throat_of_single_run_fillets() {
    let record = fillet(10.0, "4 mm");
    for (throat, expected) in [
        ("2.999 mm", Standing::Outside),
        ("3 mm", Standing::Inside),
        ("6 mm", Standing::Inside),
        ("6.001 mm", Standing::Outside),
    ] {
        let mut proposal = repeated(&record);
        proposal.throat = one(throat);
        let judgement = judged(&record, iso(), &demanding(), &proposal);
        assert_eq!(standing(&judgement, "throat-single-run"), expected, "{throat}");
    }
}

/// 8.3.3: pipe from pipe 0.5 D; pipe from plate above 500 mm, in PC above 150 mm.
#[test]
fn outside_diameter() {
    let mut pipe = iso_record();
    for part in &mut pipe.pieces[0].parts {
        part.form = Some(ProductForm::Pipe);
        part.outside_diameter = Some(q("100 mm"));
    }
    let plate = iso_record();
    let mut plate_pc = iso_record();
    plate_pc.pieces[0].position = Some(Position::Pc);
    let rows: &[(&Record, &str, &str, Standing)] = &[
        (&pipe, "outside-diameter", "49.999 mm", Standing::Outside),
        (&pipe, "outside-diameter", "50 mm", Standing::Inside),
        (&pipe, "outside-diameter", "5000 mm", Standing::Inside),
        (&plate, "outside-diameter-from-plate", "500 mm", Standing::Outside),
        (&plate, "outside-diameter-from-plate", "500.01 mm", Standing::Inside),
        (&plate_pc, "outside-diameter-from-plate-horizontal", "150 mm", Standing::Outside),
        (&plate_pc, "outside-diameter-from-plate-horizontal", "150.01 mm", Standing::Inside),
    ];
    for (record, rule, diameter, expected) in rows {
        let mut proposal = repeated(record);
        for part in &mut proposal.parts {
            part.form = Some(ProductForm::Pipe);
            part.outside_diameter = one(diameter);
        }
        let judgement = judged(record, iso(), &undemanding(), &proposal);
        assert_eq!(standing(&judgement, rule), *expected, "{rule} {diameter}");
    }
}

/// 8.3.4: from 60 to 90 degrees covers 60 to 90; below 60 covers up to 90 (its lower end from memory).
#[test]
fn branch_angles() {
    for (tested, proposed, expected) in [
        ("90 deg", "59.9 deg", Standing::Outside),
        ("90 deg", "60 deg", Standing::Inside),
        ("60 deg", "90 deg", Standing::Inside),
        ("60 deg", "90.1 deg", Standing::Outside),
        ("45 deg", "44.9 deg", Standing::Outside),
        ("45 deg", "45 deg", Standing::Inside),
        ("59.9 deg", "90 deg", Standing::Inside),
        ("59.9 deg", "90.1 deg", Standing::Outside),
    ] {
        let mut record = iso_record();
        record.pieces[0].joint.weld = Some(WeldKind::Branch);
        record.pieces[0].joint.fit_up.joint_angle = Some(q(tested));
        let mut proposal = repeated(&record);
        proposal.joint.fit_up.joint_angle = Some(q(proposed));
        let judgement = judged(&record, iso(), &demanding(), &proposal);
        assert_eq!(standing(&judgement, "branch-angle"), expected, "{tested} {proposed}");
    }
}
