//! Switches of the rules: impact, hardness, unknown facts, and what two tests qualify together.

use arcbounds::{
    qualify::{
        Allowed, Finding, JobFacts, Ruling, Standing, Whose,
        record::{
            Measured, Outcome, PostHeating, Record, RunEnergy, Test, TestKind, TestPlace,
            TreatmentClass,
        },
    },
    quantity::{Duration, Span, Temperature},
    trade::{Coded, Position},
};

use super::fixture::*;

fn facts(impact: Option<bool>, hardness: Option<bool>) -> JobFacts {
    JobFacts { impact_required: impact, hardness_required: hardness, ..demanding() }
}

/// ISO 15614-1:2017, 8.4.7: the upper limit counts with impact, the lower with hardness requirements.
#[test]
fn heat_input_is_limited_by_what_is_required() {
    let record = iso_record();
    let limits = |impact, hardness| {
        let own = first_box(&record, iso(), &facts(Some(impact), Some(hardness)));
        (own.limit("energy-upper").is_some(), own.limit("energy-lower").is_some())
    };
    assert_eq!(limits(true, true), (true, true));
    assert_eq!(limits(true, false), (true, false));
    assert_eq!(limits(false, true), (false, true));
    assert_eq!(limits(false, false), (false, false));
}

/// An unknown switch: inside its limit is inside in any case, outside is not judged.
#[test]
fn an_unknown_requirement_is_no_pass() {
    let record = iso_record();
    let at = |energy: &str| {
        let mut proposal = repeated(&record);
        let range = one(energy).unwrap();
        proposal.runs[0].energy = Some(arcbounds::qualify::ProposedEnergy::Arc(range));
        let judgement = judged(&record, iso(), &facts(None, Some(false)), &proposal);
        (standing(&judgement, "energy-upper"), judgement.ruling)
    };
    assert_eq!(at("1.5 kJ/mm"), (Standing::Inside, Ruling::Qualified));
    let (standing, ruling) = at("1.51 kJ/mm");
    let Standing::NotJudged(missing) = standing else { panic!("{standing:?}") };
    assert_eq!(missing.to_string(), "the job does not say: whether impact tests are required");
    assert_eq!(ruling, Ruling::NotJudged);
}

/// Without impact tests, a butt joint of a job that demands them goes to 12 mm (8.3.2, Table 7, note a). Tests that were
/// made at one temperature are none for a job of which nobody says whether it demands any, and at which.
#[test]
fn impact_tests_at_any_temperature_show_nothing_for_an_unknown_one() {
    let record = iso_record();
    let found = |required, temperature: Option<Temperature>| {
        let job = JobFacts {
            impact_required: required,
            impact_temperature: temperature,
            hardness_required: Some(false),
            ..demanding()
        };
        let mut proposal = repeated(&record);
        for part in &mut proposal.parts {
            part.thickness = one("24 mm");
        }
        let judgement = judged(&record, iso(), &job, &proposal);
        let of_rule = |f: &&Finding| f.rule == "parent-thickness-without-impact-tests";
        let standing = best(&judgement).findings.iter().find(of_rule).map(|f| f.standing.clone());
        (standing, judgement.ruling)
    };
    assert_eq!(found(None, Some(q("-20 °C"))), (None, Ruling::Qualified));
    assert_eq!(found(Some(false), None), (None, Ruling::Qualified));
    for required in [None, Some(true)] {
        let (standing, ruling) = found(required, None);
        assert!(matches!(standing, Some(Standing::NotJudged(_))), "{required:?}: {standing:?}");
        assert_eq!(ruling, Ruling::NotJudged);
    }
}

/// Clause 7: what Table 2 asks for is not held here. A record with nothing but a visual test says that its tests passed,
/// not that they were all.
#[test]
fn the_extent_of_the_tests_is_a_question() {
    let mut record = iso_record();
    record.pieces[0].tests = vec![passed(TestKind::Visual)];
    let with = |answer: Option<bool>| {
        let mut job = facts(Some(false), Some(false));
        job.stated.remove("extent-of-tests");
        job.stated.extend(answer.map(|answer| ("extent-of-tests".to_owned(), answer)));
        let judgement = judged(&record, iso(), &job, &repeated(&record));
        assert_eq!(standing(&judgement, "tests-passed"), Standing::Inside);
        (judgement.ruling, best(&judgement).rests_on_memory)
    };
    assert_eq!(with(None).0, Ruling::NotJudged);
    assert_eq!(with(Some(false)).0, Ruling::NeedsNewQualification);
    assert_eq!(with(Some(true)), (Ruling::Qualified, true));
}

/// 8.4.2: any position covers all, but those with a test of their own.
#[test]
fn without_requirements_any_position_covers_the_main_ones() {
    let record = iso_record();
    for (position, _) in Position::ALL {
        let mut proposal = repeated(&record);
        proposal.positions = vec![*position];
        let own = matches!(position, Position::Pg | Position::Pj | Position::JL045);
        let judgement = judged(&record, iso(), &facts(Some(false), Some(false)), &proposal);
        let inside = standing(&judgement, "position") == Standing::Inside;
        assert_eq!(inside, !own, "{position}");
        // Not known what is required: only what was tested is sure.
        let judgement = judged(&record, iso(), &facts(Some(false), None), &proposal);
        let found = standing(&judgement, "position");
        if *position == Position::Pf {
            assert_eq!(found, Standing::Inside);
        } else {
            assert!(matches!(found, Standing::NotJudged(_)), "{position}: {found:?}");
        }
    }
    let mut down = iso_record();
    down.pieces[0].position = Some(Position::Pg);
    let limit = limit(&down, iso(), &facts(Some(false), Some(false)), "position");
    assert_eq!(limit.allowed, Allowed::Words(vec!["PG".to_owned()]));
}

/// A second piece of the same joint, welded in PC with hardness tests, impacts not taken.
fn two_pieces() -> Record {
    let mut record = iso_record();
    let mut low = record.pieces[0].clone();
    "B".clone_into(&mut low.mark);
    low.position = Some(Position::Pc);
    low.runs[0].electrical.energy = Some(RunEnergy::Arc(Measured::of(q("0.8 kJ/mm"))));
    low.tests.retain(|test| test.kind != TestKind::Impact);
    record.pieces[0].tests.retain(|test| test.kind != TestKind::Hardness);
    record.pieces.push(low);
    record
}

/// 8.4.2 and 8.4.7: impacts from PF, hardness from PC: all main positions, and all between the energies.
#[test]
fn two_positions_and_energies_are_combined_as_the_code_says() {
    let record = two_pieces();
    let range = derived(&record, iso(), &demanding());
    assert_eq!(range.boxes.len(), 3);
    let both = &range.boxes[2];
    assert_eq!(both.pieces.len(), 2);
    assert_ends(both.limit("energy-upper").unwrap(), None, Some(1.5));
    assert_ends(both.limit("energy-lower").unwrap(), Some(0.6), None);
    let mut proposal = repeated(&record);
    proposal.positions = vec![Position::Pf, Position::Pa, Position::Pe];
    let energy = range_of("0.6 kJ/mm", "1.5 kJ/mm");
    proposal.runs[0].energy = Some(energy);
    let judgement = judged(&record, iso(), &demanding(), &proposal);
    assert_eq!(judgement.ruling, Ruling::Qualified, "{:?}", complaints(&judgement));
    assert_eq!(best(&judgement).pieces.len(), 2);
    proposal.positions = vec![Position::Pg];
    let judgement = judged(&record, iso(), &demanding(), &proposal);
    assert_eq!(judgement.ruling, Ruling::NeedsNewQualification);
    // One of them alone qualifies neither.
    let mut alone = record.clone();
    alone.pieces.truncate(1);
    proposal.positions = vec![Position::Pa];
    let judgement = judged(&alone, iso(), &demanding(), &proposal);
    assert_eq!(judgement.ruling, Ruling::NeedsNewQualification);
}

fn range_of(min: &str, max: &str) -> arcbounds::qualify::ProposedEnergy {
    arcbounds::qualify::ProposedEnergy::Arc(range(min, max).unwrap())
}

/// An upper limit of energy rests on impact specimens, a lower one on hardness specimens: the tests the wrong
/// way round widen nothing.
#[test]
fn energies_are_combined_from_the_pieces_that_were_tested() {
    let mut record = two_pieces();
    let (high, low) = (record.pieces[0].tests.clone(), record.pieces[1].tests.clone());
    record.pieces[0].tests = low;
    record.pieces[1].tests = high;
    let range = derived(&record, iso(), &demanding());
    let both = &range.boxes[2];
    let all = |rule: &str| {
        both.limits.iter().filter(|limit| limit.rule == rule).map(ends).collect::<Vec<_>>()
    };
    // Impacts from 0.8 kJ/mm: at most 1.0. Hardness from 1.2 kJ/mm: at least 0.9.
    assert_eq!(all("energy-upper").len(), 1);
    assert_ends(both.limit("energy-upper").unwrap(), None, Some(1.0));
    assert_ends(both.limit("energy-lower").unwrap(), Some(0.9), None);
    let mut proposal = repeated(&record);
    proposal.positions = vec![Position::Pa];
    let judgement = judged(&record, iso(), &demanding(), &proposal);
    assert_eq!(judgement.ruling, Ruling::NeedsNewQualification);
}

/// The combination widens positions and energies only; thickness stays what both pieces allow.
#[test]
fn a_combination_keeps_every_other_limit_of_both_pieces() {
    let mut record = two_pieces();
    record.pieces[1].parts = parts(arcbounds::qualify::record::ProductForm::Plate, "8 mm");
    let mut proposal = repeated(&record);
    proposal.positions = vec![Position::Pa];
    for (thickness, expected) in [("16 mm", true), ("16.1 mm", false)] {
        for part in &mut proposal.parts {
            part.thickness = one(thickness);
        }
        let judgement = judged(&record, iso(), &demanding(), &proposal);
        assert_eq!(judgement.ruling == Ruling::Qualified, expected, "{thickness}");
    }
}

/// Two records never make an envelope: thickness of one with the energy of the other is in no box.
#[test]
fn two_records_make_no_envelope() {
    let thin = iso_record();
    let mut thick = iso_record();
    thick.number = "Q-2".to_owned();
    let piece = &mut thick.pieces[0];
    piece.parts = parts(arcbounds::qualify::record::ProductForm::Plate, "40 mm");
    piece.deposits[0].thickness = Some(q("40 mm"));
    piece.runs[0].filler = Some(filler("ISO 14341-A - G 46 4 M21 4Si1", "1.2 mm"));
    let place = |thickness: &str, designation: &str| {
        let mut proposal = repeated(&thin);
        for part in &mut proposal.parts {
            part.thickness = one(thickness);
        }
        proposal.runs[0].filler = Some(filler(designation, "1.2 mm"));
        judged_all(&[&thin, &thick], iso(), &demanding(), &proposal)
    };
    let (own, other) = ("ISO 14341-A - G 42 4 M21 3Si1", "ISO 14341-A - G 46 4 M21 4Si1");
    assert_eq!(place("12 mm", own).ruling, Ruling::Qualified);
    assert_eq!(place("40 mm", other).ruling, Ruling::Qualified);
    let between = place("40 mm", own);
    assert_eq!(between.ruling, Ruling::NeedsNewQualification);
    // The nearest record and what it lacks.
    let lacks: Vec<_> = best(&between).breaches().map(|finding| finding.rule.as_str()).collect();
    assert_eq!(lacks, ["parent-thickness-multi-run"]);
    assert_eq!(best(&between).pieces[0].record, "Q-1");
}

/// 8.4.9: group 8 has no allowance above the recorded interpass temperature.
#[test]
fn interpass_by_group_and_treatment() {
    let mut record = iso_record();
    for part in &mut record.pieces[0].parts {
        part.metal.group = Some("8.1".parse().unwrap());
    }
    assert_ends(&limit(&record, iso(), &demanding(), "interpass-austenitic"), None, Some(180.0));
    let own = first_box(&record, iso(), &demanding());
    assert!(own.limit("interpass").is_none());
    record.pieces[0].heat_treatment.as_mut().unwrap().class = TreatmentClass::SolutionAnneal;
    let own = first_box(&record, iso(), &demanding());
    assert!(own.limit("interpass-austenitic").is_none());
    for (temperature, expected) in [("230 °C", Standing::Inside), ("230.1 °C", Standing::Outside)]
    {
        let record = iso_record();
        let mut proposal = repeated(&record);
        proposal.interpass_max = Some(q(temperature));
        let judgement = judged(&record, iso(), &demanding(), &proposal);
        assert_eq!(standing(&judgement, "interpass"), expected, "{temperature}");
    }
}

/// 8.4.8: 50 °C below, no more.
#[test]
fn preheat_may_fall_by_fifty_degrees() {
    let record = iso_record();
    for (temperature, expected) in [("50 °C", Standing::Inside), ("49.9 °C", Standing::Outside)] {
        let mut proposal = repeated(&record);
        proposal.preheat = Some(q(temperature));
        let judgement = judged(&record, iso(), &demanding(), &proposal);
        assert_eq!(standing(&judgement, "preheat"), expected, "{temperature}");
    }
}

/// 8.4.10: post-heating is neither reduced nor omitted, and may be added.
#[test]
fn post_heating_may_be_added_not_reduced() {
    let heated = |temperature: &str, time: &str| PostHeating::Done {
        temperature: Some(Span::one(q::<arcbounds::quantity::TemperatureKind>(temperature))),
        time: Some(q::<arcbounds::quantity::DurationKind>(time)),
    };
    let ruling = |tested, proposed| {
        let mut record = iso_record();
        record.pieces[0].post_heating = Some(tested);
        let mut proposal = repeated(&record);
        proposal.post_heating = Some(proposed);
        judged(&record, iso(), &demanding(), &proposal).ruling
    };
    let tested = heated("250 °C", "2 h");
    assert_eq!(ruling(tested, heated("250 °C", "2 h")), Ruling::Qualified);
    assert_eq!(ruling(tested, heated("300 °C", "3 h")), Ruling::Qualified);
    assert_eq!(ruling(tested, heated("249 °C", "2 h")), Ruling::NeedsNewQualification);
    assert_eq!(ruling(tested, heated("250 °C", "1.99 h")), Ruling::NeedsNewQualification);
    assert_eq!(ruling(tested, PostHeating::NotDone), Ruling::NeedsNewQualification);
    assert_eq!(ruling(PostHeating::NotDone, tested), Ruling::Qualified);
    let _: (Temperature, Duration) = (q("250 °C"), q("2 h"));
}

/// 8.4.11: the class as tested, the temperature within 20 °C.
#[test]
fn heat_treatment_temperature() {
    let treat = |record: &mut Record, low: &str| {
        let treated = record.pieces[0].heat_treatment.as_mut().unwrap();
        treated.class = TreatmentClass::BelowLower;
        treated.temperature = Some(Span::one(q(low)));
    };
    let mut record = iso_record();
    treat(&mut record, "580 °C");
    for (temperature, expected) in [
        ("559.9 °C", Standing::Outside),
        ("560 °C", Standing::Inside),
        ("600 °C", Standing::Inside),
        ("600.1 °C", Standing::Outside),
    ] {
        let mut other = record.clone();
        treat(&mut other, temperature);
        let judgement = judged(&record, iso(), &demanding(), &repeated(&other));
        assert_eq!(standing(&judgement, "heat-treatment-temperature"), expected, "{temperature}");
    }
    let mut proposal = repeated(&record);
    proposal.heat_treatment = Some(untreated());
    let judgement = judged(&record, iso(), &demanding(), &proposal);
    assert_eq!(standing(&judgement, "heat-treatment-class"), Standing::Outside);
}

/// 8.4.4: maker and trade name count below -20 °C only, and not for solid wire.
#[test]
fn the_maker_counts_below_minus_twenty() {
    use arcbounds::trade::Process;
    let mut record = iso_record();
    record.pieces[0].deposits[0].process = Process::MagFluxCored;
    record.pieces[0].runs[0].process = Process::MagFluxCored;
    record.pieces[0].runs[0].filler = Some(filler("ISO 17632-A - T 46 6 P M21 1 H5", "1.2 mm"));
    let counts = |record: &Record, temperature: &str| {
        let job = JobFacts { impact_temperature: Some(q(temperature)), ..demanding() };
        first_box(record, iso(), &job).limit("filler-maker").is_some()
    };
    assert!(!counts(&record, "-20 °C"));
    assert!(counts(&record, "-20.1 °C"));
    assert!(!counts(&iso_record(), "-60 °C"));
    let job = JobFacts { impact_temperature: Some(q("-40 °C")), ..demanding() };
    let mut proposal = repeated(&record);
    proposal.runs[0].filler.as_mut().unwrap().maker = Some("Other Works".to_owned());
    let judgement = judged(&record, iso(), &job, &proposal);
    assert_eq!(standing(&judgement, "filler-maker"), Standing::Outside);
}

/// 8.5.2.1 and 8.5.3: 20 % of the CO2, 10 % of the helium, 0.1 % of anything else.
#[test]
fn gas_windows() {
    let record = iso_record();
    let with = |text: &str| {
        let mut proposal = repeated(&record);
        proposal.runs[0].gas = gas(text);
        standing(&judged(&record, iso(), &demanding(), &proposal), "shielding-gas-mig-mag")
    };
    for text in ["ArC-18", "ArC-14.4", "ArC-21.6", "ArCO-18/0.1"] {
        assert_eq!(with(text), Standing::Inside, "{text}");
    }
    for text in ["ArC-14.39", "ArC-21.61", "ArCO-18/0.11", "C1-C", "I1-Ar"] {
        assert_eq!(with(text), Standing::Outside, "{text}");
    }
    assert!(matches!(with("M21"), Standing::NotJudged(_)));
    let mut tig = iso_record();
    tig.pieces[0].deposits[0].process = arcbounds::trade::Process::TigSolidFiller;
    tig.pieces[0].runs[0].process = arcbounds::trade::Process::TigSolidFiller;
    tig.pieces[0].runs[0].gases.shielding = gas("ArHe-30");
    let with = |text: &str| {
        let mut proposal = repeated(&tig);
        proposal.runs[0].gas = gas(text);
        standing(&judged(&tig, iso(), &demanding(), &proposal), "shielding-gas-tig")
    };
    for (text, inside) in
        [("ArHe-27", true), ("ArHe-33", true), ("ArHe-26.9", false), ("ArHe-33.1", false)]
    {
        assert_eq!(with(text) == Standing::Inside, inside, "{text}");
    }
}

/// A record known by its gas group only has no window.
#[test]
fn a_recorded_group_has_no_window() {
    let mut record = iso_record();
    record.pieces[0].runs[0].gases.shielding = gas("M21");
    let limit = limit(&record, iso(), &demanding(), "shielding-gas-mig-mag");
    assert!(matches!(limit.allowed, Allowed::Unknown(_)), "{}", limit.working);
}

#[test]
fn a_failed_test_is_a_breach_until_it_is_repeated() {
    let mut record = iso_record();
    let mut failed = passed(TestKind::SideBend);
    failed.outcome = Outcome::Failed;
    record.pieces[0].tests.push(failed);
    let judgement = judged(&record, iso(), &demanding(), &repeated(&record));
    assert_eq!(standing(&judgement, "tests-passed"), Standing::Outside);
    // One more specimen is no repetition of the one that failed.
    record.pieces[0].tests.push(passed(TestKind::SideBend));
    let judgement = judged(&record, iso(), &demanding(), &repeated(&record));
    assert_eq!(standing(&judgement, "tests-passed"), Standing::Outside);
    record.pieces[0].tests.push(Test { retest: true, ..passed(TestKind::SideBend) });
    let judgement = judged(&record, iso(), &demanding(), &repeated(&record));
    assert_eq!(standing(&judgement, "tests-passed"), Standing::Inside);
    record.pieces[0].tests.clear();
    let judgement = judged(&record, iso(), &demanding(), &repeated(&record));
    assert!(matches!(standing(&judgement, "tests-passed"), Standing::NotJudged(_)));
}

/// Impact tests count for the temperature they were made at and warmer, at each place that was tested: a
/// test temperature no warmer than the one required is common to the codes (ASME BPVC VIII-1 UG-84, from memory).
#[test]
fn impact_tests_show_their_own_temperature_and_place() {
    use arcbounds::qualify::record::TestPlace::{HeatAffectedZone, WeldMetal};
    let standing_at = |tests: &[(TestPlace, &str, Outcome)], asked: Option<&str>| {
        let mut record = aws_record();
        record.pieces[0].tests.retain(|test| test.kind != TestKind::Impact);
        for (place, temperature, outcome) in tests {
            record.pieces[0].tests.push(Test {
                place: Some(*place),
                temperature: Some(q(temperature)),
                outcome: *outcome,
                retest: *place == WeldMetal && *outcome == Outcome::Passed,
                ..passed(TestKind::Impact)
            });
        }
        let job = JobFacts { impact_temperature: asked.map(q), ..demanding() };
        standing(&judged(&record, aws(), &job, &repeated(&record)), "impact-tested")
    };
    let (pass, fail) = (Outcome::Passed, Outcome::Failed);
    let both = [(WeldMetal, "-20 °C", pass), (HeatAffectedZone, "-40 °C", pass)];
    assert_eq!(standing_at(&both, Some("-20 °C")), Standing::Inside);
    assert_eq!(standing_at(&both, Some("0 °C")), Standing::Inside);
    let Standing::NotJudged(missing) = standing_at(&both, Some("-40 °C")) else {
        panic!("the weld metal was not tested at -40 °C");
    };
    assert!(missing.fact.contains("weld-metal at -40 °C or colder"), "{missing}");
    let Standing::NotJudged(missing) = standing_at(&both, None) else {
        panic!("the job does not say at which temperature");
    };
    assert_eq!(missing.whose, Whose::Job);
    // A failure of one place is not hidden behind another place that passed afterwards.
    let failed = [(WeldMetal, "-20 °C", fail), (HeatAffectedZone, "-20 °C", pass)];
    assert_eq!(standing_at(&failed, Some("-20 °C")), Standing::Outside);
    assert_eq!(standing_at(&failed, Some("-40 °C")), Standing::Outside);
    // What failed colder than asked does not count against it; what is repeated at its place does not either.
    let colder = [(WeldMetal, "-60 °C", fail), (WeldMetal, "-40 °C", pass)];
    assert_eq!(standing_at(&colder, Some("-40 °C")), Standing::Inside);
    let repeated = [(WeldMetal, "-20 °C", fail), (WeldMetal, "-20 °C", pass)];
    assert_eq!(standing_at(&repeated, Some("-20 °C")), Standing::Inside);
}

/// AWS D1.1: supplementary variables count with impact tests only.
#[test]
fn supplementary_variables_need_impact_tests() {
    use arcbounds::qualify::VariableClass;
    let supplementary = |job| {
        let own = first_box(&aws_record(), aws(), &job);
        own.all_limits().filter(|limit| limit.class == VariableClass::Supplementary).count()
    };
    assert!(supplementary(demanding()) > 5);
    assert_eq!(supplementary(undemanding()), 0);
    let own = first_box(&aws_record(), aws(), &facts(None, None));
    let energy = own.limit("impact-energy").unwrap();
    assert_eq!(energy.only_if[0].fact, "whether impact tests are required");
}
