//! Preheat and interpass temperature limit each other. "Minimum preheat and interpass temperature" is one limit in AWS
//! D1.1 and EN 1011-2, and no run starts above the maximum interpass temperature (ISO 13916, D1.1; from memory).

use crate::{
    check::{
        Finding, Outcome, OwnerKind, Verdict, carry_over,
        fixture::{Scene, interval, measured, range, set},
        record::RunLimits,
    },
    trade::RunClass,
};

/// A preheat of at least 20 °C, an interpass temperature of at most 250 °C; the customer says nothing.
fn one_end_each() -> Scene {
    Scene::allowed().with(|s| {
        s.limits().preheat = Some(range("20 °C", ""));
        s.limits().interpass = Some(range("", "250 °C"));
        s.work_order.as_mut().unwrap().ranges.edit().interpass = None;
    })
}

fn preheated(preheat: &str) -> Scene {
    one_end_each().with(|s| s.setup.settings.preheat = Some(set(preheat)))
}

fn between_runs(interpass: &str) -> Scene {
    one_end_each().with(|s| s.setup.settings.interpass = Some(set(interpass)))
}

fn refused(scene: &Scene, check: &str) -> Vec<Finding> {
    let mut found = scene.of(check);
    found.retain(|finding| finding.outcome == Outcome::Outside);
    found
}

#[test]
fn a_joint_is_not_preheated_above_the_maximum_interpass_temperature() {
    assert_eq!(preheated("250 °C").verdict(), Verdict::Allowed);
    assert_eq!(preheated("600 °C").verdict(), Verdict::NotAllowed);
    let found = refused(&preheated("251 °C"), "preheat");
    assert_eq!(found.len(), 1);
    assert_eq!(found[0].owner.kind, OwnerKind::Procedure);
    assert!(found[0].remedy.as_ref().unwrap().ends_with("at most 250 °C."), "{found:?}");
    // A run without one before it starts on no hotter metal.
    let single = preheated("251 °C").with(|s| s.setup.job.run_class = Some(RunClass::Single));
    assert_eq!(single.verdict(), Verdict::NotAllowed);
}

#[test]
fn a_joint_is_not_colder_between_runs_than_the_minimum_preheat() {
    assert_eq!(between_runs("20 °C").verdict(), Verdict::Allowed);
    assert_eq!(between_runs("-10 °C").verdict(), Verdict::NotAllowed);
    let found = refused(&between_runs("19 °C"), "interpass");
    assert_eq!(found.len(), 1);
    assert!(found[0].remedy.as_ref().unwrap().ends_with("at least 20 °C."), "{found:?}");
    let whole =
        |low| one_end_each().with(|s| s.setup.settings.interpass = Some(interval(low, "100 °C")));
    assert_eq!(whole("20 °C").verdict(), Verdict::Allowed);
    assert_eq!(whole("15 °C").verdict(), Verdict::NotAllowed);
}

#[test]
fn every_owner_of_a_limit_carries_it_over() {
    let customer = |preheat: (&str, &str), interpass: (&str, &str)| {
        let own = |(min, max): (&str, &str)| (min, max) != ("", "");
        one_end_each().with(|s| {
            let mut ranges = s.work_order.as_mut().unwrap().ranges.edit();
            ranges.preheat = own(preheat).then(|| range(preheat.0, preheat.1));
            ranges.interpass = own(interpass).then(|| range(interpass.0, interpass.1));
        })
    };
    let warm =
        customer(("130 °C", ""), ("", "")).with(|s| s.setup.settings.preheat = Some(set("130 °C")));
    let found = refused(&warm, "interpass");
    assert_eq!(found.len(), 1, "{found:?}");
    assert_eq!(found[0].owner.kind, OwnerKind::WorkOrder);
    let cool =
        customer(("", ""), ("", "120 °C")).with(|s| s.setup.settings.preheat = Some(set("125 °C")));
    let found = refused(&cool, "preheat");
    assert_eq!(found.len(), 1, "{found:?}");
    assert_eq!(found[0].owner.kind, OwnerKind::WorkOrder);
}

#[test]
fn what_is_limited_tighter_anyway_is_not_told_twice() {
    assert_eq!(Scene::allowed().outcomes("preheat").len(), 2);
    assert_eq!(one_end_each().outcomes("preheat").len(), 2);
    let both = one_end_each().with(|s| {
        s.limits().preheat = Some(range("20 °C", "250 °C"));
        s.limits().interpass = Some(range("20 °C", "250 °C"));
    });
    assert_eq!(both.outcomes("preheat"), [Outcome::Inside]);
    assert_eq!(both.outcomes("interpass"), [Outcome::Inside]);
}

#[test]
fn an_instrument_counts_at_a_limit_that_is_carried_over() {
    let read =
        |value| one_end_each().with(|s| s.setup.settings.preheat = Some(measured(value, "5 °C")));
    let outcome = |value| read(value).outcomes("preheat")[1];
    assert_eq!(outcome("244 °C"), Outcome::Inside);
    assert_eq!(outcome("248 °C"), Outcome::EdgeInside);
    assert_eq!(outcome("252 °C"), Outcome::EdgeOutside);
    assert_eq!(outcome("256 °C"), Outcome::Outside);
}

/// Unheated metal breaks no maximum; unmeasured metal between runs proves no minimum.
#[test]
fn a_temperature_that_is_not_stated_is_asked_for_where_a_minimum_holds() {
    let cold = one_end_each().with(|s| {
        s.limits().preheat = None;
        s.setup.settings.preheat = None;
    });
    assert_eq!(cold.outcomes("preheat"), []);
    assert_eq!(cold.verdict(), Verdict::Allowed);
    let unread = one_end_each().with(|s| {
        s.limits().interpass = None;
        s.setup.settings.interpass = None;
    });
    assert_eq!(unread.outcomes("interpass"), [Outcome::NotGiven]);
    assert_eq!(unread.verdict(), Verdict::Undetermined);
}

#[test]
fn a_record_that_asks_for_more_preheat_than_it_lets_runs_meet_allows_nothing() {
    for preheat in ["100 °C", "200 °C", "250 °C", "300 °C", "400 °C"] {
        let scene = one_end_each().with(|s| {
            s.limits().preheat = Some(range("300 °C", ""));
            s.limits().interpass = Some(range("", "200 °C"));
            s.setup.settings.preheat = Some(set(preheat));
            s.setup.settings.interpass = Some(set(preheat));
        });
        assert_eq!(scene.verdict(), Verdict::NotAllowed, "{preheat}");
    }
}

/// A root is limited in preheat alone, a fill run in interpass temperature alone: each keeps to the other's.
#[test]
fn the_runs_of_a_procedure_carry_their_limits_over_to_each_other() {
    let scene = |class| {
        Scene::allowed().with(|s| {
            s.work_order.as_mut().unwrap().ranges.edit().interpass = None;
            let fill = s.procedure.runs[0].clone();
            s.procedure.runs = vec![RunLimits { classes: vec![class], ..fill.clone() }, fill];
            let of = |run: &mut RunLimits, preheat, interpass| {
                let mut ranges = run.ranges.edit();
                (ranges.preheat, ranges.interpass) = (preheat, interpass);
            };
            of(&mut s.procedure.runs[0], Some(range("60 °C", "")), None);
            of(&mut s.procedure.runs[1], None, Some(range("", "150 °C")));
            carry_over(&mut s.procedure.runs);
            s.setup.job.run_class = Some(class);
            s.setup.settings.preheat = Some(set("60 °C"));
        })
    };
    let root =
        |preheat| scene(RunClass::Root).with(|s| s.setup.settings.preheat = Some(set(preheat)));
    assert_eq!(root("150 °C").outcomes("preheat"), [Outcome::Inside, Outcome::Inside]);
    assert_eq!(root("151 °C").outcomes("preheat"), [Outcome::Inside, Outcome::Outside]);
    let fill = |interpass| {
        scene(RunClass::Hot).with(|s| {
            s.procedure.runs.swap(0, 1);
            s.setup.settings.interpass = Some(set(interpass));
        })
    };
    assert_eq!(fill("60 °C").outcomes("interpass"), [Outcome::Inside, Outcome::Inside]);
    assert_eq!(fill("59 °C").outcomes("interpass"), [Outcome::Inside, Outcome::Outside]);
}

/// Root, fill and cap preheat to 65 °C, and the fill alone ends its interpass temperature; or only the root is preheated.
#[test]
fn a_run_keeps_to_the_end_of_the_same_temperature_that_other_runs_set() {
    let scene = |preheat: [&str; 2], own: Option<&str>| {
        Scene::allowed().with(|s| {
            let mut ranges = s.work_order.as_mut().unwrap().ranges.edit();
            (ranges.preheat, ranges.interpass) = (None, None);
            let cap = s.procedure.runs[0].clone();
            s.procedure.runs =
                vec![RunLimits { classes: vec![RunClass::Fill], ..cap.clone() }, cap];
            s.procedure.runs[1].classes = vec![RunClass::Cap];
            for (run, least) in s.procedure.runs.iter_mut().zip(preheat) {
                let mut ranges = run.ranges.edit();
                ranges.preheat = (!least.is_empty()).then(|| range(least, ""));
                ranges.interpass = None;
            }
            s.procedure.runs[0].ranges.edit().interpass = Some(range("", "200 °C"));
            if let Some(own) = own {
                s.procedure.runs[1].ranges.edit().interpass = Some(range("", own));
            }
            carry_over(&mut s.procedure.runs);
            s.procedure.runs.swap(0, 1);
            s.setup.job.run_class = Some(RunClass::Cap);
            s.setup.settings.preheat = Some(set("80 °C"));
            s.setup.settings.interpass = Some(set("80 °C"));
        })
    };
    let between =
        |scene: Scene, interpass| scene.with(|s| s.setup.settings.interpass = Some(set(interpass)));
    let both = || scene(["65 °C", "65 °C"], None);
    assert_eq!(both().verdict(), Verdict::Allowed);
    assert_eq!(between(both(), "200 °C").verdict(), Verdict::Allowed);
    assert_eq!(between(both(), "201 °C").verdict(), Verdict::NotAllowed);
    assert_eq!(refused(&between(both(), "201 °C"), "interpass").len(), 1);
    // Its own maximum goes before that of the others.
    let own = || scene(["65 °C", "65 °C"], Some("250 °C"));
    assert_eq!(between(own(), "240 °C").verdict(), Verdict::Allowed);
    let preheated = |preheat: Option<&str>| {
        scene(["65 °C", ""], None).with(|s| s.setup.settings.preheat = preheat.map(set))
    };
    assert_eq!(preheated(Some("65 °C")).verdict(), Verdict::Allowed);
    assert_eq!(preheated(Some("64 °C")).verdict(), Verdict::NotAllowed);
    assert_eq!(preheated(None).verdict(), Verdict::Undetermined);
}

/// AWS D1.8: at most 550 °F between runs (from memory); creep-resisting steel is welded hotter.
#[test]
fn without_a_maximum_on_record_a_very_hot_joint_is_advised_against() {
    let hot = |preheat, group: &str| {
        one_end_each().with(|s| {
            (s.limits().preheat, s.limits().interpass) = (None, None);
            s.procedure.base_metals = vec![group.parse().unwrap()];
            for part in &mut s.setup.job.base_metals {
                part.group = Some(group.parse().unwrap());
            }
            s.setup.settings.preheat = Some(set(preheat));
        })
    };
    assert_eq!(hot("550 °F", "1.2").verdict(), Verdict::Allowed);
    assert_eq!(hot("551 °F", "1.2").verdict(), Verdict::AllowedWithAdvice);
    assert_eq!(hot("1000 °F", "2.1").verdict(), Verdict::AllowedWithAdvice);
    assert_eq!(hot("350 °C", "6.4").verdict(), Verdict::Allowed);
    let between = hot("60 °C", "1.2").with(|s| s.setup.settings.interpass = Some(set("300 °C")));
    assert_eq!(between.verdict(), Verdict::AllowedWithAdvice);
}

/// What a procedure holds its later runs to: the warmer of its own minimum and its minimum preheat.
#[test]
fn the_lowest_interpass_temperature_of_a_run_is_the_warmer_minimum() {
    let least = |preheat: Option<&str>, interpass: Option<&str>| {
        let mut scene = Scene::allowed();
        let from = |text: Option<&str>| text.map(|text| range(text, ""));
        (scene.limits().preheat, scene.limits().interpass) = (from(preheat), from(interpass));
        scene.procedure.runs[0].ranges.least_interpass().map(|least| least.to_string())
    };
    let told = |text: &str| Some(text.to_owned());
    assert_eq!(least(Some("60 °C"), None), told("60 °C"));
    assert_eq!(least(Some("60 °C"), Some("20 °C")), told("60 °C"));
    assert_eq!(least(Some("20 °C"), Some("50 °C")), told("50 °C"));
    assert_eq!(least(None, Some("50 °C")), told("50 °C"));
    assert_eq!(least(None, None), None);
}
