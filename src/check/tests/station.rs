//! Checks of what a station can give and take.

use crate::check::{
    Finding, Force, Outcome, Shown, Variable,
    fixture::{Change, Scene, measured, quantity, set},
    record::Station,
};

fn at(change: impl FnOnce(&mut Station)) -> Scene {
    Scene::allowed().with(|s| change(s.station.as_mut().unwrap()))
}

fn outcomes(scene: &Scene, check: &str) -> Vec<(Variable, Force, Outcome)> {
    let line = |f: &Finding| (f.variable, f.force, f.outcome);
    scene.of(check).iter().map(line).collect()
}

/// Rating plate 400 A at 60 %, 320 A at 100 %; gun 350 A.
#[test]
fn the_current_is_held_against_source_gun_and_what_both_carry_all_the_time() {
    use {Force::*, Outcome::*};
    let table = [
        ("320 A", [Inside, Inside, Inside]),
        ("321 A", [Inside, Inside, Outside]),
        ("350 A", [Inside, Inside, Outside]),
        ("351 A", [Inside, Outside, Outside]),
        ("400 A", [Inside, Outside, Outside]),
        ("401 A", [Outside, Outside, Outside]),
    ];
    for (current, [source, gun, continuous]) in table {
        let scene = Scene::allowed().with(|s| s.setup.settings.current = Some(set(current)));
        let expected = [
            (Variable::Current, Required, source),
            (Variable::Current, Required, gun),
            (Variable::Current, Advised, continuous),
            (Variable::Voltage, Advised, Inside),
        ];
        assert_eq!(outcomes(&scene, "station-output"), expected, "{current}");
    }
}

/// Plate 400 A at 60 %, 320 A at 100 %. At 80 % constant heating gives 400 * sqrt(60 / 80) = 346.4 A (own
/// arithmetic); at 60 % the plate itself says 400 A, at 30 % no more than that.
#[test]
fn the_share_of_arc_time_takes_the_place_of_all_the_time() {
    for (share, current, outcome) in [
        ("80 %", "346 A", Outcome::Inside),
        ("80 %", "347 A", Outcome::Outside),
        ("100 %", "321 A", Outcome::Outside),
        ("60 %", "400 A", Outcome::Inside),
        ("30 %", "400 A", Outcome::Inside),
        ("30 %", "401 A", Outcome::Outside),
    ] {
        let scene = Scene::allowed().with(|s| {
            s.setup.settings.current = Some(set(current));
            s.setup.job.arc_on_share = Some(quantity(share));
        });
        let found = outcomes(&scene, "station-output");
        let expected = (Variable::Current, Force::Advised, outcome);
        assert_eq!(found[2], expected, "{share} {current}");
        assert_eq!(found.len(), 4, "{share} {current}");
    }
}

#[test]
fn a_share_that_the_plate_does_not_reach_is_no_limit() {
    let scene = at(|station| station.rated.retain(|point| point.duty == quantity("60 %")));
    let scene = scene.with(|s| s.setup.job.arc_on_share = Some(quantity("80 %")));
    let findings = scene.of("station-output");
    assert_eq!((findings[0].outcome, findings[0].force), (Outcome::NoLimit, Force::Advised));
    assert!(findings[0].reason.contains("80 %"), "{}", findings[0].reason);
    assert!(findings[0].remedy.is_some());
}

#[test]
fn a_measured_current_near_the_rating_is_at_the_edge() {
    let scene =
        |value| Scene::allowed().with(|s| s.setup.settings.current = Some(measured(value, "5 A")));
    let first = |scene: &Scene| scene.of("station-output")[0].outcome;
    assert_eq!(first(&scene("394 A")), Outcome::Inside);
    assert_eq!(first(&scene("398 A")), Outcome::EdgeInside);
    assert_eq!(first(&scene("402 A")), Outcome::EdgeOutside);
    assert_eq!(first(&scene("406 A")), Outcome::Outside);
}

#[test]
fn rated_volts_are_advice() {
    let scene = Scene::allowed().with(|s| s.setup.settings.voltage = Some(set("34.1 V")));
    let volts = scene.of("station-output").pop().unwrap();
    assert_eq!((volts.variable, volts.force), (Variable::Voltage, Force::Advised));
    assert_eq!(volts.outcome, Outcome::Outside);
}

#[test]
fn a_current_not_stated_is_not_given_against_every_rating() {
    let scene = Scene::allowed().with(|s| s.setup.settings.current = None);
    let found = outcomes(&scene, "station-output");
    let not_given = found.iter().filter(|(_, _, outcome)| *outcome == Outcome::NotGiven).count();
    assert_eq!(not_given, 3);
}

#[test]
fn what_the_record_does_not_say_is_not_judged_and_said_so() {
    let no_station: Change = |s| {
        (s.station, s.setup.station) = (None, None);
    };
    let bare: Change = |s| {
        let station = s.station.as_mut().unwrap();
        (station.rated, station.diameters) = (Vec::new(), Vec::new());
        (station.gun, station.heaviest_spool) = (None, None);
    };
    for change in [no_station, bare] {
        let scene = Scene::allowed().with(change);
        for check in ["station-output", "station-feeder", "spool"] {
            let found = scene.of(check);
            assert_eq!(found.len(), 1, "{check}");
            assert_eq!(found[0].outcome, Outcome::NotApplicable, "{check}");
            assert!(found[0].reason.len() > 20);
        }
    }
}

#[test]
fn rolls_take_the_sizes_they_are_made_for() {
    let table = [
        (Some("1.2 mm"), Outcome::Inside),
        (Some("0.12 cm"), Outcome::Inside),
        (Some("0.045 in"), Outcome::Outside),
        (Some("1.6 mm"), Outcome::Outside),
        (None, Outcome::NotGiven),
    ];
    for (diameter, outcome) in table {
        let scene = Scene::allowed().with(|s| s.setup.filler.diameter = diameter.map(quantity));
        let findings = scene.of("station-feeder");
        assert_eq!(findings.len(), 1);
        assert_eq!((findings[0].force, findings[0].outcome), (Force::Required, outcome));
    }
}

/// 33 lb is 14.97 kg and 40 lb is 18.14 kg (exact factor 0.45359237, own arithmetic).
#[test]
fn a_spool_is_weighed_against_the_feeder_in_any_unit() {
    let table = [
        ("18 kg", Outcome::Inside),
        ("18000 g", Outcome::Inside),
        ("33 lb", Outcome::Inside),
        ("40 lb", Outcome::Outside),
        ("18.01 kg", Outcome::Outside),
    ];
    for (spool, outcome) in table {
        let scene = Scene::allowed().with(|s| s.setup.filler.spool = Some(quantity(spool)));
        assert_eq!(scene.of("spool")[0].outcome, outcome, "{spool}");
    }
}

#[test]
fn a_spool_not_stated_is_taken_from_the_sizes_on_record() {
    let bought_on = |spools: &[&str]| {
        Scene::allowed().with(|s| {
            s.setup.filler.spool = None;
            s.consumable.as_mut().unwrap().spools =
                spools.iter().map(|spool| quantity(spool)).collect();
        })
    };
    let outcome = |spools: &[&str]| bought_on(spools).of("spool")[0].outcome;
    assert_eq!(outcome(&["15 kg", "5 kg"]), Outcome::Inside);
    assert_eq!(outcome(&["15 kg", "27 kg"]), Outcome::Outside);
    assert_eq!(outcome(&[]), Outcome::NotGiven);
    assert!(matches!(bought_on(&["5 kg", "15 kg"]).of("spool")[0].given, Shown::Range(_)));
}

/// Where the job does not say how long the arc burns, it counts as burning all the time, and the plate has to say what the
/// source carries then.
#[test]
fn a_plate_without_a_full_duty_point_says_nothing_of_an_arc_without_pauses() {
    let scene = at(|station| station.rated.truncate(1));
    let advised = outcomes(&scene, "station-output");
    assert!(!advised.contains(&(Variable::Current, Force::Advised, Outcome::Inside)));
    assert!(
        advised
            .iter()
            .any(|(_, force, outcome)| (*force, *outcome) == (Force::Advised, Outcome::NoLimit))
    );
    assert_eq!(advised.len(), 4);
    let found = scene.of("station-output");
    let told = found.iter().find(|one| one.outcome == Outcome::NoLimit).unwrap();
    assert!(told.reason.contains("does not state its share of arc time"), "{}", told.reason);
}
