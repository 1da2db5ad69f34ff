//! Worked cases 6 to 9: ISO 15614-1 level 1 and ASME BPVC IX (own arithmetic from their tables), and every row of
//! their thickness tables.

use arcbounds::{
    qualify::{
        Allowed, JobFacts, Limit, Pack, Ruling, Standing, packs,
        record::{
            Deposit, Measured, PNumber, ProductForm, Record, RunEnergy, TestKind, TestLevel,
            Transfer,
        },
    },
    quantity::UnitSystem,
    trade::{CodeEdition, Coded, Position, Process},
};

use super::fixture::*;

fn pack(key: &str) -> &'static Pack {
    packs().iter().find(|pack| pack.key == key).unwrap()
}

fn level_1() -> &'static Pack {
    pack("iso-15614-1-2017-level-1")
}

fn asme() -> &'static Pack {
    pack("asme-ix-2017")
}

fn answered() -> JobFacts {
    let mut job = JobFacts { hardness_required: Some(false), ..demanding() };
    for id in ["additions-mig-mag", "additions", "heat-treatment-time", "submerged-flux"] {
        job.stated.insert(id.to_owned(), true);
    }
    job
}

fn without_impact() -> JobFacts {
    JobFacts { impact_required: Some(false), ..answered() }
}

fn sized(mut record: Record, t: &str, s: &str) -> Record {
    let piece = &mut record.pieces[0];
    piece.parts = parts(ProductForm::Plate, t);
    for part in &mut piece.parts {
        part.metal.p_number = Some(PNumber { number: "1".to_owned(), group: Some(1) });
    }
    piece.deposits[0].thickness = Some(q(s));
    for run in &mut piece.runs {
        run.thickness = Some(q("3 mm"));
        let filler = run.filler.as_mut().unwrap();
        filler.f_number = Some("6".to_owned());
        filler.a_number = Some("1".to_owned());
    }
    record
}

fn iso_l1(t: &str, s: &str) -> Record {
    let mut record = sized(iso_record(), t, s);
    record.level = Some(TestLevel::Level1);
    record
}

fn asme_record(t: &str, s: &str, process: Process) -> Record {
    let mut record = iso_record();
    record.code = CodeEdition { name: "ASME BPVC IX".to_owned(), edition: "2017".to_owned() };
    record.level = None;
    record.pieces[0].deposits[0].process = process;
    record.pieces[0].runs[0].process = process;
    sized(record, t, s)
}

/// Case 6: level 1, 25 mm, impact required, energy 1.80 kJ/mm, interpass 200 °C.
#[test]
fn level_one_with_impact_tests() {
    let mut record = iso_l1("25 mm", "25 mm");
    let run = &mut record.pieces[0].runs[0];
    run.electrical.energy = Some(RunEnergy::Arc(Measured::of(q("1.8 kJ/mm"))));
    run.interpass = measured("200 °C");
    let at = |rule| limit(&record, level_1(), &answered(), rule);
    assert_ends(&at("parent-thickness"), Some(5.0), Some(50.0));
    assert_ends(&at("parent-thickness-impact"), Some(16.0), None);
    assert_ends(&at("deposit-thickness"), None, Some(50.0));
    assert_ends(&at("energy-upper"), None, Some(1.8));
    assert_ends(&at("interpass"), None, Some(250.0));
    for (thickness, expected) in [
        ("15.9 mm", Ruling::NeedsNewQualification),
        ("16 mm", Ruling::Qualified),
        ("50 mm", Ruling::Qualified),
        ("50.1 mm", Ruling::NeedsNewQualification),
    ] {
        let mut proposal = repeated(&record);
        for part in &mut proposal.parts {
            part.thickness = one(thickness);
        }
        let judgement = judged(&record, level_1(), &answered(), &proposal);
        assert_eq!(judgement.ruling, expected, "{thickness}: {:?}", complaints(&judgement));
    }
}

/// A test of level 2 serves level 1 (introduction of the standard).
#[test]
fn level_two_serves_level_one() {
    let mut record = iso_l1("12 mm", "12 mm");
    record.level = Some(TestLevel::Level2);
    let judgement = judged(&record, level_1(), &answered(), &repeated(&record));
    assert_eq!(judgement.ruling, Ruling::Qualified, "{:?}", complaints(&judgement));
}

/// 8.4.1, level 1: each tested process alone as well.
#[test]
fn level_one_lets_a_process_stand_alone() {
    let mut record = iso_l1("20 mm", "16 mm");
    let piece = &mut record.pieces[0];
    piece
        .deposits
        .insert(0, Deposit { process: Process::TigSolidFiller, thickness: Some(q("4 mm")) });
    let mut root = piece.runs[0].clone();
    root.process = Process::TigSolidFiller;
    piece.runs.insert(0, root);
    let mut alone = repeated(&record);
    alone.deposits.remove(0);
    alone.runs.remove(0);
    let judgement = judged(&record, level_1(), &without_impact(), &alone);
    assert_eq!(judgement.ruling, Ruling::Qualified, "{:?}", complaints(&judgement));
}

/// Table 7, level 1: both sides of every row edge.
#[test]
fn parent_thickness_of_level_one() {
    for (t, min, max) in [
        (3.0, 1.5, 6.0),
        (3.001, 1.5, 6.002),
        (12.0, 1.5, 24.0),
        (12.001, 5.0, 24.002),
        (20.0, 5.0, 40.0),
        (20.001, 5.0, 40.002),
        (40.0, 5.0, 80.0),
        (40.001, 5.0, 200.0),
        (100.0, 5.0, 200.0),
        (100.001, 5.0, 200.0),
        (150.0, 5.0, 200.0),
        (200.0, 5.0, 266.0),
    ] {
        let record = iso_l1(&format!("{t} mm"), "10 mm");
        let limit = limit(&record, level_1(), &without_impact(), "parent-thickness");
        assert_ends(&limit, Some(min), Some(max));
    }
    for (t, min) in [(6.0, 3.0), (6.001, 6.001), (15.999, 15.999), (16.0, 16.0), (60.0, 16.0)] {
        let record = iso_l1(&format!("{t} mm"), "10 mm");
        let limit = limit(&record, level_1(), &answered(), "parent-thickness-impact");
        assert_ends(&limit, Some(min), None);
    }
}

/// 8.3.2.2: a run thicker than 13 mm holds the thickness to 1.1 t; not knowing does not pass.
#[test]
fn a_thick_run_holds_the_thickness() {
    let rule = "parent-thickness-thick-run";
    let with = |t: &str, run: Option<&str>| {
        let mut record = iso_l1(t, t);
        record.pieces[0].runs[0].thickness = run.map(q);
        record
    };
    let has = |record: &Record| {
        let own = first_box(record, level_1(), &without_impact());
        own.limit(rule).map(|limit| limit.only_if.len())
    };
    assert_eq!(has(&with("20 mm", Some("13 mm"))), None);
    assert_eq!(has(&with("20 mm", Some("13.1 mm"))), Some(0));
    assert_eq!(has(&with("20 mm", None)), Some(1));
    assert_eq!(has(&with("13 mm", None)), None);
    assert_ends(
        &limit(&with("20 mm", Some("14 mm")), level_1(), &without_impact(), rule),
        None,
        Some(22.0),
    );
}

/// Case 7: SMAW, P-1, T = t = 10 mm, preheat 95 °C, interpass 280 °C.
#[test]
fn covered_electrode_with_and_without_toughness() {
    let mut record = asme_record("10 mm", "10 mm", Process::ManualMetalArc);
    record.pieces[0].runs[0].preheat = measured("95 °C");
    record.pieces[0].runs[0].interpass = measured("280 °C");
    let own = first_box(&record, asme(), &without_impact());
    assert_ends(own.limit("base-thickness").unwrap(), Some(1.5), Some(20.0));
    assert_ends(own.limit("deposit-thickness").unwrap(), None, Some(20.0));
    assert_ends(own.limit("preheat").unwrap(), Some(40.0), None);
    assert!(own.limit("interpass").is_none() && own.limit("energy").is_none());
    let own = first_box(&record, asme(), &answered());
    assert_ends(own.limit("base-thickness-impact").unwrap(), Some(10.0), None);
    assert_ends(own.limit("interpass").unwrap(), None, Some(335.0));
    assert_ends(own.limit("energy").unwrap(), None, Some(1.2));
    for job in [answered(), without_impact()] {
        let judgement = judged(&record, asme(), &job, &repeated(&record));
        assert_eq!(judgement.ruling, Ruling::Qualified, "{:?}", complaints(&judgement));
    }
}

/// Case 8: GMAW, T = t = 12 mm, short-circuit 5 to 13.2 mm, spray 5 to 24 mm.
#[test]
fn short_circuit_holds_the_thickness() {
    let mut record = asme_record("12 mm", "12 mm", Process::MagSolidWire);
    record.pieces[0].runs[0].electrical.transfer = Some(Transfer::ShortCircuit);
    let at = |record: &Record, thickness: &str| {
        let mut proposal = repeated(record);
        for part in &mut proposal.parts {
            part.thickness = one(thickness);
        }
        judged(record, asme(), &without_impact(), &proposal).ruling
    };
    let refused = Ruling::NeedsNewQualification;
    let own = first_box(&record, asme(), &without_impact());
    assert_ends(own.limit("base-thickness").unwrap(), Some(5.0), Some(24.0));
    assert_ends(own.limit("base-thickness-short-circuit").unwrap(), None, Some(13.2));
    assert_ends(own.limit("deposit-short-circuit").unwrap(), None, Some(13.2));
    assert_eq!(at(&record, "4.9 mm"), refused);
    assert_eq!(at(&record, "5 mm"), Ruling::Qualified);
    assert_eq!(at(&record, "13.2 mm"), Ruling::Qualified);
    assert_eq!(at(&record, "13.3 mm"), refused);
    let spray = asme_record("12 mm", "12 mm", Process::MagSolidWire);
    assert_eq!(at(&spray, "24 mm"), Ruling::Qualified);
    assert_eq!(at(&spray, "24.1 mm"), refused);
    // From 13 mm the rule adds nothing.
    let mut thick = asme_record("13 mm", "13 mm", Process::MagSolidWire);
    thick.pieces[0].runs[0].electrical.transfer = Some(Transfer::ShortCircuit);
    assert_eq!(at(&thick, "26 mm"), Ruling::Qualified);
}

/// Case 9: GTAW 6 mm and SMAW 32 mm on 38 mm.
#[test]
fn each_process_has_its_own_deposit() {
    let mut record = asme_record("38 mm", "32 mm", Process::ManualMetalArc);
    let piece = &mut record.pieces[0];
    piece
        .deposits
        .insert(0, Deposit { process: Process::TigSolidFiller, thickness: Some(q("6 mm")) });
    let mut root = piece.runs[0].clone();
    root.process = Process::TigSolidFiller;
    piece.runs.insert(0, root);
    let own = first_box(&record, asme(), &answered());
    assert_ends(own.limit("base-thickness").unwrap(), Some(5.0), Some(200.0));
    assert_ends(own.limit("base-thickness-impact").unwrap(), Some(16.0), None);
    let deposit = |process| -> &Limit {
        let of = |l: &&Limit| l.rule == "deposit-thickness" && l.process == Some(process);
        own.limits.iter().find(of).unwrap()
    };
    assert_ends(deposit(Process::TigSolidFiller), None, Some(12.0));
    assert_ends(deposit(Process::ManualMetalArc), None, Some(200.0));
}

/// QW-200.4(a), from memory: thickness counts for each process, filler metal and set of variables. 3 mm of E6010 (F3)
/// and 13 mm of E7018 (F4), stated for the process in one, are no 16 mm of either.
#[test]
fn a_deposit_of_unlike_runs_is_not_judged_by_their_sum() {
    let two_runs = |process, change: fn(&mut Record)| {
        let mut record = asme_record("16 mm", "3 mm", process);
        let piece = &mut record.pieces[0];
        piece.deposits.push(Deposit { process, thickness: Some(q("13 mm")) });
        let fill = piece.runs[0].clone();
        piece.runs.push(fill);
        piece.runs[1].number = 2;
        change(&mut record);
        record
    };
    let electrode = Process::ManualMetalArc;
    // 16 mm in all: at most 2 t = 32 mm (QW-451.1).
    let alike = two_runs(electrode, |_| ());
    let own = limit(&alike, asme(), &without_impact(), "deposit-thickness");
    assert_ends(&own, None, Some(32.0));
    let unlike = two_runs(electrode, |record| {
        record.pieces[0].runs[0].filler.as_mut().unwrap().f_number = Some("3".to_owned());
    });
    let unstated = two_runs(electrode, |record| {
        record.pieces[0].runs[0].filler.as_mut().unwrap().f_number = None;
    });
    for (record, each) in [(&unlike, "3; 6"), (&unstated, "not stated; 6")] {
        let own = limit(record, asme(), &without_impact(), "deposit-thickness");
        let Allowed::Unknown(missing) = &own.allowed else { panic!("{}", own.allowed) };
        let words = format!("the thickness deposited with each f-number of 111 ({each})");
        assert!(missing.fact.contains(&words), "{}", missing.fact);
        let judgement = judged(record, asme(), &without_impact(), &repeated(record));
        assert!(matches!(standing(&judgement, "deposit-thickness"), Standing::NotJudged(_)));
    }
    let transfers = two_runs(Process::MagSolidWire, |record| {
        record.pieces[0].runs[0].electrical.transfer = Some(Transfer::ShortCircuit);
    });
    for rule in ["deposit-thickness", "deposit-short-circuit"] {
        let own = limit(&transfers, asme(), &without_impact(), rule);
        let Allowed::Unknown(missing) = &own.allowed else { panic!("{}", own.allowed) };
        let words = "each transfer of 135 (short-circuit; spray)";
        assert!(missing.fact.contains(words), "{}", missing.fact);
    }
}

/// QW-451.1: every row in both columns, both sides of every edge.
#[test]
fn base_thickness_in_both_columns() {
    for (t, min, max) in [
        (1.499, 1.499, 2.998),
        (1.5, 1.5, 3.0),
        (10.0, 1.5, 20.0),
        (10.001, 5.0, 20.002),
        (18.999, 5.0, 37.998),
        (19.0, 5.0, 38.0),
        (37.999, 5.0, 75.998),
        (38.0, 5.0, 200.0),
        (150.0, 5.0, 200.0),
        (150.001, 5.0, 199.50133),
    ] {
        let record = asme_record(&format!("{t} mm"), "5 mm", Process::ManualMetalArc);
        assert_ends(
            &limit(&record, asme(), &without_impact(), "base-thickness"),
            Some(min),
            Some(max),
        );
    }
    for (t, min, max) in [
        (0.062, 0.062, 0.124),
        (0.0625, 0.0625, 0.125),
        (0.375, 0.0625, 0.75),
        (0.376, 0.1875, 0.752),
        (0.749, 0.1875, 1.498),
        (0.75, 0.1875, 1.5),
        (1.499, 0.1875, 2.998),
        (1.5, 0.1875, 8.0),
        (6.0, 0.1875, 8.0),
        (7.0, 0.1875, 9.31),
    ] {
        let mut record = asme_record(&format!("{t} in"), "0.25 in", Process::ManualMetalArc);
        record.units = UnitSystem::Us;
        let own = limit(&record, asme(), &without_impact(), "base-thickness");
        assert_ends(&own, Some(min * 25.4), Some(max * 25.4));
    }
    // Note 3 does not name flux-cored wire.
    let record = asme_record("38 mm", "38 mm", Process::MagFluxCored);
    let own = first_box(&record, asme(), &without_impact());
    assert_ends(own.limit("base-thickness-cored").unwrap(), Some(5.0), Some(76.0));
    assert_ends(own.limit("deposit-thickness-cored").unwrap(), None, Some(76.0));
}

/// QW-451.1, deposit, in both columns.
#[test]
fn deposit_thickness_in_both_columns() {
    for (t, s, max) in [
        (18.999, 18.999, 37.998),
        (19.0, 18.999, 37.998),
        (19.0, 19.0, 38.0),
        (37.999, 20.0, 75.998),
        (38.0, 18.999, 37.998),
        (38.0, 19.0, 200.0),
        (150.0, 100.0, 200.0),
        (200.0, 18.999, 37.998),
        (200.0, 19.0, 266.0),
    ] {
        let record = asme_record(&format!("{t} mm"), &format!("{s} mm"), Process::ManualMetalArc);
        let own = limit(&record, asme(), &without_impact(), "deposit-thickness");
        assert_ends(&own, None, Some(max));
        let mut inches = asme_record("1.5 in", "0.75 in", Process::ManualMetalArc);
        inches.units = UnitSystem::Us;
        let own = limit(&inches, asme(), &without_impact(), "deposit-thickness");
        assert_ends(&own, None, Some(203.2));
    }
}

/// QW-403.6 in both columns.
#[test]
fn lowest_thickness_with_toughness() {
    for (t, min) in
        [("5.9 mm", 2.95), ("6 mm", 6.0), ("15.9 mm", 15.9), ("16 mm", 16.0), ("25 mm", 16.0)]
    {
        let record = asme_record(t, "5 mm", Process::ManualMetalArc);
        assert_ends(&limit(&record, asme(), &answered(), "base-thickness-impact"), Some(min), None);
    }
    for (t, min) in [("0.24 in", 0.12), ("1/4 in", 0.25), ("0.62 in", 0.62), ("5/8 in", 0.625)] {
        let mut record = asme_record(t, "0.2 in", Process::ManualMetalArc);
        record.units = UnitSystem::Us;
        let own = limit(&record, asme(), &answered(), "base-thickness-impact");
        assert_ends(&own, Some(min * 25.4), None);
    }
}

/// QW-409.2: globular, spray and pulsed against short-circuit; QW-403.11; QW-404.4.
#[test]
fn changes_that_need_a_new_record() {
    let record = asme_record("12 mm", "12 mm", Process::MagSolidWire);
    let with = |change: &dyn Fn(&mut arcbounds::qualify::Proposal), rule: &str| {
        let mut proposal = repeated(&record);
        change(&mut proposal);
        standing(&judged(&record, asme(), &without_impact(), &proposal), rule)
    };
    for (transfer, expected) in [
        (Transfer::Pulsed, Standing::Inside),
        (Transfer::Globular, Standing::Inside),
        (Transfer::ShortCircuit, Standing::Outside),
    ] {
        assert_eq!(with(&|p| p.runs[0].transfer = Some(transfer), "transfer"), expected);
    }
    let p = |number: &str| Some(PNumber { number: number.to_owned(), group: Some(1) });
    assert_eq!(with(&|it| it.parts[0].p_number = p("3"), "p-numbers"), Standing::Outside);
    let f = |number: &str| Some(number.to_owned());
    let filler = |it: &mut arcbounds::qualify::Proposal, number: &str| {
        it.runs[0].filler.as_mut().unwrap().f_number = f(number);
    };
    assert_eq!(with(&|it| filler(it, "4"), "f-number"), Standing::Outside);
    assert_eq!(with(&|it| filler(it, "6"), "f-number"), Standing::Inside);
    assert_eq!(with(&|it| it.preheat = Some(q("44.9 °C")), "preheat"), Standing::Outside);
    assert_eq!(with(&|it| it.preheat = Some(q("45 °C")), "preheat"), Standing::Inside);
}

/// QW-406.1 allows a decrease of 55 °C (100 °F) and ISO 15614-1:2017, 8.4.8 one of 50 °C; neither prints a least
/// temperature. 22 °C less 50 or 55 and 50 °F less 100 demand none; 55 °C less 55 is 0 °C, which is still a limit
/// (own arithmetic).
#[test]
fn a_preheat_that_may_fall_below_freezing_is_none() {
    let none = "no preheat demanded: the decrease that the code allows ends below freezing";
    let welded = |text: &str, mut record: Record| {
        if text.contains('F') {
            record.units = UnitSystem::Us;
        }
        record.pieces[0].runs[0].preheat = measured(text);
        record
    };
    let asme_at = |text| welded(text, asme_record("12 mm", "12 mm", Process::MagSolidWire));
    let iso_at = |text| welded(text, iso_l1("12 mm", "12 mm"));
    for (record, pack, allowed) in [
        (asme_at("22 °C"), asme(), none),
        (asme_at("54 °C"), asme(), none),
        (asme_at("50 °F"), asme(), none),
        (asme_at("55 °C"), asme(), "at least 0 °C"),
        (asme_at("132 °F"), asme(), "at least 32 °F"),
        (iso_at("22 °C"), level_1(), none),
        (iso_at("60 °C"), level_1(), "at least 10 °C"),
    ] {
        let own = limit(&record, pack, &without_impact(), "preheat");
        assert_eq!(own.allowed.to_string(), allowed, "{}", own.working);
    }
    let record = asme_at("22 °C");
    let stands = |preheat: Option<&str>| {
        let mut proposal = repeated(&record);
        proposal.preheat = preheat.map(q);
        standing(&judged(&record, asme(), &without_impact(), &proposal), "preheat")
    };
    assert_eq!(stands(None), Standing::Inside);
    assert_eq!(stands(Some("5 °C")), Standing::Inside);
    assert_eq!(stands(Some("-34 °C")), Standing::Outside);
}

/// QW-404.5 (from memory): A-No. 1 qualifies for A-No. 2 and vice versa; nothing else changes.
#[test]
fn a_numbers_one_and_two_qualify_for_each_other() {
    let stands = |recorded: &str, proposed: &str| {
        let mut record = asme_record("12 mm", "12 mm", Process::MagSolidWire);
        let number = |text: &str| Some(text.to_owned());
        record.pieces[0].runs[0].filler.as_mut().unwrap().a_number = number(recorded);
        let mut proposal = repeated(&record);
        proposal.runs[0].filler.as_mut().unwrap().a_number = number(proposed);
        standing(&judged(&record, asme(), &without_impact(), &proposal), "a-number")
    };
    for (recorded, proposed, expected) in [
        ("1", "2", Standing::Inside),
        ("2", "1", Standing::Inside),
        ("1", "1", Standing::Inside),
        ("8", "8", Standing::Inside),
        ("1", "3", Standing::Outside),
        ("2", "10", Standing::Outside),
        ("8", "1", Standing::Outside),
    ] {
        assert_eq!(stands(recorded, proposed), expected, "{recorded} for {proposed}");
    }
}

/// QW-404.23 (from memory): bare (solid) and metal-cored are one product form, flux-cored is another; wires of both
/// forms are GMAW, flux-cored ones FCAW. What the record limits holds for the other form as well.
#[test]
fn solid_and_metal_cored_wire_are_one_form_and_one_process() {
    let record = asme_record("12 mm", "12 mm", Process::MagSolidWire);
    let with = |process: Process, designation: &str, thickness: &str| {
        let mut proposal = repeated(&record);
        proposal.deposits[0].0 = process;
        proposal.deposits[0].1 = one(thickness);
        let run = &mut proposal.runs[0];
        run.process = process;
        let own = run.filler.as_mut().unwrap();
        own.kind = None;
        own.designation = filler(designation, "1.2 mm").designation;
        judged(&record, asme(), &without_impact(), &proposal)
    };
    let cored = with(Process::MagMetalCored, "E70C-6M", "12 mm");
    assert_eq!(cored.ruling, Ruling::Qualified, "{:?}", complaints(&cored));
    for rule in ["process", "filler-form", "deposit-thickness", "f-number", "shielding-gas"] {
        assert_eq!(standing(&cored, rule), Standing::Inside, "{rule}");
    }
    let thick = with(Process::MagMetalCored, "E70C-6M", "24.1 mm");
    assert_eq!(standing(&thick, "deposit-thickness"), Standing::Outside);
    let flux = with(Process::MagFluxCored, "E71T-1M", "12 mm");
    assert_eq!(flux.ruling, Ruling::NeedsNewQualification);
    assert_eq!(standing(&flux, "process"), Standing::Outside);
}

/// QW-424.1 (from memory): P-3 covers P-3 to P-3 or P-1, P-4 covers P-4 to P-4, P-3 or P-1, P-5A covers P-5A to P-5A,
/// P-4, P-3 or P-1; any other P-Number itself. Neither covers P-1 to P-1.
#[test]
fn p_numbers_stand_beside_lower_ones() {
    let stands = |recorded: [&str; 2], proposed: [&str; 2]| {
        let p = |number: &str| Some(PNumber { number: number.to_owned(), group: Some(1) });
        let mut record = asme_record("12 mm", "12 mm", Process::MagSolidWire);
        for (part, number) in record.pieces[0].parts.iter_mut().zip(recorded) {
            part.metal.p_number = p(number);
        }
        let mut proposal = repeated(&record);
        for (part, number) in proposal.parts.iter_mut().zip(proposed) {
            part.p_number = p(number);
        }
        standing(&judged(&record, asme(), &without_impact(), &proposal), "p-numbers")
    };
    for (recorded, covered, refused) in [
        (["3", "3"], vec![["3", "3"], ["3", "1"], ["1", "3"]], vec![["1", "1"], ["4", "3"]]),
        (["4", "4"], vec![["4", "4"], ["4", "3"], ["1", "4"]], vec![["3", "3"], ["5A", "4"]]),
        (["5A", "5A"], vec![["5A", "5A"], ["5A", "4"], ["5A", "3"], ["5A", "1"]], vec![["4", "4"]]),
        (["5A", "4"], vec![["5A", "4"], ["5A", "3"], ["5A", "1"]], vec![["5A", "5A"], ["4", "4"]]),
        (["4", "1"], vec![["4", "3"], ["4", "1"]], vec![["4", "4"], ["3", "1"]]),
        (["3", "1"], vec![["3", "1"]], vec![["3", "3"], ["1", "1"]]),
        (["8", "8"], vec![["8", "8"]], vec![["8", "1"], ["1", "1"]]),
    ] {
        for pair in covered {
            assert_eq!(stands(recorded, pair), Standing::Inside, "{recorded:?} {pair:?}");
        }
        for pair in refused {
            assert_eq!(stands(recorded, pair), Standing::Outside, "{recorded:?} {pair:?}");
        }
    }
}

fn words(record: &Record, pack: &Pack, rule: &str) -> String {
    let limit = limit(record, pack, &answered(), rule);
    assert!(matches!(limit.allowed, Allowed::Words(_)), "{}", limit.working);
    limit.allowed.to_string()
}

/// ISO 15614-1:2017, 8.4.3, level 1, and ASME IX QW-202.2, QW-451.3, QW-451.4 (from memory).
#[test]
fn kinds_of_weld() {
    use arcbounds::qualify::record::{Penetration, WeldKind};
    let all = "butt-full, butt-partial, tee-butt-full, tee-butt-partial, branch, fillet";
    for (weld, penetration, iso_covers, asme_covers) in [
        (WeldKind::Butt, Penetration::Full, Some(all), Some(all)),
        (WeldKind::TeeButt, Penetration::Full, Some(all), None),
        (WeldKind::Butt, Penetration::Partial, None, Some(all)),
        (WeldKind::Branch, Penetration::Full, Some("branch, fillet"), None),
        (WeldKind::Fillet, Penetration::Full, Some("fillet"), Some("fillet")),
    ] {
        for (mut record, pack, covered) in [
            (iso_l1("12 mm", "12 mm"), level_1(), iso_covers),
            (asme_record("12 mm", "12 mm", Process::MagSolidWire), asme(), asme_covers),
        ] {
            record.pieces[0].joint.weld = Some(weld);
            record.pieces[0].joint.penetration = Some(penetration);
            if let Some(covered) = covered {
                assert_eq!(words(&record, pack, "weld"), covered, "{weld}");
            } else {
                let limit = limit(&record, pack, &answered(), "weld");
                assert!(matches!(limit.allowed, Allowed::Unknown(_)), "{}", limit.working);
            }
        }
    }
}

/// ISO 15614-1:2017, 8.4.3, level 1: with backing covers without; without gouging covers with.
#[test]
fn sides_of_level_one() {
    use arcbounds::qualify::record::{Backing, RootRemoval, Sides};
    let both = "both-sides-no-removal, both-sides-mechanical-removal, both-sides-thermal-removal";
    let everything = format!("one-side-no-backing, one-side-backing, {both}");
    let gouged =
        "one-side-backing, both-sides-mechanical-removal, both-sides-thermal-removal".to_owned();
    for (sides, backing, removal, covered) in [
        (Sides::One, Backing::None, RootRemoval::None, &everything),
        (Sides::One, Backing::Permanent, RootRemoval::None, &everything),
        (Sides::Both, Backing::Weld, RootRemoval::None, &format!("one-side-backing, {both}")),
        (Sides::Both, Backing::Weld, RootRemoval::Mechanical, &gouged),
        (Sides::Both, Backing::Weld, RootRemoval::Thermal, &gouged),
    ] {
        let mut record = iso_l1("12 mm", "12 mm");
        let joint = &mut record.pieces[0].joint;
        (joint.sides, joint.backing, joint.root_removal) =
            (Some(sides), Some(backing), Some(removal));
        assert_eq!(words(&record, level_1(), "sides"), *covered, "{sides} {removal}");
    }
}

/// QW-405.2 (from memory) and QW-410.9.
#[test]
fn supplementary_choices() {
    use arcbounds::qualify::record::Layering;
    let up = ["PF", "PH", "H-L045"];
    for (position, code) in Position::ALL.iter().filter(|(_, code)| *code != "PK") {
        let mut record = asme_record("12 mm", "12 mm", Process::MagSolidWire);
        record.pieces[0].position = Some(*position);
        let covered = words(&record, asme(), "position-impact");
        let covered: Vec<_> = covered.split(", ").collect();
        for tested in up {
            assert_eq!(covered.contains(&tested), up.contains(code), "{code}");
        }
        assert!(covered.contains(&"PA") && covered.contains(&"PG"), "{code}");
    }
    for (layering, covered) in
        [(Layering::MultiRun, "multi-run"), (Layering::SingleRun, "single-run, multi-run")]
    {
        let mut record = asme_record("12 mm", "12 mm", Process::MagSolidWire);
        record.pieces[0].layering = Some(layering);
        assert_eq!(words(&record, asme(), "layering"), covered);
    }
}

#[test]
fn impact_tests_that_are_required_have_to_be_there() {
    let mut record = asme_record("12 mm", "12 mm", Process::MagSolidWire);
    record.pieces[0].tests.retain(|test| test.kind != TestKind::Impact);
    let judgement = judged(&record, asme(), &answered(), &repeated(&record));
    assert!(matches!(standing(&judgement, "impact-tested"), Standing::NotJudged(_)));
    let judgement = judged(&record, asme(), &without_impact(), &repeated(&record));
    assert_eq!(judgement.ruling, Ruling::Qualified, "{:?}", complaints(&judgement));
}

/// ASME BPVC IX, 2017, QW-451.1 (tension and bend tests of grooves); AWS D1.1:2015, Table 4.2 (visual and other tests,
/// tension, bends); both from memory. A record with nothing but a visual test says that its tests passed, not that they
/// were all.
#[test]
fn the_extent_of_the_tests_is_a_question_of_each_code() {
    let asme_record = asme_record("12 mm", "12 mm", Process::MagSolidWire);
    for (mut record, pack, job, table) in [
        (asme_record, asme(), without_impact(), "QW-451"),
        (aws_record(), aws(), undemanding(), "Table 4.2"),
    ] {
        record.pieces[0].tests = vec![passed(TestKind::Visual)];
        let with = |answer: Option<bool>| {
            let mut job = job.clone();
            job.stated.remove("extent-of-tests");
            job.stated.extend(answer.map(|answer| ("extent-of-tests".to_owned(), answer)));
            let judgement = judged(&record, pack, &job, &repeated(&record));
            assert_eq!(standing(&judgement, "tests-passed"), Standing::Inside);
            let asked = finding(&judgement, "extent-of-tests");
            assert!(asked.clause.replace("Tables", "Table").starts_with(table), "{}", asked.clause);
            (judgement.ruling, asked.standing.clone(), asked.confidence)
        };
        let memory = arcbounds::trade::Confidence::Memory;
        let (ruling, standing, _) = with(None);
        assert!(matches!(standing, Standing::NotJudged(_)), "{table}: {standing:?}");
        assert_eq!(ruling, Ruling::NotJudged, "{table}");
        let no = (Ruling::NeedsNewQualification, Standing::Outside, memory);
        assert_eq!(with(Some(false)), no, "{table}");
        assert_eq!(with(Some(true)), (Ruling::Qualified, Standing::Inside, memory), "{table}");
    }
}
