//! Boxes of the complete job, worked by hand, and held against the checks.

use super::*;
use crate::{
    check::{
        Finding, Force, Given, Outcome, Owner, Role, Settings, Variable,
        fixture::{Change, Scene, quantity, range},
    },
    quantity::{Amount, Kind, Quantity, Span},
    trade::{BeadPattern, Process, RunClass},
};

fn window_of(scene: &Scene, variable: Variable) -> Window {
    let all = scene.in_case(boxes);
    all.into_iter().find(|window| window.variable == variable).unwrap()
}

/// Ends and owners in words.
fn written(region: &Region) -> (String, Vec<String>, Vec<String>) {
    let names = |owners: &[Owner]| owners.iter().map(ToString::to_string).collect();
    match region {
        Region::NoLimit => ("no limit".to_owned(), Vec::new(), Vec::new()),
        Region::Range(left) => {
            (left.range.to_string(), names(&left.min_owners), names(&left.max_owners))
        }
        Region::Conflict(c) => {
            (format!("{} above {}", c.min, c.max), names(&c.min_owners), names(&c.max_owners))
        }
    }
}

fn expect(region: &Region, range: &str, min_owners: &[&str], max_owners: &[&str]) {
    let (of, min, max) = written(region);
    assert_eq!(of, range);
    assert_eq!(min, min_owners, "{range}");
    assert_eq!(max, max_owners, "{range}");
}

const WPS: &str = "procedure WPS-1 revision 1";
const DATA: &str = "data of consumable FCW-1 (data sheet 1, 2024)";
const STATION: &str = "station S-1";
const ORDER: &str = "work order J-100";

/// Procedure 20 to 200 °C, work order at most 180 °C.
#[test]
fn the_tighter_owner_binds_each_end() {
    let window = window_of(&Scene::allowed(), Variable::Interpass);
    expect(&window.required, "20 °C to 180 °C", &[WPS], &[ORDER]);
    expect(&window.advised, "no limit", &[], &[]);
    assert!(window.permitted);
}

/// Procedure 200 to 240 A, data 150 to 300 A (advice), station 40 to 400 A.
#[test]
fn advice_stands_inside_the_permission() {
    let scene = Scene::allowed();
    let window = window_of(&scene, Variable::Current);
    expect(&window.required, "200 A to 240 A", &[WPS], &[WPS]);
    expect(&window.advised, "200 A to 240 A", &[WPS], &[WPS]);
    let narrow = scene.with(|s| data(s).current = Some(range("210 A", "300 A")));
    let window = window_of(&narrow, Variable::Current);
    expect(&window.required, "200 A to 240 A", &[WPS], &[WPS]);
    expect(&window.advised, "210 A to 240 A", &[DATA], &[WPS]);
}

/// The work order's interpass maximum of 180 °C ends the preheat, its preheat minimum of 60 °C begins the interpass
/// temperature.
#[test]
fn a_temperature_is_not_offered_beyond_what_the_other_one_leaves() {
    let scene = Scene::allowed().with(|s| {
        s.limits().preheat = Some(range("20 °C", ""));
        s.work_order.as_mut().unwrap().ranges.edit().preheat = Some(range("60 °C", ""));
    });
    let preheat = window_of(&scene, Variable::Preheat);
    expect(&preheat.required, "60 °C to 180 °C", &[ORDER], &[ORDER]);
    let interpass = window_of(&scene, Variable::Interpass);
    expect(&interpass.required, "60 °C to 180 °C", &[ORDER], &[ORDER]);
}

fn data(scene: &mut Scene) -> crate::check::Edit<'_> {
    scene.consumable.as_mut().unwrap().data[0].conditions[0].ranges.edit()
}

#[test]
fn data_that_the_procedure_calls_up_is_permission() {
    let scene = Scene::allowed().with(|s| {
        s.procedure.calls_up_data = true;
        data(s).current = Some(range("210 A", "230 A"));
        s.limits().stick_out = None;
    });
    expect(&window_of(&scene, Variable::Current).required, "210 A to 230 A", &[DATA], &[DATA]);
    let stick_out = window_of(&scene, Variable::StickOut);
    expect(&stick_out.required, "15 mm to 25 mm", &[DATA], &[DATA]);
    assert!(stick_out.permitted);
}

/// 254 mm/min is 10 in/min exactly.
#[test]
fn owners_of_one_end_are_all_named_whatever_unit_they_wrote() {
    let scene = Scene::allowed().with(|s| {
        s.limits().travel_speed = Some(range("254 mm/min", "400 mm/min"));
        s.work_order.as_mut().unwrap().ranges.edit().travel_speed = Some(range("10 in/min", ""));
    });
    let window = window_of(&scene, Variable::TravelSpeed);
    expect(&window.required, "254 mm/min to 400 mm/min", &[WPS, ORDER], &[WPS]);
}

#[test]
fn ratings_of_source_and_gun_bind_the_current() {
    let wide = |s: &mut Scene| s.limits().current = Some(range("200 A", "500 A"));
    let scene = Scene::allowed().with(wide);
    let window = window_of(&scene, Variable::Current);
    // Gun 350 A, source 400 A; as advice 320 A at full duty and 300 A by the data.
    expect(&window.required, "200 A to 350 A", &[WPS], &[STATION]);
    expect(&window.advised, "200 A to 300 A", &[WPS], &[DATA]);
    let no_data = scene.with(|s| data(s).current = None);
    expect(&window_of(&no_data, Variable::Current).advised, "200 A to 320 A", &[WPS], &[STATION]);
}

#[test]
fn contradicting_owners_are_named_with_both_ends() {
    let scene = Scene::allowed().with(|s| {
        s.work_order.as_mut().unwrap().ranges.edit().travel_speed = Some(range("", "250 mm/min"));
    });
    let window = window_of(&scene, Variable::TravelSpeed);
    expect(&window.required, "300 mm/min above 250 mm/min", &[WPS], &[ORDER]);
    assert!(window.required.conflict().is_some() && window.required.range().is_none());
    assert_eq!(window.advised, Region::NoLimit);
}

#[test]
fn advice_that_no_permitted_value_meets_is_a_conflict_of_the_advice_only() {
    let scene = Scene::allowed().with(|s| data(s).current = Some(range("250 A", "300 A")));
    let window = window_of(&scene, Variable::Current);
    expect(&window.required, "200 A to 240 A", &[WPS], &[WPS]);
    expect(&window.advised, "250 A above 240 A", &[DATA], &[WPS]);
}

#[test]
fn ends_that_meet_leave_one_value() {
    let scene = Scene::allowed().with(|s| {
        s.work_order.as_mut().unwrap().ranges.edit().travel_speed = Some(range("400 mm/min", ""));
    });
    let window = window_of(&scene, Variable::TravelSpeed);
    expect(&window.required, "400 mm/min", &[ORDER], &[WPS]);
}

#[test]
fn a_variable_nobody_permits_says_so() {
    let scene = Scene::allowed().with(|s| {
        s.limits().travel_speed = None;
        s.limits().current = None;
    });
    let speed = window_of(&scene, Variable::TravelSpeed);
    assert_eq!(speed.required, Region::NoLimit);
    assert!(!speed.permitted);
    // The station still binds the current, but that is no permission.
    let current = window_of(&scene, Variable::Current);
    expect(&current.required, "40 A to 350 A", &[STATION], &[STATION]);
    assert!(!current.permitted);
}

/// Drag 5 to 10 degrees (common practice, no source) and 10 to 25 (GMAW/FCAW Handbook,
/// Goodheart-Willcox 2018, p. 76), inside the procedure's 5 to 15.
#[test]
fn practices_are_alternatives_inside_the_permission() {
    let window = window_of(&Scene::allowed(), Variable::TravelAngle);
    let practice: Vec<_> = window.practice.iter().map(|region| written(region).0).collect();
    assert_eq!(practice, ["5 deg to 10 deg", "10 deg to 15 deg"]);
    expect(
        &window.practice[1],
        "10 deg to 15 deg",
        &["GMAW/FCAW Handbook, Goodheart-Willcox 2018, p. 76"],
        &[WPS],
    );
}

#[test]
fn every_variable_of_the_process_has_its_role_and_no_other_has_a_window() {
    let variables = |change: Change| {
        let scene = Scene::allowed().with(change);
        let windows = scene.in_case(boxes);
        windows.into_iter().map(|w| (w.variable, w.role)).collect::<Vec<_>>()
    };
    let wire = variables(|_| {});
    assert_eq!(wire.len(), 14);
    assert!(wire.contains(&(Variable::WireFeed, Role::Settable)));
    assert!(wire.contains(&(Variable::Current, Role::Resulting)));
    assert!(wire.contains(&(Variable::TravelSpeed, Role::HandHeld)));
    let stick = variables(|s| s.procedure.process = Process::ManualMetalArc);
    assert_eq!(stick.len(), 11);
    assert!(stick.contains(&(Variable::Current, Role::Settable)));
    let stringer = variables(|s| {
        (s.setup.settings.bead, s.setup.settings.weave_width) = (Some(BeadPattern::Stringer), None);
    });
    assert!(!stringer.iter().any(|(variable, _)| *variable == Variable::WeaveWidth));
    let single = variables(|s| {
        (s.setup.job.run_class, s.setup.settings.interpass) = (Some(RunClass::Single), None);
    });
    assert!(!single.iter().any(|(variable, _)| *variable == Variable::Interpass));
}

#[test]
fn a_stated_value_narrows_no_other_variable() {
    let stated = Scene::allowed();
    let silent = stated.clone().with(|s| {
        s.setup.settings = Settings { bead: s.setup.settings.bead, ..Settings::default() };
    });
    assert_eq!(stated.in_case(boxes), silent.in_case(boxes));
}

/// States a value of one variable.
type State = fn(&mut Settings, f64);

fn at<K: Kind>(canonical: f64) -> Given<K> {
    Given::set(Span::one(Quantity::computed(canonical).unwrap()))
}

const STATED: &[(Variable, State)] = &[
    (Variable::WireFeed, |s, value| s.wire_feed = Some(at(value))),
    (Variable::Voltage, |s, value| s.voltage = Some(at(value))),
    (Variable::Current, |s, value| s.current = Some(at(value))),
    (Variable::TravelSpeed, |s, value| s.travel_speed = Some(at(value))),
    (Variable::StickOut, |s, value| s.stick_out = Some(at(value))),
    (Variable::TravelAngle, |s, value| s.travel_angle = Some(at(value))),
    (Variable::WorkAngle, |s, value| s.work_angle = Some(at(value))),
    (Variable::WeaveWidth, |s, value| s.weave_width = Some(at(value))),
    (Variable::GasFlow, |s, value| s.gas_flow = Some(at(value))),
    (Variable::Preheat, |s, value| s.preheat = Some(at(value))),
    (Variable::Interpass, |s, value| s.interpass = Some(at(value))),
    (Variable::ArcPower, |s, value| s.arc_power = Some(at(value))),
];

/// Scenes whose ends are bound by different owners.
const SCENES: &[Change] = &[
    |_| {},
    |s| s.limits().current = Some(range("100 A", "500 A")),
    |s| {
        s.procedure.calls_up_data = true;
        let printed = *data(s);
        *data(s) = crate::check::Ranges {
            voltage: Some(range("26 V", "26.5 V")),
            wire_feed: Some(range("300 in/min", "350 in/min")),
            ..printed
        };
    },
    |s| {
        let mut ranges = s.work_order.as_mut().unwrap().ranges.edit();
        ranges.travel_speed = Some(range("13 in/min", ""));
        ranges.preheat = Some(range("140 °F", ""));
        ranges.gas_flow = Some(range("35 ft3/h", ""));
    },
    |s| {
        s.limits().preheat = Some(range("50 °C", ""));
        s.limits().interpass = Some(range("", "170 °C"));
    },
    |s| s.station.as_mut().unwrap().gun.as_mut().unwrap().current = quantity("230 A"),
];

/// Required findings on the variable with the variable at a value.
fn required(scene: &Scene, variable: Variable, state: State, value: f64) -> Vec<Finding> {
    let scene = scene.clone().with(|s| state(&mut s.setup.settings, value));
    let mut findings = scene.findings();
    // What does not concern the setup sets no limit.
    findings.retain(|f| {
        let concerns = f.outcome != Outcome::NotApplicable;
        f.variable == variable && f.force == Force::Required && concerns
    });
    findings
}

/// Every end is inside every required limit; a millionth beyond it exactly its owners refuse.
#[test]
fn the_ends_of_a_window_are_where_the_checks_turn() {
    let mut ends = 0;
    for change in SCENES {
        let scene = Scene::allowed().with(change);
        for (variable, state) in STATED {
            let window = window_of(&scene, *variable);
            let left = window.required.range().unwrap();
            let sides =
                [(left.range.min, &left.min_owners, -1.0), (left.range.max, &left.max_owners, 1.0)];
            for (end, owners, side) in sides {
                let Some(end) = end else { continue };
                ends += 1;
                turns_at(&scene, *variable, *state, (end, side), owners);
            }
        }
    }
    assert_eq!(ends, SCENES.len() * STATED.len() * 2);
}

fn turns_at(
    scene: &Scene,
    variable: Variable,
    state: State,
    (end, side): (Amount, f64),
    owners: &[Owner],
) {
    let canonical = end.canonical();
    let on_end = required(scene, variable, state, canonical);
    assert!(!on_end.is_empty());
    for finding in on_end {
        assert_eq!(finding.outcome, Outcome::Inside, "{variable} at {end}: {}", finding.reason);
    }
    let step = 1e-6 * canonical.abs().max(end.kind().tolerance_floor);
    let beyond = required(scene, variable, state, canonical + side * step);
    let mut refusing: Vec<_> = beyond
        .into_iter()
        .filter(|finding| finding.outcome == Outcome::Outside)
        .map(|finding| finding.owner)
        .collect();
    refusing.dedup();
    assert_eq!(refusing, owners, "{variable} beyond {end}");
}
