//! The filler that was kept dry or not, and the preheat that its hydrogen asks for.

use time::{Duration, OffsetDateTime, macros::datetime};

use crate::{
    check::{
        BaseMetal, Finding, Force, Outcome, Variable, Verdict,
        fixture::{Scene, quantity, set},
        record::{Batch, Portion},
    },
    quantity::Range,
    trade::{
        BakingRule, CareAction, CareRules, CareStep, Designation, ExposureLimit, FillerKind,
        HydrogenClass,
    },
};

const OPENED: OffsetDateTime = datetime!(2025-06-01 06:00 UTC);

fn after(hours: f64) -> OffsetDateTime {
    OPENED + Duration::seconds_f64(hours * 3600.0)
}

/// Made-up data: H5 for 4 h, H10 for 8 h; one bake.
fn rules() -> CareRules {
    let limit = |longest: &str, hydrogen| ExposureLimit {
        longest: quantity(longest),
        highest_humidity: None,
        hydrogen,
    };
    CareRules {
        source: "data sheet 1, 2024".to_owned(),
        hydrogen: Some(HydrogenClass::H5),
        bake_before_first_use: false,
        baking: Some(BakingRule {
            temperature: Range::at_least(quantity("300 °C")),
            time: Range::at_least(quantity("1 h")),
            times: 1,
        }),
        holding: None,
        holding_restores_after: None,
        exposure: vec![limit("4 h", None), limit("8 h", Some(HydrogenClass::H10))],
    }
}

fn batch() -> Batch {
    let opened = CareStep { at: OPENED, action: CareAction::Opened { humidity: None } };
    Batch {
        code: "B-1".to_owned(),
        consumable: "FCW-1".to_owned(),
        tested_hydrogen: None,
        portions: vec![Portion { code: "P-1".to_owned(), steps: vec![opened] }],
    }
}

/// The complete job with a filler that needs care, opened so many hours ago.
fn exposed(hours: f64) -> Scene {
    Scene::allowed().with(|s| {
        s.consumable.as_mut().unwrap().care = Some(rules());
        s.batch = Some(batch());
        s.setup.filler.batch = Some("B-1".to_owned());
        s.setup.at = Some(after(hours));
    })
}

fn care(scene: &Scene) -> Finding {
    let mut found = scene.of("filler-care");
    assert_eq!(found.len(), 1, "{found:?}");
    found.remove(0)
}

#[test]
fn within_its_time_it_is_inside_and_says_until_when() {
    let finding = care(&exposed(3.0));
    assert_eq!((finding.outcome, finding.force), (Outcome::Inside, Force::Required));
    for word in ["P-1", "3 h", "5 mL/100g", "2025-06-01T14:00:00Z"] {
        assert!(finding.reason.contains(word), "{word}: {}", finding.reason);
    }
    assert_eq!(exposed(3.0).verdict(), Verdict::Allowed);
}

#[test]
fn past_its_time_it_is_refused_and_baked_or_scrapped() {
    let bake = care(&exposed(8.1));
    assert_eq!(bake.outcome, Outcome::Outside);
    assert!(bake.reason.contains("8.1 h"), "{}", bake.reason);
    assert!(bake.remedy.unwrap().starts_with("Bake"));
    assert!(bake.consequence.is_some());
    assert_eq!(exposed(8.1).verdict(), Verdict::NotAllowed);
    let scrap = care(&exposed(20.0).with(|s| {
        let (until, temperature) = (after(10.0), quantity("320 °C"));
        let bake = CareAction::Baked { until, temperature };
        let portion = &mut s.batch.as_mut().unwrap().portions[0];
        portion.steps.push(CareStep { at: after(9.0), action: bake });
    }));
    assert_eq!(scrap.outcome, Outcome::Outside);
    assert!(scrap.remedy.unwrap().starts_with("Scrap"));
}

/// A procedure of H5 takes the first 4 h, one of H10 all 8.
#[test]
fn the_class_that_is_left_is_held_to_the_procedures() {
    let outcome =
        |class, hours| care(&exposed(hours).with(|s| s.procedure.hydrogen = Some(class))).outcome;
    assert_eq!(outcome(HydrogenClass::H5, 4.0), Outcome::Inside);
    assert_eq!(outcome(HydrogenClass::H5, 4.1), Outcome::Outside);
    assert_eq!(outcome(HydrogenClass::H10, 8.0), Outcome::Inside);
    assert_eq!(outcome(HydrogenClass::H4, 1.0), Outcome::Outside);
    // The batch was tested worse than its class.
    let tested = exposed(1.0).with(|s| {
        s.procedure.hydrogen = Some(HydrogenClass::H5);
        s.batch.as_mut().unwrap().tested_hydrogen = Some(quantity("6 mL/100g"));
    });
    assert_eq!(care(&tested).outcome, Outcome::Outside);
}

/// What is not known is never allowed.
#[test]
fn every_gap_is_not_given() {
    type Change = fn(&mut Scene);
    let gaps: &[(Change, &str)] = &[
        (|s| s.setup.filler.batch = None, "names no batch"),
        (|s| s.batch = None, "has no batch B-1"),
        (|s| s.setup.filler.consumable = None, "is named, and not what"),
        (|s| s.setup.at = None, "for a day"),
        (|s| s.setup.at = Some(after(-1.0)), "Nobody noted"),
        (|s| s.batch.as_mut().unwrap().portions.clear(), "Nobody noted"),
        (|s| s.setup.filler.portion = Some("P-9".to_owned()), "Nothing is noted"),
        (
            |s| {
                let second = Portion { code: "P-2".to_owned(), ..batch().portions.remove(0) };
                s.batch.as_mut().unwrap().portions.push(second);
            },
            "Several portions",
        ),
        (
            |s| {
                let care = s.consumable.as_mut().unwrap().care.as_mut().unwrap();
                care.exposure.truncate(1);
                care.exposure[0].highest_humidity = Some(quantity("60 %"));
            },
            "humidity",
        ),
    ];
    for (change, word) in gaps {
        let scene = exposed(2.0).with(change);
        let finding = care(&scene);
        assert_eq!(
            (finding.outcome, finding.force),
            (Outcome::NotGiven, Force::Required),
            "{word}"
        );
        assert!(finding.reason.contains(word) && finding.remedy.is_some(), "{}", finding.reason);
        assert_eq!(scene.verdict(), Verdict::Undetermined, "{word}");
    }
    let other = exposed(2.0).with(|s| s.batch.as_mut().unwrap().consumable = "FCW-2".to_owned());
    assert_eq!(care(&other).outcome, Outcome::Outside);
    let named = exposed(2.0).with(|s| s.setup.filler.portion = Some("P-1".to_owned()));
    assert_eq!(care(&named).outcome, Outcome::Inside);
}

#[test]
fn who_asks_decides_whether_a_batch_is_needed() {
    let nobody = care(&Scene::allowed());
    assert_eq!(nobody.outcome, Outcome::NotApplicable);
    let procedure =
        care(&Scene::allowed().with(|s| s.procedure.hydrogen = Some(HydrogenClass::H8)));
    assert_eq!((procedure.outcome, procedure.force), (Outcome::NotGiven, Force::Required));
    assert!(procedure.owner.to_string().contains("procedure"));
    // The trade knows such an electrode, though nothing on record asks.
    let electrode = care(&Scene::allowed().with(|s| {
        let filler = s.consumable.as_mut().unwrap();
        filler.kind = FillerKind::CoveredElectrode;
        filler.designations = vec![Designation::parse("AWS A5.1: E7018 H4").unwrap()];
    }));
    assert_eq!((electrode.outcome, electrode.force), (Outcome::NotGiven, Force::Advised));
    // A batch without care rules judges nothing: advice, or open where the procedure asks.
    let no_rules = |class| {
        let scene = exposed(1.0).with(|s| {
            s.consumable.as_mut().unwrap().care = None;
            s.procedure.hydrogen = class;
        });
        care(&scene).force
    };
    assert_eq!(no_rules(None), Force::Advised);
    assert_eq!(no_rules(Some(HydrogenClass::H5)), Force::Required);
}

/// AWS D1.1/D1.1M:2020, Table 7.1, column A: 4 h for E7018 (from memory). It advises beside the data.
#[test]
fn the_structural_codes_own_table_advises() {
    let found = |hours: f64| {
        let scene = exposed(hours).with(|s| {
            let filler = s.consumable.as_mut().unwrap();
            filler.designations = vec![Designation::parse("AWS A5.1: E7018").unwrap()];
            s.setup.job.code.as_mut().unwrap().name = "AWS D1.1".to_owned();
        });
        scene.of("filler-care")
    };
    let (within, past) = (found(4.0), found(4.1));
    assert_eq!((within[1].outcome, within[1].force), (Outcome::Inside, Force::Advised));
    assert_eq!((past[1].outcome, past[1].force), (Outcome::Outside, Force::Advised));
    assert!(past[1].owner.to_string().contains("from memory"));
    assert_eq!(past[0].outcome, Outcome::Inside, "the data allows 8 h");
}

/// 25 V, 200 A and 240 mm/min are 1.25 kJ/mm, times 0.8 a heat input of 1 kJ/mm (own arithmetic).
fn preheated(hours: f64, preheat: &str, metal: BaseMetal) -> Vec<Finding> {
    let mut found = heated(hours, (preheat, "120 °C"), metal).of("preheat-hydrogen");
    found.retain(|finding| finding.variable == Variable::Preheat);
    found
}

fn heated(hours: f64, (preheat, interpass): (&str, &str), metal: BaseMetal) -> Scene {
    exposed(hours).with(|s| {
        let settings = &mut s.setup.settings;
        settings.voltage = Some(set("25 V"));
        settings.current = Some(set("200 A"));
        settings.travel_speed = Some(set("240 mm/min"));
        settings.preheat = Some(set(preheat));
        settings.interpass = Some(set(interpass));
        s.setup.job.base_metals = vec![metal; 2];
    })
}

fn metal(thickness: &str) -> BaseMetal {
    BaseMetal {
        group: Some("1.2".parse().unwrap()),
        thickness: Some(quantity(thickness)),
        ..BaseMetal::UNKNOWN
    }
}

/// EN 1011-2:2001, equation C.8: CET 0.33 %, 20 mm, 1 kJ/mm ask for 79.03 °C with 5 mL/100 g and for
/// 108.9 °C with 10 (own arithmetic), rounded up to 80 and 110 °C.
#[test]
fn the_preheat_rises_with_the_hydrogen() {
    let steel = BaseMetal { cet: Some(quantity("0.33 %")), ..metal("20 mm") };
    let outcome = |hours, preheat: &str| {
        let found = preheated(hours, preheat, steel);
        assert_eq!((found.len(), found[0].force), (1, Force::Advised));
        (found[0].outcome, found[0].allowed.to_string())
    };
    assert_eq!(outcome(4.0, "80 °C"), (Outcome::Inside, "at least 80 °C".to_owned()));
    assert_eq!(outcome(4.0, "79 °C").0, Outcome::Outside);
    assert_eq!(outcome(4.1, "80 °C"), (Outcome::Outside, "at least 110 °C".to_owned()));
    assert_eq!(outcome(4.1, "110 °C").0, Outcome::Inside);
    // In the unit of the preheat: 80 °C are 176 °F.
    assert_eq!(outcome(4.0, "176 °F"), (Outcome::Inside, "at least 176 °F".to_owned()));
    assert_eq!(outcome(4.0, "175 °F").0, Outcome::Outside);
    // Past all limits nobody knows how much it is.
    assert_eq!(outcome(8.1, "110 °C").0, Outcome::NotGiven);
}

/// The same 110 °C by EN 1011-2, and the 65 °C of category A, hold between runs too.
#[test]
fn the_joint_stays_as_warm_between_runs() {
    let between = |hours, interpass, metal| {
        let scene = heated(hours, ("110 °C", interpass), metal);
        let mut found = scene.of("preheat-hydrogen");
        found.retain(|finding| finding.variable == Variable::Interpass);
        found.iter().map(|finding| (finding.outcome, finding.force)).collect::<Vec<_>>()
    };
    let steel = BaseMetal { cet: Some(quantity("0.33 %")), ..metal("20 mm") };
    assert_eq!(between(4.1, "110 °C", steel), [(Outcome::Inside, Force::Advised)]);
    assert_eq!(between(4.1, "109 °C", steel), [(Outcome::Outside, Force::Advised)]);
    let of_category = BaseMetal {
        preheat_category: Some(crate::trade::PreheatCategory::B),
        in_category_a: Some(true),
        ..metal("25 mm")
    };
    assert_eq!(between(8.1, "65 °C", of_category), [(Outcome::Inside, Force::Advised)]);
    assert_eq!(between(8.1, "64 °C", of_category), [(Outcome::Outside, Force::Advised)]);
}

/// AWS D1.1:2015, Table 3.3: 25 mm in category B 10 °C, in A 65 °C.
#[test]
fn a_filler_that_lost_its_class_falls_to_category_a() {
    let steel = BaseMetal {
        preheat_category: Some(crate::trade::PreheatCategory::B),
        in_category_a: Some(true),
        ..metal("25 mm")
    };
    let allowed = |hours, steel| {
        let found = preheated(hours, "50 °C", steel);
        (found[0].outcome, found[0].allowed.to_string())
    };
    assert_eq!(allowed(1.0, steel), (Outcome::Inside, "at least 10 °C".to_owned()));
    assert_eq!(allowed(8.1, steel), (Outcome::Outside, "at least 65 °C".to_owned()));
    let not_in_a = BaseMetal { in_category_a: None, ..steel };
    assert_eq!(allowed(8.1, not_in_a).0, Outcome::NotGiven);
    // Category D is for H8 or drier.
    let d = BaseMetal { preheat_category: Some(crate::trade::PreheatCategory::D), ..steel };
    assert_eq!(allowed(1.0, d).0, Outcome::Inside);
    assert_eq!(allowed(5.0, d).0, Outcome::NotGiven);
}

/// The steel of the part that nobody states may ask for more.
#[test]
fn one_part_alone_says_no_preheat_for_the_joint() {
    let steel = BaseMetal {
        cet: Some(quantity("0.33 %")),
        preheat_category: Some(crate::trade::PreheatCategory::B),
        ..metal("20 mm")
    };
    let scene = exposed(1.0).with(|s| s.setup.job.base_metals = vec![steel]);
    let found = scene.of("preheat-hydrogen");
    assert_eq!(found.iter().map(|one| one.outcome).collect::<Vec<_>>(), [Outcome::NotGiven; 2]);
    assert!(found.iter().all(|one| one.reason.contains("states one of them")), "{found:?}");
}

#[test]
fn without_carbon_or_category_nothing_is_said_of_preheat_and_hydrogen() {
    let found = preheated(1.0, "50 °C", metal("20 mm"));
    assert_eq!(found.iter().map(|one| one.outcome).collect::<Vec<_>>(), [Outcome::NotApplicable]);
    let half = BaseMetal { cet: Some(quantity("0.33 %")), thickness: None, ..metal("20 mm") };
    assert_eq!(preheated(1.0, "50 °C", half)[0].outcome, Outcome::NotGiven);
}

/// Time in the air never makes a verdict better.
#[test]
fn waiting_never_gives_a_better_verdict() {
    for class in [None, Some(HydrogenClass::H5), Some(HydrogenClass::H10)] {
        let verdicts: Vec<_> = (0_u8..40)
            .map(|step| {
                let scene = exposed(f64::from(step) * 0.25);
                scene.with(|s| s.procedure.hydrogen = class).verdict()
            })
            .collect();
        assert!(verdicts.is_sorted(), "{verdicts:?}");
        assert_eq!(verdicts.last(), Some(&Verdict::NotAllowed));
    }
}
