use super::*;
use crate::{
    check::{
        Setup, Verdict,
        fixture::{Scene, interval, range, set},
    },
    quantity::{
        CurrentKind, ElectricalStickOutKind, GasFlowKind, TemperatureKind, TravelAngleKind,
        TravelSpeedKind, VoltageKind, WeaveWidthKind, WireFeedKind,
    },
    trade::{Coded, Process, Remedy, SettingVariable, Step, Symptom, symptom_advice},
};

/// What is left of a change in a scene.
fn cut(scene: &Scene, change: &SettingChange) -> CutChange {
    let book = scene.book();
    let (_, governing) = Governing::of(&book, &scene.setup, scene.day);
    cut_change(&governing.unwrap(), change)
}

fn volts(direction: Direction) -> SettingChange {
    SettingChange::Voltage(Change { direction, step: Step::By("1 V".parse().unwrap()) })
}

fn slower() -> SettingChange {
    let step = Step::Share("10 %".parse().unwrap());
    SettingChange::TravelSpeed(Change { direction: Direction::Lower, step })
}

fn more_feed() -> SettingChange {
    let step = Step::Share("5 %".parse().unwrap());
    SettingChange::WireFeed(Change { direction: Direction::Raise, step })
}

fn ends<K: Kind>(range: &AmountRange) -> [f64; 2] {
    [range.min, range.max].map(|end| end.unwrap().of_kind::<K>().unwrap().canonical())
}

/// Both ends of the interval after a change.
fn to<K: Kind>(cut: &CutChange) -> [f64; 2] {
    ends::<K>(cut.room.to().unwrap_or_else(|| panic!("{cut:?}")))
}

fn same(found: [f64; 2], expected: [f64; 2]) {
    let apart = |end: usize| (found[end] - expected[end]).abs();
    assert!(apart(0) < 1e-9 && apart(1) < 1e-9, "{found:?} for {expected:?}");
}

fn owner_of(cut: &CutChange) -> String {
    match &cut.room {
        Room::Part { owners, .. } | Room::Nothing { owners, .. } => owners[0].to_string(),
        other => panic!("{other:?}"),
    }
}

/// The procedure of the scene allows 25 to 27 V.
#[test]
fn a_step_is_cut_to_the_procedure_and_its_owner_named() {
    let at = |volts: &str| Scene::allowed().with(|s| s.setup.settings.voltage = Some(set(volts)));
    let lower = volts(Direction::Lower);
    let whole = cut(&at("26.5 V"), &lower);
    assert!(matches!(whole.room, Room::Whole(_)), "{whole:?}");
    same(to::<VoltageKind>(&whole), [25.5, 25.5]);
    let part = cut(&at("25.4 V"), &lower);
    assert!(matches!(part.room, Room::Part { .. }), "{part:?}");
    same(to::<VoltageKind>(&part), [25.0, 25.0]);
    assert_eq!(owner_of(&part), "procedure WPS-1 revision 1");
    let none = cut(&at("25 V"), &lower);
    assert!(matches!(none.room, Room::Nothing { .. }), "{none:?}");
    assert_eq!(owner_of(&none), "procedure WPS-1 revision 1");
}

/// Own arithmetic: 0.8 * 26 V * 220 A * 60 / 0.8 kJ/mm are 343.2 mm/min, so a tenth less than
/// 350 mm/min, 315 mm/min, is too slow.
#[test]
fn a_step_is_cut_to_the_heat_input_that_follows() {
    let scene =
        Scene::allowed().with(|s| s.limits().heat_input = Some(range("0.6 kJ/mm", "0.8 kJ/mm")));
    let slow = cut(&scene, &slower());
    let [low, high] = to::<TravelSpeedKind>(&slow);
    assert!((343.2..343.3).contains(&low) && (low - high).abs() < 1e-9, "{slow:?}");
    let Room::Part { owners, why, .. } = &slow.room else { panic!("{slow:?}") };
    assert_eq!(owners[0].to_string(), "procedure WPS-1 revision 1");
    assert!(why.contains("heat-input"), "{why}");
    let full = Scene::allowed().with(|s| {
        s.limits().heat_input = Some(range("0.6 kJ/mm", "0.785 kJ/mm"));
    });
    assert!(matches!(cut(&full, &slower()).room, Room::Nothing { .. }));
    assert!(matches!(cut(&Scene::allowed(), &slower()).room, Room::Whole(_)));
}

/// Own arithmetic: 5 % more feed draws between sqrt(1.05) and 1.05 times 220 A, 225.4 to 231 A; up to 226 A
/// the feed may be 226 / 220 * 8 = 8.218 m/min.
#[test]
fn the_current_follows_the_feed() {
    let free = cut(&Scene::allowed(), &more_feed());
    let [low, high] = ends::<CurrentKind>(&free.current_then.unwrap());
    assert!((low - 225.43).abs() < 0.01 && (high - 231.0).abs() < 0.01, "{low} {high}");
    let bound = Scene::allowed().with(|s| s.limits().current = Some(range("200 A", "226 A")));
    let part = cut(&bound, &more_feed());
    let [feed, _] = to::<WireFeedKind>(&part);
    assert!((8.217..=8.2182).contains(&feed), "{feed}");
    assert_eq!(owner_of(&part), "procedure WPS-1 revision 1");
}

/// Own arithmetic: 3 mm more than 20 mm draws at least sqrt(20 / 23) times 220 A, 205.2 A.
#[test]
fn the_current_follows_the_stick_out() {
    let step = Step::By("3 mm".parse().unwrap());
    let longer = SettingChange::ElectricalStickOut(Change { direction: Direction::Raise, step });
    let cut = cut(&Scene::allowed(), &longer);
    let [low, high] = ends::<CurrentKind>(&cut.current_then.unwrap());
    assert!((low - 205.15).abs() < 0.01 && (high - 220.0).abs() < 1e-9, "{low} {high}");
}

#[test]
fn an_interval_moves_as_a_whole() {
    let scene =
        Scene::allowed().with(|s| s.setup.settings.voltage = Some(interval("25.5 V", "26.5 V")));
    let part = cut(&scene, &volts(Direction::Lower));
    same(to::<VoltageKind>(&part), [25.0, 25.5]);
}

#[test]
fn what_is_not_known_has_no_value() {
    let unknown = |change: fn(&mut Scene), setting: &SettingChange| {
        let cut = cut(&Scene::allowed().with(change), setting);
        assert!(matches!(cut.room, Room::Unknown { .. }), "{cut:?}");
    };
    let higher = volts(Direction::Raise);
    unknown(|s| s.setup.settings.voltage = None, &higher);
    unknown(|s| s.limits().voltage = None, &higher);
    unknown(|s| s.setup.settings.travel_speed = None, &higher);
    unknown(|s| s.setup.settings.current = None, &more_feed());
    let step = Step::By("1 mm".parse().unwrap());
    unknown(|_| (), &SettingChange::ArcLength(Change { direction: Direction::Lower, step }));
}

#[test]
fn a_setup_that_stays_outside_gets_no_value() {
    let scene = Scene::allowed().with(|s| s.setup.settings.current = Some(set("260 A")));
    let step = Step::Share("5 %".parse().unwrap());
    let less = SettingChange::WireFeed(Change { direction: Direction::Lower, step });
    assert!(matches!(cut(&scene, &less).room, Room::Nothing { .. }));
}

#[test]
fn without_a_procedure_in_force_nothing_governs() {
    let scene = Scene::allowed();
    let book = scene.book();
    for process in [Process::TigSolidFiller, Process::MagFluxCored] {
        let setup = Setup { process: Some(process), ..Setup::default() };
        let (verdict, governing) = Governing::of(&book, &setup, scene.day);
        assert_eq!(verdict, Verdict::Undetermined, "{process}");
        assert!(governing.is_none(), "{process} alone chooses no procedure");
    }
    let whole = scene.clone().with(|s| s.setup.procedure = None);
    assert!(Governing::of(&book, &whole.setup, scene.day).1.is_some());
    let before = scene.with(|s| s.day = time::macros::date!(2024 - 06 - 01));
    assert!(Governing::of(&book, &before.setup, before.day).1.is_none());
}

/// Settings around and outside the limits of the scene.
fn settings() -> Vec<Scene> {
    let mut scenes = Vec::new();
    for volts in ["24.5 V", "25.3 V", "26 V", "27 V"] {
        for amperes in ["195 A", "220 A", "239 A"] {
            for speed in ["310 mm/min", "350 mm/min", "400 mm/min"] {
                for least in ["0.6 kJ/mm", "0.78 kJ/mm"] {
                    scenes.push(Scene::allowed().with(|s| {
                        s.setup.settings.voltage = Some(set(volts));
                        s.setup.settings.current = Some(set(amperes));
                        s.setup.settings.travel_speed = Some(set(speed));
                        s.limits().heat_input = Some(range(least, "0.86 kJ/mm"));
                    }));
                }
            }
        }
    }
    scenes
}

/// Own arithmetic on 26 V, 220 A and 350 mm/min and what a remedy makes of them: every value stays inside
/// its own range, and 0.8 * U * I * 60 / v, at both ends of what follows, inside the heat input.
#[test]
fn no_remedy_leaves_the_limits() {
    let mut changes: Vec<SettingChange> = Vec::new();
    for (symptom, _) in Symptom::ALL {
        for cause in symptom_advice(*symptom, Process::MagFluxCored).unwrap() {
            for remedy in cause.remedies {
                match remedy {
                    Remedy::Change(change) if !changes.contains(&change) => changes.push(change),
                    _ => {}
                }
            }
        }
    }
    assert!(changes.len() > 10, "{changes:?}");
    let mut given = 0;
    for scene in settings() {
        let book = scene.book();
        let (_, governing) = Governing::of(&book, &scene.setup, scene.day);
        let governing = governing.unwrap();
        for change in &changes {
            let cut = cut_change(&governing, change);
            if cut.room.to().is_some() {
                given += 1;
                stays_inside(&scene, change.variable(), &cut);
            }
        }
    }
    assert!(given > 200, "{given} values were given");
}

fn stays_inside(scene: &Scene, variable: SettingVariable, cut: &CutChange) {
    let within = |what: &str, value: f64, low: f64, high: f64| {
        let slack = 1e-9 * high.abs();
        assert!(value >= low - slack && value <= high + slack, "{what} {value}: {cut:?}");
    };
    let settings = &scene.setup.settings;
    let mut volts = settings.voltage.unwrap().span.low().canonical();
    let mut amperes = [settings.current.unwrap().span.low().canonical(); 2];
    let mut speed = settings.travel_speed.unwrap().span.low().canonical();
    match variable {
        SettingVariable::Voltage => {
            [volts, _] = to::<VoltageKind>(cut);
            within("volts", volts, 25.0, 27.0);
        }
        SettingVariable::WireFeed => {
            within("feed", to::<WireFeedKind>(cut)[0], 7.0, 9.0);
        }
        SettingVariable::TravelSpeed => {
            [speed, _] = to::<TravelSpeedKind>(cut);
            within("speed", speed, 300.0, 400.0);
        }
        SettingVariable::ElectricalStickOut => {
            within("stick-out", to::<ElectricalStickOutKind>(cut)[0], 17.0, 23.0);
        }
        SettingVariable::TravelAngle => {
            within("angle", to::<TravelAngleKind>(cut)[0], 5.0, 15.0);
        }
        SettingVariable::WeaveWidth => {
            within("weave", to::<WeaveWidthKind>(cut)[0], 4.0, 12.0);
        }
        SettingVariable::GasFlow => {
            within("gas", to::<GasFlowKind>(cut)[0], 14.0, 18.0);
        }
        SettingVariable::Preheat => {
            within("preheat", to::<TemperatureKind>(cut)[0], 20.0, 100.0);
        }
        other => panic!("{other} has no limit here"),
    }
    if let Some(then) = &cut.current_then {
        amperes = ends::<CurrentKind>(then);
        within("least current", amperes[0], 200.0, 240.0);
        within("most current", amperes[1], 200.0, 240.0);
    }
    let arc = [
        SettingVariable::Voltage,
        SettingVariable::WireFeed,
        SettingVariable::TravelSpeed,
        SettingVariable::ElectricalStickOut,
    ];
    if arc.contains(&variable) {
        let least = scene.procedure.runs[0].ranges.heat_input.unwrap().min().unwrap().canonical();
        for amperes in amperes {
            within("heat input", 0.8 * volts * amperes * 0.06 / speed, least, 0.86);
        }
    }
}
