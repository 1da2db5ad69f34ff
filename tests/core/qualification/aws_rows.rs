//! Rows of AWS D1.1/D1.1M:2015, Table 4.5 and the tables it calls up: inside, on and outside each end.

use arcbounds::{
    qualify::{
        Proposal, Standing,
        record::{
            Joint, Layering, Measured, Penetration, ProductForm, Record, TreatmentClass, WeldKind,
        },
    },
    quantity::UnitSystem,
    trade::Process,
};

use super::fixture::*;

fn with_thickness(thickness: &str, penetration: Penetration, units: UnitSystem) -> Record {
    let mut record = aws_record();
    record.units = units;
    record.pieces[0].parts = parts(ProductForm::Plate, thickness);
    record.pieces[0].joint.penetration = Some(penetration);
    record
}

fn place(record: &Record, rule: &str, change: impl Fn(&mut Proposal)) -> Standing {
    let mut proposal = repeated(record);
    change(&mut proposal);
    standing(&judged(record, aws(), &demanding(), &proposal), rule)
}

fn thick(record: &Record, rule: &str, thickness: &str) -> Standing {
    place(record, rule, |proposal| {
        for part in &mut proposal.parts {
            part.thickness = one(thickness);
        }
    })
}

const INSIDE: Standing = Standing::Inside;
const OUTSIDE: Standing = Standing::Outside;

type GrooveRow = (Penetration, UnitSystem, &'static str, &'static [(&'static str, Standing)]);

/// Tables 4.2 and 4.3 (from memory), in both printed columns.
#[test]
fn thickness_of_grooves() {
    use Penetration::{Full, Partial};
    use UnitSystem::{Metric, Us};
    let rows: &[GrooveRow] = &[
        (Full, Metric, "3 mm", &[("2.999 mm", OUTSIDE), ("6 mm", INSIDE), ("6.001 mm", OUTSIDE)]),
        (Full, Metric, "10 mm", &[("3 mm", INSIDE), ("20 mm", INSIDE), ("20.001 mm", OUTSIDE)]),
        (Full, Metric, "10.001 mm", &[("20.002 mm", INSIDE), ("20.003 mm", OUTSIDE)]),
        (Full, Metric, "24.999 mm", &[("49.998 mm", INSIDE), ("49.999 mm", OUTSIDE)]),
        (Full, Metric, "25 mm", &[("2.999 mm", OUTSIDE), ("3 mm", INSIDE), ("900 mm", INSIDE)]),
        (Full, Us, "3/8 in", &[("0.124 in", OUTSIDE), ("1/8 in", INSIDE), ("3/4 in", INSIDE)]),
        (Full, Us, "3/8 in", &[("0.751 in", OUTSIDE)]),
        (Full, Us, "0.999 in", &[("1.998 in", INSIDE), ("1.999 in", OUTSIDE)]),
        (Full, Us, "1 in", &[("0.124 in", OUTSIDE), ("30 in", INSIDE)]),
        (Partial, Metric, "10 mm", &[("20 mm", INSIDE), ("20.001 mm", OUTSIDE)]),
        (Partial, Metric, "10.001 mm", &[("2.999 mm", OUTSIDE), ("900 mm", INSIDE)]),
        (Partial, Us, "3/8 in", &[("3/4 in", INSIDE), ("0.751 in", OUTSIDE)]),
        (Partial, Us, "0.376 in", &[("1/8 in", INSIDE), ("30 in", INSIDE)]),
    ];
    for (penetration, units, tested, places) in rows {
        let record = with_thickness(tested, *penetration, *units);
        let rule = match penetration {
            Full => "parent-thickness-complete",
            Partial => "parent-thickness-partial",
        };
        for (thickness, expected) in *places {
            assert_eq!(thick(&record, rule, thickness), *expected, "{tested} {thickness}");
        }
    }
}

/// Table 4.6 (from memory): lowest thickness where impact tests are required.
#[test]
fn lowest_thickness_with_impact_tests() {
    for (tested, below, at) in [
        ("5.999 mm", "2.999 mm", "2.9995 mm"),
        ("6 mm", "5.999 mm", "6 mm"),
        ("15.999 mm", "15.998 mm", "15.999 mm"),
        ("16 mm", "15.999 mm", "16 mm"),
        ("40 mm", "15.999 mm", "16 mm"),
    ] {
        let record = with_thickness(tested, Penetration::Full, UnitSystem::Metric);
        assert_eq!(thick(&record, "impact-thickness", below), OUTSIDE, "{tested}");
        assert_eq!(thick(&record, "impact-thickness", at), INSIDE, "{tested}");
    }
    for (tested, below, at) in [
        ("0.249 in", "0.124 in", "0.1245 in"),
        ("1/4 in", "0.249 in", "1/4 in"),
        ("5/8 in", "0.624 in", "5/8 in"),
        ("2 in", "0.624 in", "5/8 in"),
    ] {
        let record = with_thickness(tested, Penetration::Full, UnitSystem::Us);
        assert_eq!(thick(&record, "impact-thickness", below), OUTSIDE, "{tested}");
        assert_eq!(thick(&record, "impact-thickness", at), INSIDE, "{tested}");
    }
}

/// Table 4.4 (from memory): single pass that size and smaller, multiple pass that size and larger.
#[test]
fn fillet_sizes() {
    for (layering, rule, below, above) in [
        (Layering::SingleRun, "fillet-size-single-pass", INSIDE, OUTSIDE),
        (Layering::MultiRun, "fillet-size-multi-pass", OUTSIDE, INSIDE),
    ] {
        let mut record = aws_record();
        record.pieces[0].joint = Joint { weld: Some(WeldKind::Fillet), ..Joint::default() };
        record.pieces[0].leg = Some(q("8 mm"));
        record.pieces[0].layering = Some(layering);
        let size = |leg: &str| place(&record, rule, |proposal| proposal.leg = one(leg));
        assert_eq!(size("7.999 mm"), below);
        assert_eq!(size("8 mm"), INSIDE);
        assert_eq!(size("8.001 mm"), above);
    }
}

/// A process, and a change of its run to make.
fn welded_with(process: Process) -> Record {
    let mut record = aws_record();
    let run = &mut record.pieces[0].runs[0];
    run.process = process;
    let filler = run.filler.as_mut().unwrap();
    filler.diameter = Some(q("2.4 mm"));
    record
}

#[expect(clippy::too_many_lines, reason = "one table of bands")]
/// Row 12: 10 % for fed wires, 25 % for TIG. Rows 16 and 18. Rows 17, 18, 20 from memory.
#[test]
fn bands_by_process() {
    let around =
        |process, rule: &str, places: &[(&str, Standing)], set: fn(&mut Proposal, &str)| {
            let mut record = welded_with(process);
            record.pieces[0].runs[0].electrical.wire_feed =
                (rule == "wire-feed").then(|| Measured::of(q("10 m/min")));
            record.pieces[0].runs[0].electrical.current = measured("200 A");
            record.pieces[0].runs[0].electrical.voltage = measured("20 V");
            record.pieces[0].runs[0].travel_speed = measured("400 mm/min");
            for (value, expected) in places {
                let found = place(&record, rule, |proposal| set(proposal, value));
                assert_eq!(found, *expected, "{process} {rule} {value}");
            }
        };
    let current: fn(&mut Proposal, &str) = |p, value| p.runs[0].current = one(value);
    let voltage: fn(&mut Proposal, &str) = |p, value| p.runs[0].voltage = one(value);
    let feed: fn(&mut Proposal, &str) = |p, value| p.runs[0].wire_feed = one(value);
    let travel: fn(&mut Proposal, &str) = |p, value| p.runs[0].travel_speed = one(value);
    let flow: fn(&mut Proposal, &str) = |p, value| p.runs[0].gas_flow = one(value);
    let ten = [("179.9 A", OUTSIDE), ("180 A", INSIDE), ("220 A", INSIDE), ("220.1 A", OUTSIDE)];
    let tig = [("149.9 A", OUTSIDE), ("150 A", INSIDE), ("250 A", INSIDE), ("250.1 A", OUTSIDE)];
    let seven =
        [("18.59 V", OUTSIDE), ("18.6 V", INSIDE), ("21.4 V", INSIDE), ("21.41 V", OUTSIDE)];
    let feeds = [
        ("8.99 m/min", OUTSIDE),
        ("9 m/min", INSIDE),
        ("11 m/min", INSIDE),
        ("11.01 m/min", OUTSIDE),
    ];
    let speed = |low: &'static str, in_low, in_high, high| {
        [(low, OUTSIDE), (in_low, INSIDE), (in_high, INSIDE), (high, OUTSIDE)]
    };
    for process in [
        Process::MagSolidWire,
        Process::MagFluxCored,
        Process::SelfShieldedFluxCored,
        Process::SubmergedSolidWire,
    ] {
        around(process, "current-wire", &ten, current);
        around(process, "voltage", &seven, voltage);
        around(process, "wire-feed", &feeds, feed);
    }
    around(Process::TigSolidFiller, "current-tig", &tig, current);
    around(
        Process::SubmergedSolidWire,
        "travel-speed-submerged",
        &speed("339.9 mm/min", "340 mm/min", "460 mm/min", "460.1 mm/min"),
        travel,
    );
    around(
        Process::MagFluxCored,
        "travel-speed-wire",
        &speed("299.9 mm/min", "300 mm/min", "500 mm/min", "500.1 mm/min"),
        travel,
    );
    around(
        Process::TigSolidFiller,
        "travel-speed-tig",
        &speed("199.9 mm/min", "200 mm/min", "600 mm/min", "600.1 mm/min"),
        travel,
    );
    let flows = [
        ("15.9 L/min", OUTSIDE),
        ("16 L/min", INSIDE),
        ("30 L/min", INSIDE),
        ("30.1 L/min", OUTSIDE),
    ];
    around(Process::MagFluxCored, "gas-flow", &flows, flow);
}

/// Row 10.
#[test]
fn filler_diameters() {
    for (process, rule, places) in [
        (
            Process::ManualMetalArc,
            "filler-diameter-covered",
            [("1.6 mm", INSIDE), ("3.2 mm", INSIDE), ("3.21 mm", OUTSIDE)],
        ),
        (
            Process::SubmergedSolidWire,
            "filler-diameter-submerged",
            [("1.6 mm", INSIDE), ("2.4 mm", INSIDE), ("2.41 mm", OUTSIDE)],
        ),
        (
            Process::MagSolidWire,
            "filler-diameter-wire",
            [("2.39 mm", OUTSIDE), ("2.4 mm", INSIDE), ("2.41 mm", OUTSIDE)],
        ),
        (
            Process::MagFluxCored,
            "filler-diameter-cored",
            [("1.6 mm", INSIDE), ("2.4 mm", INSIDE), ("2.41 mm", OUTSIDE)],
        ),
        (
            Process::TigSolidFiller,
            "filler-diameter-tig",
            [("0.79 mm", OUTSIDE), ("4 mm", INSIDE), ("4.01 mm", OUTSIDE)],
        ),
    ] {
        let record = welded_with(process);
        for (diameter, expected) in places {
            let found = place(&record, rule, |proposal| {
                proposal.runs[0].filler.as_mut().unwrap().diameter = Some(q(diameter));
            });
            assert_eq!(found, expected, "{process} {diameter}");
        }
    }
}

/// Rows 35 and 36 (from memory): 15 °C, for TIG 55 °C.
#[test]
fn preheat_and_interpass() {
    for (process, preheat, interpass, lowest, lowest_between) in [
        (Process::MagFluxCored, "preheat", "interpass-lower", "50 °C", "105 °C"),
        (Process::TigSolidFiller, "preheat-tig", "interpass-lower-tig", "10 °C", "65 °C"),
    ] {
        let record = welded_with(process);
        let below = |text: &str| {
            let value: arcbounds::quantity::Temperature = q(text);
            arcbounds::quantity::Temperature::computed(value.celsius() - 0.1).unwrap()
        };
        let warm = |value| place(&record, preheat, |p| p.preheat = Some(value));
        assert_eq!(warm(q(lowest)), INSIDE, "{process}");
        assert_eq!(warm(below(lowest)), OUTSIDE, "{process}");
        let between = |value| place(&record, interpass, |p| p.interpass_min = Some(value));
        assert_eq!(between(q(lowest_between)), INSIDE, "{process}");
        assert_eq!(between(below(lowest_between)), OUTSIDE, "{process}");
    }
    let record = aws_record();
    let highest =
        |text: &str| place(&record, "impact-interpass", |p| p.interpass_max = Some(q(text)));
    assert_eq!(highest("175 °C"), INSIDE);
    assert_eq!(highest("175.1 °C"), OUTSIDE);
}

/// Row 33, with the fit-up tolerances (from memory for the row).
#[test]
fn groove_dimensions() {
    let record = aws_record();
    let angle = |text: &str| {
        place(&record, "groove-angle", |p| p.joint.fit_up.groove_angle = Some(q(text)))
    };
    assert_eq!([angle("39.9 deg"), angle("40 deg"), angle("60 deg")], [OUTSIDE, INSIDE, INSIDE]);
    let gap =
        |text: &str| place(&record, "root-opening", |p| p.joint.fit_up.root_gap = Some(q(text)));
    assert_eq!([gap("3.9 mm"), gap("4 mm"), gap("9 mm")], [OUTSIDE, INSIDE, INSIDE]);
    let face =
        |text: &str| place(&record, "root-face", |p| p.joint.fit_up.root_face = Some(q(text)));
    assert_eq!([face("0 mm"), face("4 mm"), face("4.1 mm")], [INSIDE, INSIDE, OUTSIDE]);
    let wire = welded_with(Process::MagSolidWire);
    let face =
        |text: &str| place(&wire, "root-face-wire", |p| p.joint.fit_up.root_face = Some(q(text)));
    assert_eq!([face("3 mm"), face("3.1 mm")], [INSIDE, OUTSIDE]);
}

/// Rows 1 and 3: strength up is a change, another class of a flux-cored wire too.
#[test]
fn filler_strength_and_class() {
    let mut record = aws_record();
    record.pieces[0].runs[0].filler = Some(filler("AWS A5.29: E81T1-Ni1M", "1.2 mm"));
    let with = |rule, designation: &str| {
        place(&record, rule, |p| p.runs[0].filler = Some(filler(designation, "1.2 mm")))
    };
    assert_eq!(with("filler-strength", "AWS A5.29: E81T1-Ni1M"), INSIDE);
    assert_eq!(with("filler-strength", "AWS A5.20: E71T-1M"), INSIDE);
    assert_eq!(with("filler-strength", "AWS A5.29: E91T1-K2M"), OUTSIDE);
    assert_eq!(with("filler-class", "AWS A5.29: E81T1-Ni1M"), INSIDE);
    assert_eq!(with("filler-class", "AWS A5.20: E71T-1M"), OUTSIDE);
    assert_eq!(with("filler-standard-cored", "AWS A5.20: E71T-1M"), INSIDE);
    assert_eq!(with("filler-standard-cored", "ISO 17632-A - T 46 4 P M21 1 H5"), OUTSIDE);
}

/// Row 37 (from memory): added or deleted.
#[test]
fn heat_treatment_added_or_deleted() {
    let record = aws_record();
    let treated = |class| {
        place(&record, "heat-treatment", |p| p.heat_treatment.as_mut().unwrap().class = class)
    };
    assert_eq!(treated(TreatmentClass::None), INSIDE);
    assert_eq!(treated(TreatmentClass::BelowLower), OUTSIDE);
    let mut done = aws_record();
    done.pieces[0].heat_treatment.as_mut().unwrap().class = TreatmentClass::BelowLower;
    let treated = |class| {
        place(&done, "heat-treatment", |p| p.heat_treatment.as_mut().unwrap().class = class)
    };
    assert_eq!(treated(TreatmentClass::None), OUTSIDE);
    assert_eq!(treated(TreatmentClass::BelowLower), INSIDE);
}

/// Row 19 (from memory): the nominal mixture, nothing beside it.
#[test]
fn the_gas_is_the_nominal_mixture() {
    let record = aws_record();
    let with = |text: &str| place(&record, "shielding-gas", |p| p.runs[0].gas = gas(text));
    assert_eq!(with("ArC-25"), INSIDE);
    assert_eq!(with("ArC-24.9"), OUTSIDE);
    assert_eq!(with("C1-C"), OUTSIDE);
    assert_eq!(with("ArCO-25/1"), OUTSIDE);
    assert!(matches!(with("M21"), Standing::NotJudged(_)));
}
