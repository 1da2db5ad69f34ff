//! Worked cases by ISO 15614-1:2017+A1:2019, clause 8, level 2 (own arithmetic from its tables).

use arcbounds::{
    qualify::{
        Allowed, ProposedEnergy, Ruling, Standing,
        record::{
            Deposit, Joint, Layering, Measured, ProductForm, RunEnergy, TestKind, Transfer,
            WeldKind,
        },
    },
    quantity::UnitSystem,
    trade::{Position, Process},
};

use super::fixture::*;

/// Case 1, with the limits and the sentences they come in.
#[test]
fn a_multi_run_butt_weld_of_twelve_millimetres() {
    let record = iso_record();
    let at = |rule| limit(&record, iso(), &demanding(), rule);
    assert_ends(&at("parent-thickness-multi-run"), Some(3.0), Some(24.0));
    assert_eq!(at("parent-thickness-multi-run").working, "coupon 12 mm: 3 mm to 24 mm");
    let only_for = at("parent-thickness-multi-run").only_for();
    assert_eq!(only_for.as_deref(), Some("butt, tee-butt, branch"));
    assert_eq!(at("preheat").only_for(), None);
    assert_ends(&at("deposit-thickness"), None, Some(24.0));
    assert_eq!(
        at("deposit-thickness").working,
        "135: deposit 12 mm on coupon 12 mm: at most 24 mm"
    );
    assert_ends(&at("energy-upper"), None, Some(1.5));
    assert_ends(&at("energy-lower"), Some(0.9), None);
    assert_ends(&at("preheat"), Some(50.0), None);
    assert_ends(&at("interpass"), None, Some(230.0));
    let position = at("position");
    assert_eq!(position.allowed, Allowed::Words(vec!["PF".to_owned()]));
    assert_eq!(at("shielding-gas-mig-mag").clause, "8.5.2.1");
    let Allowed::Gas(window) = at("shielding-gas-mig-mag").allowed else { panic!() };
    assert!(window.to_string().contains("CO2 14.4 to 21.6 %"), "{window}");
    let Allowed::Words(transfer) = at("transfer").allowed else { panic!() };
    assert_eq!(transfer, ["spray", "pulsed", "globular"]);
    assert_eq!(
        at("base-metals").allowed.to_string(),
        "groups 1-1; beside 1.2 of at most 355 MPa; beside 1.2 of at most 355 MPa"
    );
}

/// Note a of Table 5 is about groups 1 to 3 and 11: the yield of an austenitic steel limits nothing.
#[test]
fn the_yield_is_named_where_it_limits() {
    let mut record = iso_record();
    for part in &mut record.pieces[0].parts {
        part.metal.group = Some("8.1".parse().unwrap());
        part.metal.specified_yield = Some(q("190 MPa"));
    }
    let metals = limit(&record, iso(), &demanding(), "base-metals").allowed.to_string();
    assert!(metals.ends_with("; beside 8.1; beside 8.1"), "{metals}");
}

#[test]
fn what_was_tested_is_qualified() {
    let record = iso_record();
    let judgement = judged(&record, iso(), &demanding(), &repeated(&record));
    assert_eq!(complaints(&judgement), Vec::<String>::new());
    assert_eq!(judgement.ruling, Ruling::Qualified);
}

#[test]
fn short_circuit_is_not_covered_by_spray() {
    let record = iso_record();
    let mut proposal = repeated(&record);
    proposal.runs[0].transfer = Some(Transfer::ShortCircuit);
    let judgement = judged(&record, iso(), &demanding(), &proposal);
    assert_eq!(judgement.ruling, Ruling::NeedsNewQualification);
    assert_eq!(standing(&judgement, "transfer"), Standing::Outside);
    assert_eq!(finding(&judgement, "transfer").clause, "8.5.2.3 (A1:2019)");
}

/// Case 2: single-run butt, 8 mm.
#[test]
fn a_single_run_butt_weld_of_eight_millimetres() {
    let mut record = iso_record();
    record.pieces[0].parts = parts(ProductForm::Plate, "8 mm");
    record.pieces[0].layering = Some(Layering::SingleRun);
    record.pieces[0].deposits[0].thickness = Some(q("8 mm"));
    let at = |rule| limit(&record, iso(), &demanding(), rule);
    assert_ends(&at("parent-thickness-single-run"), Some(4.0), Some(10.4));
    assert_ends(&at("deposit-thickness"), None, Some(16.0));
    let mut proposal = repeated(&record);
    proposal.layering = Some(Layering::MultiRun);
    let judgement = judged(&record, iso(), &demanding(), &proposal);
    assert_eq!(standing(&judgement, "layering"), Standing::Outside);
    // Without impact and hardness tests the change is free.
    let judgement = judged(&record, iso(), &undemanding(), &proposal);
    assert_eq!(judgement.ruling, Ruling::Qualified);
}

fn fillet() -> arcbounds::qualify::record::Record {
    let mut record = iso_record();
    let piece = &mut record.pieces[0];
    piece.joint = Joint { weld: Some(WeldKind::Fillet), ..Joint::default() };
    piece.parts = parts(ProductForm::Plate, "10 mm");
    piece.position = Some(Position::Pb);
    piece.layering = Some(Layering::SingleRun);
    piece.throat = Some(q("5 mm"));
    piece.deposits[0].thickness = Some(q("5 mm"));
    record
}

/// Case 3: T fillet, 10 mm on 10 mm, throat 5 mm in one run.
#[test]
fn a_single_run_fillet_of_five_millimetres() {
    let record = fillet();
    let at = |rule| limit(&record, iso(), &undemanding(), rule);
    let thickness = at("parent-thickness-fillet").allowed.to_string();
    assert_eq!(thickness, "3 mm to 20 mm beside 3 mm to 20 mm");
    assert_ends(&at("throat-single-run"), Some(3.75), Some(7.5));
    let mut multi = record;
    multi.pieces[0].layering = Some(Layering::MultiRun);
    let own = first_box(&multi, iso(), &undemanding());
    assert!(own.limit("throat-single-run").is_none());
    let mut proposal = repeated(&multi);
    proposal.throat = one("30 mm");
    let judgement = judged(&multi, iso(), &undemanding(), &proposal);
    assert_eq!(judgement.ruling, Ruling::Qualified, "{:?}", complaints(&judgement));
}

#[test]
fn each_side_of_a_fillet_has_its_own_thickness_range() {
    let mut record = fillet();
    record.pieces[0].parts[1].thickness = Some(q("40 mm"));
    let place = |first: &str, second: &str| {
        let mut proposal = repeated(&record);
        proposal.parts[0].thickness = one(first);
        proposal.parts[1].thickness = one(second);
        let judgement = judged(&record, iso(), &undemanding(), &proposal);
        standing(&judgement, "parent-thickness-fillet")
    };
    // 10 mm covers 3 to 20 mm, 40 mm covers 5 mm and above, in either order.
    assert_eq!(place("20 mm", "100 mm"), Standing::Inside);
    assert_eq!(place("100 mm", "20 mm"), Standing::Inside);
    assert_eq!(place("20.1 mm", "100 mm"), Standing::Outside);
    assert_eq!(place("3 mm", "4.9 mm"), Standing::Outside);
    assert_eq!(place("3 mm", "5 mm"), Standing::Inside);
}

/// Case 4: 141 root and 135 fill, 20 mm, deposits 4 mm and 16 mm.
#[test]
fn two_processes_are_qualified_together_only() {
    let mut record = iso_record();
    let piece = &mut record.pieces[0];
    piece.parts = parts(ProductForm::Plate, "20 mm");
    piece.deposits = vec![
        Deposit { process: Process::TigSolidFiller, thickness: Some(q("4 mm")) },
        Deposit { process: Process::MagSolidWire, thickness: Some(q("16 mm")) },
    ];
    let mut root = iso_run(Process::TigSolidFiller);
    root.number = 2;
    root.gases.shielding = gas("I1-Ar");
    root.filler = Some(filler("ISO 636-A - W 42 5 3Si1", "2.4 mm"));
    piece.runs.insert(0, root);
    let own = first_box(&record, iso(), &undemanding());
    let deposit = |process| {
        let of = |l: &&arcbounds::qualify::Limit| {
            l.rule == "deposit-thickness" && l.process == Some(process)
        };
        own.limits.iter().find(of).unwrap().clone()
    };
    assert_ends(own.limit("parent-thickness-multi-run").unwrap(), Some(10.0), Some(40.0));
    assert_ends(&deposit(Process::TigSolidFiller), None, Some(8.0));
    assert_ends(&deposit(Process::MagSolidWire), None, Some(32.0));

    let whole = repeated(&record);
    let judgement = judged(&record, iso(), &undemanding(), &whole);
    assert_eq!(judgement.ruling, Ruling::Qualified, "{:?}", complaints(&judgement));
    let mut alone = whole;
    alone.deposits.remove(0);
    alone.runs.remove(0);
    let judgement = judged(&record, iso(), &undemanding(), &alone);
    assert_eq!(judgement.ruling, Ruling::NeedsNewQualification);
    assert_eq!(finding(&judgement, "process-sequence").clause, "8.4.1");
    assert_eq!(finding(&judgement, "process-sequence").standing, Standing::Outside);
}

/// Case 5: pipe 168.3 mm by 14.2 mm.
#[test]
fn a_pipe_covers_half_its_diameter_and_plate() {
    let mut record = iso_record();
    record.pieces[0].parts = parts(ProductForm::Pipe, "14.2 mm");
    for part in &mut record.pieces[0].parts {
        part.outside_diameter = Some(q("168.3 mm"));
    }
    record.pieces[0].deposits[0].thickness = Some(q("14.2 mm"));
    let at = |rule| limit(&record, iso(), &demanding(), rule);
    assert_ends(&at("outside-diameter"), Some(84.15), None);
    assert_ends(&at("parent-thickness-multi-run"), Some(7.1), Some(28.4));
    let mut plate = repeated(&record);
    for part in &mut plate.parts {
        part.form = Some(ProductForm::Plate);
        part.outside_diameter = None;
    }
    let judgement = judged(&record, iso(), &demanding(), &plate);
    assert_eq!(judgement.ruling, Ruling::Qualified, "{:?}", complaints(&judgement));
}

/// Case 12: each of the values lies inside, and what the case does not state is not judged: yield strength,
/// position, joint, polarity. 15 % CO2 lies in the record's window; that it is M20, outside a wire classified
/// with M21, is for the check of the wire's own designation to say.
#[test]
fn a_proposal_that_leaves_much_open_is_not_judged() {
    let mut record = iso_record();
    record.pieces[0].deposits[0].process = Process::MagFluxCored;
    let run = &mut record.pieces[0].runs[0];
    run.process = Process::MagFluxCored;
    run.filler = Some(filler("ISO 17632-A - T 46 4 P M21 1 H5", "1.2 mm"));
    run.preheat = measured("80 °C");
    let mut job = demanding();
    job.stated.clear();
    let mut proposal = arcbounds::qualify::Proposal {
        preheat: Some(q("60 °C")),
        interpass_max: Some(q("220 °C")),
        ..Default::default()
    };
    for _ in 0..2 {
        proposal.parts.push(arcbounds::qualify::ProposedPart {
            thickness: one("20 mm"),
            ..Default::default()
        });
    }
    proposal.joint.weld = Some(WeldKind::Butt);
    proposal.runs.push(arcbounds::qualify::ProposedRun {
        gas: gas("ArC-15"),
        energy: Some(ProposedEnergy::Arc(one("1.45 kJ/mm").unwrap())),
        ..arcbounds::qualify::ProposedRun::new(Process::MagFluxCored)
    });
    let judgement = judged(&record, iso(), &job, &proposal);
    for rule in [
        "parent-thickness-multi-run",
        "energy-upper",
        "energy-lower",
        "preheat",
        "interpass",
        "shielding-gas-mig-mag",
    ] {
        assert_eq!(standing(&judgement, rule), Standing::Inside, "{rule}");
    }
    for rule in
        ["base-metals", "position", "sides", "current-type", "preheat-rule", "extent-of-tests"]
    {
        assert!(matches!(standing(&judgement, rule), Standing::NotJudged(_)), "{rule}");
    }
    assert_eq!(judgement.ruling, Ruling::NotJudged);
}

/// 8.4.7: the two kinds of energy are never compared.
#[test]
fn energies_on_two_bases_are_not_compared() {
    let record = iso_record();
    let mut proposal = repeated(&record);
    proposal.runs[0].energy = Some(ProposedEnergy::HeatInput(one("1 kJ/mm").unwrap()));
    let judgement = judged(&record, iso(), &demanding(), &proposal);
    let Standing::NotJudged(missing) = standing(&judgement, "energy-upper") else { panic!() };
    assert!(missing.fact.contains("arc energy as recorded"), "{missing}");
    assert_eq!(judgement.ruling, Ruling::NotJudged);

    let mut mixed = iso_record();
    let mut second = iso_run(Process::MagSolidWire);
    second.number = 2;
    second.electrical.energy =
        Some(RunEnergy::HeatInput { value: Measured::of(q("1 kJ/mm")), efficiency: None });
    mixed.pieces[0].runs.push(second);
    let limit = limit(&mixed, iso(), &demanding(), "energy-upper");
    assert!(matches!(limit.allowed, Allowed::Unknown(_)), "{}", limit.working);
}

/// 8.4.7: highest and lowest of all runs of the process.
#[test]
fn the_hottest_run_gives_the_upper_and_the_coldest_the_lower_limit() {
    let mut record = iso_record();
    for (number, energy) in [(2, "0.8 kJ/mm"), (3, "2.0 kJ/mm")] {
        let mut run = iso_run(Process::MagSolidWire);
        run.number = number;
        run.electrical.energy = Some(RunEnergy::Arc(Measured::of(q(energy))));
        record.pieces[0].runs.push(run);
    }
    assert_ends(&limit(&record, iso(), &demanding(), "energy-upper"), None, Some(2.5));
    assert_ends(&limit(&record, iso(), &demanding(), "energy-lower"), Some(0.6), None);
}

/// A code with metric tables only is judged in them, whatever the record was typed in.
#[test]
fn inches_in_a_metric_code_are_judged_by_its_millimetres() {
    let mut record = iso_record();
    record.units = UnitSystem::Us;
    record.pieces[0].parts = parts(ProductForm::Plate, "1/2 in");
    // 12.7 mm: the row above 12 mm.
    let limit = limit(&record, iso(), &demanding(), "parent-thickness-multi-run");
    assert_ends(&limit, Some(6.35), Some(25.4));
}

#[test]
fn impact_tests_required_and_not_made_hold_the_thickness_to_twelve_millimetres() {
    let mut record = iso_record();
    record.pieces[0].tests.retain(|test| test.kind != TestKind::Impact);
    let limit = limit(&record, iso(), &demanding(), "parent-thickness-without-impact-tests");
    assert_ends(&limit, None, Some(12.0));
    let mut proposal = repeated(&record);
    for (thickness, expected) in [("12 mm", Standing::Inside), ("12.1 mm", Standing::Outside)] {
        for part in &mut proposal.parts {
            part.thickness = one(thickness);
        }
        let judgement = judged(&record, iso(), &demanding(), &proposal);
        assert_eq!(standing(&judgement, "parent-thickness-without-impact-tests"), expected);
    }
}
