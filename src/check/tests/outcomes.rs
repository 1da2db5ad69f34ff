//! Every outcome of every check of a stated number.

use super::probe::PROBES;
use crate::{
    check::{
        Force, Outcome, Verdict,
        fixture::{Change, Scene},
    },
    trade::{BeadPattern, Process, RunClass},
};

/// The guard band lies on both sides of both ends (JCGM 106); values and ends are own choice.
#[test]
fn each_value_around_the_limits_has_its_outcome() {
    use Outcome::{EdgeInside, EdgeOutside, Inside, Outside};
    let expected = [Outside, EdgeOutside, EdgeInside, Inside, EdgeInside, EdgeOutside, Outside];
    for probe in PROBES {
        for (value, outcome) in probe.values.into_iter().zip(expected) {
            let error = probe.text(probe.error);
            let scene = Scene::allowed().with(|s| (probe.measure)(s, &probe.text(value), &error));
            let finding = probe.only(&scene);
            assert_eq!(finding.outcome, outcome, "{} {value}", probe.check);
            assert_eq!(finding.force, Force::Required);
        }
    }
}

#[test]
fn a_set_value_has_no_edge() {
    for probe in PROBES {
        for (index, value) in probe.values.into_iter().enumerate() {
            let scene = Scene::allowed().with(|s| (probe.set)(s, Some(&probe.text(value))));
            let inside = (2..=4).contains(&index);
            let outcome = if inside { Outcome::Inside } else { Outcome::Outside };
            assert_eq!(probe.only(&scene).outcome, outcome, "{} {value}", probe.check);
        }
    }
}

#[test]
fn both_ends_of_a_limit_are_inside() {
    for probe in PROBES {
        for end in [probe.ends.0, probe.ends.1] {
            let scene = Scene::allowed().with(|s| (probe.set)(s, Some(&probe.text(end))));
            assert_eq!(probe.only(&scene).outcome, Outcome::Inside, "{} {end}", probe.check);
        }
    }
}

#[test]
fn a_value_left_out_is_undetermined_and_named() {
    for probe in PROBES {
        let scene = Scene::allowed().with(|s| {
            (probe.set)(s, None);
            // Volts times amps must not stand in for arc power.
            if probe.check == "arc-power" {
                s.setup.settings.current = None;
            }
        });
        let finding = probe.only(&scene);
        assert_eq!(finding.outcome, Outcome::NotGiven, "{}", probe.check);
        assert_eq!(finding.variable, probe.variable);
        assert_eq!(scene.verdict(), Verdict::Undetermined, "{}", probe.check);
        assert!(finding.remedy.is_some_and(|remedy| remedy.starts_with("State")));
    }
}

#[test]
fn an_unknown_accuracy_is_advice_or_undetermined_but_never_nothing() {
    use crate::check::DecisionRule::{Guarded, Simple};
    for probe in PROBES {
        let middle = probe.text(probe.values[3]);
        for (rule, verdict) in
            [(Simple, Verdict::AllowedWithAdvice), (Guarded, Verdict::Undetermined)]
        {
            let scene = Scene { rule, ..Scene::allowed() };
            let scene = scene.with(|s| (probe.measure)(s, &middle, ""));
            let finding = probe.only(&scene);
            assert!(finding.accuracy_unknown && finding.remedy.is_some(), "{}", probe.check);
            assert_eq!(scene.verdict(), verdict, "{} {rule}", probe.check);
        }
    }
}

#[test]
fn a_limit_left_out_leaves_no_finding_of_its_owner() {
    for probe in PROBES {
        let scene = Scene::allowed().with(|s| (probe.limit)(s, "", ""));
        assert!(probe.of_procedure(&scene).is_empty(), "{}", probe.check);
    }
}

#[test]
fn what_the_process_or_the_run_does_not_have_is_not_applicable() {
    fn first_run(scene: &mut Scene, class: RunClass) {
        (scene.setup.job.run_class, scene.setup.settings.interpass) = (Some(class), None);
    }
    let stick: Change = |s| s.procedure.process = Process::ManualMetalArc;
    let tig: Change = |s| s.procedure.process = Process::TigSolidFiller;
    let submerged: Change = |s| s.procedure.process = Process::SubmergedSolidWire;
    let single: Change = |s| first_run(s, RunClass::Single);
    let root: Change = |s| first_run(s, RunClass::Root);
    let stringer: Change = |s| {
        (s.setup.settings.bead, s.setup.settings.weave_width) = (Some(BeadPattern::Stringer), None);
    };
    let table: &[(&str, Change)] = &[
        ("wire-feed", stick),
        ("wire-feed", tig),
        ("electrical-stick-out", stick),
        ("electrical-stick-out", tig),
        ("gas-flow", stick),
        ("gas-flow", submerged),
        ("station-feeder", stick),
        ("spool", tig),
        ("settings-fit-data", stick),
        ("settings-fit-data", submerged),
        ("interpass", single),
        ("interpass", root),
        ("weave-width", stringer),
    ];
    for (check, change) in table {
        let findings = Scene::allowed().with(change).of(check);
        let outcomes: Vec<_> = findings.iter().map(|finding| finding.outcome).collect();
        assert_eq!(outcomes, [Outcome::NotApplicable], "{check}");
    }
}

/// A stringer that is 20 mm wide is none, and a first run that is welded on hot metal has a run before it: what is
/// stated is held to its limits.
#[test]
fn what_the_run_should_not_have_is_held_to_its_limits_where_it_is_stated() {
    use crate::check::fixture::{range, set};
    let stated = |interpass, weave| {
        Scene::allowed().with(|s| {
            s.setup.job.run_class = Some(RunClass::Single);
            s.setup.settings.bead = Some(BeadPattern::Stringer);
            (s.limits().interpass, s.limits().weave_width) =
                (Some(range("", "250 °C")), Some(range("", "15 mm")));
            (s.setup.settings.interpass, s.setup.settings.weave_width) =
                (Some(set(interpass)), Some(set(weave)));
        })
    };
    assert_eq!(stated("150 °C", "10 mm").outcomes("weave-width"), [Outcome::Inside]);
    assert_eq!(stated("150 °C", "20 mm").outcomes("weave-width"), [Outcome::Outside]);
    assert_eq!(stated("150 °C", "20 mm").verdict(), Verdict::NotAllowed);
    assert_eq!(stated("300 °C", "10 mm").verdict(), Verdict::NotAllowed);
}

#[test]
fn an_interval_on_a_job_card_is_inside_only_as_a_whole() {
    use crate::check::fixture::interval;
    let scene =
        |low, high| Scene::allowed().with(|s| s.setup.settings.current = Some(interval(low, high)));
    let outcome = |scene: Scene| {
        let findings = scene.of("current");
        findings.iter().find(|f| f.force == Force::Required).unwrap().outcome
    };
    assert_eq!(outcome(scene("200 A", "240 A")), Outcome::Inside);
    assert_eq!(outcome(scene("220 A", "241 A")), Outcome::Outside);
    assert_eq!(outcome(scene("199 A", "220 A")), Outcome::Outside);
}

/// Every owner of a limit is heard, each with its own force.
#[test]
fn procedure_data_station_and_work_order_each_have_their_finding() {
    let scene = Scene::allowed();
    let owners = |check: &str| {
        let findings = scene.of(check);
        let name = |f: &crate::check::Finding| (f.owner.to_string(), f.force);
        findings.iter().map(name).collect::<Vec<_>>()
    };
    assert_eq!(
        owners("current"),
        [
            ("procedure WPS-1 revision 1".to_owned(), Force::Required),
            ("data of consumable FCW-1 (data sheet 1, 2024)".to_owned(), Force::Advised),
            ("station S-1".to_owned(), Force::Required),
        ]
    );
    assert_eq!(
        owners("interpass"),
        [
            ("procedure WPS-1 revision 1".to_owned(), Force::Required),
            ("work order J-100".to_owned(), Force::Required),
        ]
    );
}

#[test]
fn printed_data_binds_only_where_the_procedure_calls_it_up() {
    let fast = |called_up| {
        Scene::allowed().with(|s| {
            s.procedure.calls_up_data = called_up;
            s.limits().wire_feed = None;
            s.setup.settings.wire_feed = Some(crate::check::fixture::set("13 m/min"));
        })
    };
    assert_eq!(fast(false).verdict(), Verdict::AllowedWithAdvice);
    assert_eq!(fast(true).verdict(), Verdict::NotAllowed);
}

/// Each group of variables that must be bounded, left unbounded.
#[test]
fn a_variable_without_permission_is_no_limit() {
    let table: &[(Change, &str)] = &[
        (|s| (s.limits().current, s.limits().wire_feed) = (None, None), "current"),
        (|s| s.limits().voltage = None, "voltage"),
        (
            |s| {
                s.limits().travel_speed = None;
                (s.limits().arc_energy, s.limits().heat_input) = (None, None);
            },
            "travel-speed",
        ),
        (|s| s.limits().stick_out = None, "electrical-stick-out"),
        (|s| s.limits().gas_flow = None, "gas-flow"),
    ];
    for (change, variable) in table {
        let scene = Scene::allowed().with(change);
        let findings = scene.of("no-limit");
        assert_eq!(findings.len(), 1, "{variable}");
        assert_eq!(findings[0].outcome, Outcome::NoLimit);
        assert_eq!(findings[0].variable.to_string(), *variable);
        assert_eq!(scene.verdict(), Verdict::Undetermined, "{variable}");
    }
}

#[test]
fn one_of_a_group_bounds_it_and_called_up_data_counts_but_a_station_does_not() {
    let none = |change: Change| Scene::allowed().with(change).of("no-limit").is_empty();
    assert!(none(|_| {}));
    assert!(none(|s| s.limits().current = None));
    assert!(none(|s| s.limits().wire_feed = None));
    assert!(none(|s| s.limits().travel_speed = None));
    assert!(none(|s| {
        s.limits().stick_out = None;
        s.procedure.calls_up_data = true;
    }));
    assert!(!none(|s| {
        s.limits().stick_out = None;
        let span = s.consumable.as_ref().unwrap().data[0].conditions[0].ranges.stick_out;
        s.station.as_mut().unwrap().ranges.edit().stick_out = span;
        s.work_order.as_mut().unwrap().ranges.edit().stick_out = span;
    }));
}

#[test]
fn an_empty_procedure_is_never_allowed() {
    for (process, _) in <Process as crate::trade::Coded>::ALL {
        let scene = Scene::allowed().with(|s| {
            *s.limits() = crate::check::Ranges::default();
            s.procedure.process = *process;
            s.setup.process = Some(*process);
        });
        let found = scene.of("no-limit").len();
        assert!(found >= 3, "{process}: {found}");
        assert!(scene.verdict() >= Verdict::Undetermined, "{process}");
    }
}
