//! Worked case 10 by AWS D1.1/D1.1M:2015, Table 4.5 (own arithmetic; rows 17, 18 and 20 from memory).

use arcbounds::{
    qualify::{Allowed, JobFacts, Proposal, Ruling, Standing, record::ProductForm},
    quantity::UnitSystem,
};

use super::fixture::*;

fn with_impact() -> JobFacts {
    JobFacts { hardness_required: Some(false), ..demanding() }
}

#[test]
fn bands_stand_around_each_recorded_value() {
    let record = aws_record();
    let at = |rule| limit(&record, aws(), &with_impact(), rule);
    assert_ends(&at("current-wire"), Some(234.0), Some(286.0));
    assert_ends(&at("voltage"), Some(25.11), Some(28.89));
    assert_ends(&at("wire-feed"), Some(8.1), Some(9.9));
    assert_ends(&at("travel-speed-wire"), Some(262.5), Some(437.5));
    assert_ends(&at("gas-flow"), Some(16.0), Some(30.0));
    assert_ends(&at("preheat"), Some(50.0), None);
    assert_ends(&at("parent-thickness-complete"), Some(3.0), Some(40.0));
    // 27 V at 260 A and 350 mm/min: 1.2034 kJ/mm.
    assert_ends(&at("impact-energy"), None, Some(27.0 * 260.0 * 60.0 / 350_000.0));
    assert_eq!(at("voltage").working, "136: voltage 27 V: 25.11 V to 28.89 V");
}

#[test]
fn what_was_tested_is_qualified_and_rests_on_memory() {
    let record = aws_record();
    for job in [with_impact(), undemanding()] {
        let judgement = judged(&record, aws(), &job, &repeated(&record));
        assert_eq!(complaints(&judgement), Vec::<String>::new());
        assert_eq!(judgement.ruling, Ruling::Qualified);
        assert!(best(&judgement).rests_on_memory);
    }
}

/// The whole box of the bands, without an energy of its own.
fn all_bands() -> Proposal {
    let mut proposal = repeated(&aws_record());
    let run = &mut proposal.runs[0];
    run.current = range("234 A", "286 A");
    run.voltage = range("25.11 V", "28.89 V");
    run.travel_speed = range("262.5 mm/min", "437.5 mm/min");
    proposal
}

#[test]
fn a_box_inside_all_bands_can_leave_the_energy_limit() {
    let record = aws_record();
    let free = judged(&record, aws(), &undemanding(), &all_bands());
    assert_eq!(free.ruling, Ruling::Qualified, "{:?}", complaints(&free));
    let held = judged(&record, aws(), &with_impact(), &all_bands());
    let energy = finding(&held, "impact-energy");
    assert_eq!(energy.standing, Standing::Outside);
    // Corners 0.806 and 1.889 kJ/mm.
    let given = energy.given.clone().unwrap();
    assert!(given.starts_with("0.8058 kJ/mm to 1.889 kJ/mm implied"), "{given}");
    assert_eq!(held.ruling, Ruling::NeedsNewQualification);
}

/// At 286 A and 28.89 V travel has to be at least 412 mm/min: 286 * 28.89 * 60 / 1203.4 = 411.95.
#[test]
fn the_hot_corner_needs_a_faster_travel() {
    let record = aws_record();
    for (speed, expected) in [("412 mm/min", Standing::Inside), ("411 mm/min", Standing::Outside)] {
        let mut proposal = repeated(&record);
        let run = &mut proposal.runs[0];
        run.current = one("286 A");
        run.voltage = one("28.89 V");
        run.travel_speed = one(speed);
        let judgement = judged(&record, aws(), &with_impact(), &proposal);
        assert_eq!(standing(&judgement, "impact-energy"), expected, "{speed}");
    }
}

/// An energy range that is stated and held makes the corners information.
#[test]
fn a_stated_energy_range_is_judged_and_its_corners_are_told() {
    let record = aws_record();
    let mut proposal = all_bands();
    let energy = range("0.9 kJ/mm", "1.2 kJ/mm").unwrap();
    proposal.runs[0].energy = Some(arcbounds::qualify::ProposedEnergy::Arc(energy));
    let judgement = judged(&record, aws(), &with_impact(), &proposal);
    let all: Vec<_> =
        best(&judgement).findings.iter().filter(|f| f.rule == "impact-energy").collect();
    assert_eq!(all[0].standing, Standing::Inside);
    assert_eq!(all[1].standing, Standing::Informative);
    assert!(all[1].given.as_ref().unwrap().contains("1.889 kJ/mm"));
    assert_eq!(judgement.ruling, Ruling::Qualified, "{:?}", complaints(&judgement));
}

#[test]
fn averages_of_a_shaped_waveform_imply_no_energy() {
    let record = aws_record();
    let mut proposal = repeated(&record);
    proposal.runs[0].waveform = Some(arcbounds::trade::Waveform::Controlled);
    let judgement = judged(&record, aws(), &with_impact(), &proposal);
    assert!(matches!(standing(&judgement, "impact-energy"), Standing::NotJudged(_)));
}

/// Rows 12 and 17 stand for each other: amperes outside with the feed inside are information.
#[test]
fn one_cause_never_fails_twice() {
    let record = aws_record();
    let mut proposal = repeated(&record);
    proposal.runs[0].current = one("300 A");
    let judgement = judged(&record, aws(), &undemanding(), &proposal);
    assert_eq!(standing(&judgement, "wire-feed"), Standing::Inside);
    assert_eq!(standing(&judgement, "current-wire"), Standing::Informative);
    proposal.runs[0].wire_feed = None;
    let judgement = judged(&record, aws(), &undemanding(), &proposal);
    assert_eq!(standing(&judgement, "current-wire"), Standing::Outside);
    assert_eq!(standing(&judgement, "wire-feed"), Standing::Informative);
    proposal.runs[0].current = None;
    let judgement = judged(&record, aws(), &undemanding(), &proposal);
    assert!(matches!(standing(&judgement, "wire-feed"), Standing::NotJudged(_)));
    assert!(matches!(standing(&judgement, "current-wire"), Standing::NotJudged(_)));
}

/// With a constant-current output the amperage is set, and decides.
#[test]
fn the_amperage_decides_where_it_is_set() {
    use arcbounds::qualify::record::OutputCharacteristic;
    let mut record = aws_record();
    record.pieces[0].runs[0].electrical.characteristic =
        Some(OutputCharacteristic::ConstantCurrent);
    let mut proposal = repeated(&record);
    proposal.runs[0].current = one("300 A");
    let judgement = judged(&record, aws(), &undemanding(), &proposal);
    assert_eq!(standing(&judgement, "current-wire"), Standing::Outside);
    assert_eq!(standing(&judgement, "wire-feed"), Standing::Informative);
}

/// Bands are by filler diameter: another size has none.
#[test]
fn another_diameter_has_no_band() {
    let record = aws_record();
    let mut proposal = repeated(&record);
    proposal.runs[0].filler = Some(filler("AWS A5.20: E71T-1M", "1.0 mm"));
    let judgement = judged(&record, aws(), &undemanding(), &proposal);
    // Row 10: flux-cored, any increase; a thinner wire is free.
    assert_eq!(standing(&judgement, "filler-diameter-cored"), Standing::Inside);
    let Standing::NotJudged(missing) = standing(&judgement, "voltage") else { panic!() };
    assert_eq!(missing.fact, "a run with filler of 1 mm");
}

/// Two runs with other values are two boxes: volts of one do not go with the feed of the other.
#[test]
fn bands_of_two_runs_make_no_third() {
    let mut record = aws_record();
    let mut second = record.pieces[0].runs[0].clone();
    second.number = 2;
    second.electrical.wire_feed = measured("12 m/min");
    second.electrical.current = measured("320 A");
    second.electrical.voltage = measured("31 V");
    record.pieces[0].runs.push(second);
    let place = |feed: &str, volts: &str| {
        let mut proposal = repeated(&aws_record());
        proposal.runs[0].wire_feed = one(feed);
        proposal.runs[0].current = None;
        proposal.runs[0].voltage = one(volts);
        judged(&record, aws(), &undemanding(), &proposal).ruling
    };
    assert_eq!(place("9 m/min", "27 V"), Ruling::Qualified);
    assert_eq!(place("12 m/min", "31 V"), Ruling::Qualified);
    assert_eq!(place("12 m/min", "27 V"), Ruling::NeedsNewQualification);
    assert_eq!(place("9 m/min", "31 V"), Ruling::NeedsNewQualification);
}

/// The code prints inches beside millimetres, rounded apart: 3/8 in is not 10 mm.
#[test]
fn a_record_in_inches_is_judged_by_the_inch_table() {
    let mut record = aws_record();
    record.units = UnitSystem::Us;
    record.pieces[0].parts = parts(ProductForm::Plate, "1 in");
    let thickness = limit(&record, aws(), &undemanding(), "parent-thickness-complete");
    assert_eq!(thickness.working, "coupon 1 in: at least 0.125 in");
    // 25.4 mm is above 25 mm as well; 24.9 mm is below 25 mm and below 1 in.
    record.pieces[0].parts = parts(ProductForm::Plate, "0.99 in");
    let thickness = limit(&record, aws(), &undemanding(), "parent-thickness-complete");
    assert_ends(&thickness, Some(3.175), Some(2.0 * 0.99 * 25.4));
    record.units = UnitSystem::Metric;
    // The same plate by the metric table: 25.146 mm, unlimited.
    let thickness = limit(&record, aws(), &undemanding(), "parent-thickness-complete");
    assert_ends(&thickness, Some(3.0), None);
}

/// Row 35: 25 °F in one column, 15 °C in the other.
#[test]
fn steps_are_those_of_the_records_units() {
    let mut record = aws_record();
    record.pieces[0].runs[0].preheat = measured("150 °F");
    record.units = UnitSystem::Us;
    let limit_us = limit(&record, aws(), &undemanding(), "preheat");
    assert_eq!(limit_us.working, "preheat 150 °F: at least 125 °F");
    record.units = UnitSystem::Metric;
    let limit_metric = limit(&record, aws(), &undemanding(), "preheat");
    assert_ends(&limit_metric, Some((150.0 - 32.0) * 5.0 / 9.0 - 15.0), None);
}

#[test]
fn a_question_answered_no_is_a_breach_and_one_not_answered_is_not_judged() {
    let record = aws_record();
    let mut job = undemanding();
    job.stated.insert("groove-detail".to_owned(), false);
    let judgement = judged(&record, aws(), &job, &repeated(&record));
    assert_eq!(standing(&judgement, "groove-detail"), Standing::Outside);
    job.stated.remove("groove-detail");
    let judgement = judged(&record, aws(), &job, &repeated(&record));
    assert!(matches!(standing(&judgement, "groove-detail"), Standing::NotJudged(_)));
    assert_eq!(judgement.ruling, Ruling::NotJudged);
}

#[test]
fn group_three_and_above_is_not_judged() {
    let mut record = aws_record();
    for part in &mut record.pieces[0].parts {
        part.metal.d11_group = Some(arcbounds::qualify::record::D11Group::Iii);
    }
    let limit = limit(&record, aws(), &undemanding(), "base-metal-groups");
    assert!(matches!(limit.allowed, Allowed::Unknown(_)), "{}", limit.working);
}
