//! What is asked is a demand: what no setting is shown to keep leaves nothing, with the reason in words.

use super::*;
use crate::{
    check::{Settings, Variable, fixture::Scene},
    quantity::{Range, Span, Temperature},
    trade::{CoolingLimit, MethodB, MethodBConstants, Process, ShapeFactors, SteelFamily},
    window::{ConflictSet, Derived, HandSpread, PreheatPlan, Subject},
};

fn steady() -> Question {
    Question { spread: HandSpread::none().unwrap(), ..Question::plain().unwrap() }
}

fn celsius(text: &str) -> Temperature {
    text.parse().unwrap()
}

/// The only conflict of a window in which nothing is left: neither a place nor a piece without it.
fn nothing_left(scene: &Scene, question: &Question) -> ConflictSet {
    let solved = scene.in_case(|case| solve(case, question));
    assert!(!solved.pieces.is_empty());
    for piece in &solved.pieces {
        assert!(piece.required.is_err() && piece.advised.is_none());
    }
    let plans = scene.in_case(|case| spaces(case, question));
    assert_eq!(plans.len(), solved.pieces.len());
    assert!(
        plans.iter().all(|space| space.open(Force::Required).is_err()),
        "runs are planned in it"
    );
    solved.pieces[0].required.clone().unwrap_err()
}

/// CET 0.34 %, 25 mm, 10 mL/100 g. By EN 1011-2 C.3: 697 · 0.34 + 160 tanh(25/35) + 62 · 10^0.35 - 328 = 145.92 °C
/// without heat, less 32 - 53 · 0.34 = 13.98 °C for each kJ/mm: 131.9 °C at 1 kJ/mm, 138.9 °C at 0.5 and
/// 90.0 °C at 4, the ends of its range (own arithmetic).
fn preheat(celsius: f64) -> Question {
    let joint = MethodB {
        metal: SteelFamily::LowAlloyFerritic,
        cet: "0.34 %".parse().unwrap(),
        thickness: "25 mm".parse().unwrap(),
        hydrogen: "10 mL/100g".parse().unwrap(),
        heat_input: "1 kJ/mm".parse().unwrap(),
        composition: None,
        yield_strength: None,
        ambient: "20 °C".parse().unwrap(),
        constants: MethodBConstants::En1011,
    };
    let preheat = Temperature::computed(celsius).unwrap();
    Question { preheat: Some(PreheatPlan { joint, preheat }), ..steady() }
}

#[test]
fn a_preheat_that_does_nowhere_leaves_nothing_and_names_one_that_does() {
    let scene = Scene::allowed();
    for cold in [20.0, 50.0, 80.0, 89.0] {
        let words = nothing_left(&scene, &preheat(cold)).words;
        let start =
            format!("A preheat of {cold} °C does at no heat input of the CET method's range");
        assert!(words.starts_with(&start), "{words}");
        assert!(words.contains("At 4 kJ/mm, the highest, 90 °C would do"), "{words}");
        // The limits leave 0.6 kJ/mm of heat input at least: 137.5 °C, in steps of 5 °C.
        assert!(words.contains("140 °C would do for every heat input"), "{words}");
    }
    // From 90 °C on some heat input does, though none that the procedure's 1 kJ/mm leaves.
    let limits = nothing_left(&scene, &preheat(90.0));
    let demand = Subject::Derived(Derived::Preheat);
    assert!(limits.members.iter().any(|one| one.limit.subject == demand), "{}", limits.words);
    let warm = scene.in_case(|case| solve(case, &preheat(150.0)));
    assert!(warm.pieces[0].required.is_ok() && warm.notes.is_empty(), "{:?}", warm.notes);
}

/// The more preheat, the more is left; and what is left keeps to the formula.
#[test]
fn more_preheat_never_leaves_less() {
    let scene = Scene::allowed();
    let needed = |settings: &Settings| {
        let volts = settings.voltage.unwrap().span.low().volts();
        let amperes = settings.current.unwrap().span.low().amperes();
        let speed = settings.travel_speed.unwrap().span.high().mm_per_min();
        // 0.8 for a MAG process (EN 1011-1, Table 1).
        145.92 - 13.98 * 0.8 * 0.06 * volts * amperes / speed
    };
    let (mut opened, mut places) = (false, 0);
    for step in 2..=16 {
        let celsius = 10.0 * f64::from(step);
        let solved = scene.in_case(|case| solve(case, &preheat(celsius)));
        let required = &solved.pieces[0].required;
        assert!(required.is_ok() || !opened, "{celsius}");
        opened |= required.is_ok();
        let Ok(left) = required else { continue };
        let narrowed = left.narrowed.iter().flat_map(|one| [&one.lowest, &one.highest]);
        let witnesses = narrowed.flatten().filter_map(|end| end.witness.as_ref());
        let named = [&left.starting_point, &left.coolest].into_iter().flatten();
        for settings in witnesses.chain(named.map(|place| &place.settings)) {
            assert!(needed(settings) <= celsius + 0.01, "{celsius}: {settings:#?}");
            places += 1;
        }
    }
    assert!(opened && places > 20, "{places}");
}

fn cooling(from: &str, to: &str, highest: &str) -> CoolingLimit {
    let share = |text: &str| Span::one(text.parse().unwrap());
    CoolingLimit {
        metal: SteelFamily::LowAlloyFerritic,
        time: Range::new(Some(from.parse().unwrap()), Some(to.parse().unwrap())).unwrap(),
        lowest_temperature: celsius("20 °C"),
        highest_temperature: celsius(highest),
        thickness: "40 mm".parse().unwrap(),
        shape: ShapeFactors { two_dimensional: share("67 %"), three_dimensional: share("67 %") },
    }
}

/// EN 1011-2, Annex D, thick plate: a time goes with (6700 - 5 T0) (1/(500 - T0) - 1/(800 - T0)), 5.29 at 20 °C
/// and 11.59 at 250 °C (own arithmetic): what takes 5 s at 20 °C takes 11 s at 250 °C, so 5 to 6 s are kept by
/// none. Beyond 300 °C the formula is not valid.
#[test]
fn a_cooling_time_that_nothing_keeps_leaves_nothing() {
    let scene = Scene::allowed();
    let of = |limit| nothing_left(&scene, &Question { cooling: Some(limit), ..steady() }).words;
    let none = of(cooling("5 s", "6 s", "250 °C"));
    let start =
        "No heat input keeps a cooling time of 5 s to 6 s for every start from 20 °C to 250 °C";
    assert!(none.starts_with(start), "{none}");
    let invalid = of(cooling("5 s", "6 s", "450 °C"));
    assert!(invalid.contains("450 °C is outside the validity of the formula"), "{invalid}");
    // Both are told.
    let both = Question { cooling: Some(cooling("5 s", "6 s", "250 °C")), ..preheat(20.0) };
    let words = nothing_left(&scene, &both).words;
    assert!(words.contains("preheat more") && words.contains("cooling time"), "{words}");
}

/// While nobody says which output it is, volts times amps may be no power: nothing shows the heat input.
#[test]
fn a_heat_input_that_nobody_knows_keeps_no_demand() {
    let scene = Scene::allowed().with(|s| {
        s.setup.settings.waveform = None;
        s.procedure.waveform = None;
        if let Some(station) = &mut s.station {
            station.waveforms.clear();
        }
    });
    for question in
        [preheat(150.0), Question { cooling: Some(cooling("4 s", "20 s", "20 °C")), ..steady() }]
    {
        let words = nothing_left(&scene, &question).words;
        assert!(words.contains("waveform-controlled"), "{words}");
    }
}

/// The electrode of process 111 is not fed: nothing says what a run of it deposits.
#[test]
fn a_size_of_run_that_nobody_knows_keeps_no_demand() {
    let scene = Scene::allowed().with(|s| {
        s.procedure.process = Process::ManualMetalArc;
        s.setup.process = Some(Process::ManualMetalArc);
    });
    let at_least = |text: &str| Range::at_least(text.parse().unwrap());
    let rate = Question { deposition_rate: Some(at_least("1 kg/h")), ..steady() };
    let words = nothing_left(&scene, &rate).words;
    assert!(
        words.starts_with("The deposition rate asked for, at least 1 kg/h, is not shown"),
        "{words}"
    );
    let area = Range::new(Some("12 mm2".parse().unwrap()), Some("20 mm2".parse().unwrap()));
    let area = Question { run_area: Some(area.unwrap()), ..steady() };
    let words = nothing_left(&scene, &area).words;
    assert!(
        words.starts_with("The cross section of one run asked for, 12 mm2 to 20 mm2, is not"),
        "{words}"
    );
    assert!(scene.in_case(|case| solve(case, &steady())).pieces[0].required.is_ok());
}

/// The leg of the job is advice, in the window as in the check: where nothing says what a run deposits, it closes
/// nothing, and the answer says that it is not in the window.
#[test]
fn a_leg_that_nobody_can_tell_is_said_and_closes_nothing() {
    let said = |scene: Scene, why: &str| {
        let scene = scene.with(|s| s.setup.job.leg = Some("6 mm".parse().unwrap()));
        let solved = scene.in_case(|case| solve(case, &steady()));
        assert!(solved.pieces[0].required.is_ok());
        let said = format!(
            "That one run leaves the leg of 6 mm is not in the window, and advice only: {why}"
        );
        assert!(solved.notes.iter().any(|note| note.starts_with(&said)), "{:?}", solved.notes);
    };
    let of_electrode = Scene::allowed().with(|s| {
        s.procedure.process = Process::ManualMetalArc;
        s.setup.process = Some(Process::ManualMetalArc);
    });
    said(of_electrode, "The process has no wire feed.");
    let of_unknown_wire = Scene::allowed().with(|s| s.setup.filler.diameter = None);
    said(of_unknown_wire, "The diameter");
}

/// Volts and amps of one of two arcs are no power of both.
#[test]
fn with_several_electrodes_no_window_tells_the_energy_of_all() {
    let question = Question::plain().unwrap();
    for stated in [Some(2), None] {
        let scene = Scene::allowed().with(|s| {
            s.procedure.runs[0].electrodes = Some(2);
            s.setup.settings.electrodes = stated;
        });
        let solved = scene.in_case(|case| solve(case, &question));
        let open: Vec<_> = solved.unresolved.iter().map(|one| one.limit.subject).collect();
        for variable in [Variable::ArcEnergy, Variable::HeatInput, Variable::ArcPower] {
            assert!(open.contains(&Subject::Variable(variable)), "{variable} {stated:?}: {open:?}");
        }
        for one in &solved.unresolved {
            assert!(one.reason.contains("several electrodes"), "{}", one.reason);
        }
        let cooling = Question { cooling: Some(cooling("4 s", "20 s", "20 °C")), ..steady() };
        let deposition_rate = Some(Range::at_least("1 kg/h".parse().unwrap()));
        for demand in [preheat(150.0), cooling, Question { deposition_rate, ..steady() }] {
            let words = nothing_left(&scene, &demand).words.to_lowercase();
            assert!(words.contains("several electrodes"), "{words}");
        }
    }
    let one = Scene::allowed().with(|s| {
        s.procedure.runs[0].electrodes = Some(1);
        s.setup.settings.electrodes = Some(1);
    });
    assert!(one.in_case(|case| solve(case, &question)).unresolved.is_empty());
}
