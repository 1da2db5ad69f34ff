//! The current that usually goes with the feed where nothing is printed: the advised region against the check's own
//! advice. The wire is invented; its coefficients are the generic ones (alpha 0.30, beta 5.0e-5 at 1.2 mm).

use super::{Scene, only, range, set, settings, solved, steady};
use crate::{
    check::{Finding, Force, Outcome, Settings, Variable},
    quantity::Share,
    trade::{Designation, Process, designation::FillerKind},
    window::{
        Derived, Follows, Holder, LimitKind, Question, Side, Subject,
        plan::tests::Draw,
        space::{CURRENT, FEED, STICK_OUT},
    },
};

/// A solid steel wire of which nothing is printed, with room for feed, current and stick-out.
fn scene() -> Scene {
    Scene::allowed().with(|s| {
        let wire = s.consumable.as_mut().unwrap();
        wire.kind = FillerKind::SolidWire;
        wire.designations = vec![Designation::parse("AWS A5.18: ER70S-6").unwrap()];
        wire.data.clear();
        s.procedure.process = Process::MagSolidWire;
        s.setup.process = Some(Process::MagSolidWire);
        s.setup.settings.stick_out = None;
        let mut limits = s.limits();
        limits.wire_feed = Some(range("4 m/min", "9 m/min"));
        limits.current = Some(range("100 A", "350 A"));
        limits.stick_out = Some(range("12 mm", "20 mm"));
        (limits.arc_energy, limits.heat_input, limits.arc_power) = (None, None, None);
    })
}

fn is_of_it(subject: Subject) -> bool {
    subject == Subject::Derived(Derived::UsualCurrent)
}

fn outcome(scene: &Scene, settings: &Settings) -> Outcome {
    let scene = scene.clone().with(|s| s.setup.settings = settings.clone());
    let of = |finding: &Finding| finding.variable == Variable::Current;
    scene.of("settings-fit-data").into_iter().find(of).unwrap().outcome
}

/// At 4 m/min and 20 mm 108.7 to 200 A are usual (own arithmetic beside the check), whatever the procedure permits.
#[test]
fn at_a_chosen_feed_and_stick_out_the_advised_current_is_the_usual_one() {
    let scene = scene().with(|s| {
        s.setup.settings.wire_feed = Some(set("4 m/min"));
        s.setup.settings.stick_out = Some(set("20 mm"));
    });
    let chosen = vec![Variable::WireFeed, Variable::StickOut];
    let solved = solved(&scene, &Question { chosen, ..steady() });
    let current = |left: &super::Left| {
        let of = |one: &&crate::window::Narrowed| one.variable == Variable::Current;
        left.narrowed.iter().find(of).unwrap().stated().unwrap()
    };
    assert_eq!(current(only(&solved)).to_string(), "100 A to 350 A");
    let advised = current(solved.pieces[0].advised.as_ref().unwrap().as_ref().unwrap());
    let [low, high] = [advised.min, advised.max].map(|end| end.unwrap().canonical());
    assert!((108.7..110.1).contains(&low) && (198.9..=200.0).contains(&high), "{low} {high}");
    let limit = solved.pieces[0].limits.iter().find(|limit| is_of_it(limit.subject)).unwrap();
    assert_eq!((limit.side, limit.kind), (Side::Lowest, LimitKind::ExactLinear));
    assert!(matches!(&limit.holder, Holder::Record(owner) if owner.name.contains("from memory")));
}

/// By brute force: nothing that the check advises against lies in the region, and nothing is left out that fits with the
/// gap to spare.
#[test]
fn what_is_usual_with_the_gap_to_spare_is_advised() {
    let scene = scene();
    let solved = solved(&scene, &steady());
    assert!(matches!(solved.pieces[0].follows, Follows::MustBeRead { .. }));
    assert!(solved.notes.is_empty(), "{:?}", solved.notes);
    let of_it = |side: Side| {
        let mut limits = solved.pieces[0].limits.iter();
        limits.find(|limit| is_of_it(limit.subject) && limit.side == side).unwrap()
    };
    let [low, high] = [Side::Lowest, Side::Highest].map(|side| of_it(side).gap.map(Share::ratio));
    let (low, high) = (low.unwrap(), high.unwrap());
    assert!((0.001..0.03).contains(&low) && (0.001..0.03).contains(&high), "{low} {high}");
    let space = scene.in_case(|case| crate::window::spaces(case, &steady()).remove(0));
    let faces: Vec<_> = space.faces.iter().filter(|face| is_of_it(face.limit.subject)).collect();
    assert!(faces.iter().all(|face| face.limit.force == Force::Advised));
    // The generic equation by itself, w = 0.30 I + 5.0e-5 L I² in mm/s, so that the check's code is not asked.
    let amperes = |feed: f64, out: f64| {
        let beta = 5.0e-5 * out;
        ((0.09 + 4.0 * beta * feed * 1000.0 / 60.0).sqrt() - 0.30) / (2.0 * beta)
    };
    let mut draw = Draw(5);
    let (mut inside, mut spared) = (0, 0);
    for _ in 0..100_000 {
        let (feed, out) = (draw.between(4.0, 9.0), draw.between(12.0, 20.0));
        let current = draw.between(80.0, 420.0);
        let on = |face: &&crate::window::space::Face| {
            let terms = [(FEED, feed), (CURRENT, current), (STICK_OUT, out)];
            let sum: f64 = terms.iter().map(|(axis, value)| face.weights[*axis] * value.ln()).sum();
            sum <= face.bound + 1e-12
        };
        let left = faces.iter().all(on);
        let (least, most) = (amperes(feed / 1.5, out), amperes(feed * 1.5, out));
        let fits =
            |low: f64, high: f64| least * (1.0 + low) <= current && current * (1.0 + high) <= most;
        assert!(!left || fits(-1e-9, -1e-9), "{feed} m/min, {out} mm with {current} A");
        assert!(left || !fits(low + 1e-9, high + 1e-9), "{feed} m/min, {out} mm with {current} A");
        inside += usize::from(left);
        spared += usize::from(fits(low, high));
    }
    assert!(inside > 10_000 && spared > 10_000, "{inside} {spared}");
}

/// Every setting that is advised is one the check does not advise against; of those permitted not every one is.
#[test]
fn nothing_advised_has_an_unusual_current() {
    let scene = scene();
    let solved = solved(&scene, &steady());
    let advised = settings(solved.pieces[0].advised.as_ref().unwrap().as_ref().unwrap());
    assert!(advised.len() > 5);
    for settings in &advised {
        assert_eq!(outcome(&scene, settings), Outcome::Inside, "{settings:?}");
    }
    let permitted = settings(only(&solved));
    assert!(permitted.iter().any(|settings| outcome(&scene, settings) == Outcome::Outside));
}

/// A current that no such wire draws at the feed is the procedure's own matter: the advice gives way, and says so.
#[test]
fn where_nothing_would_be_left_the_advice_gives_way() {
    let scene = scene().with(|s| {
        s.limits().current = Some(range("300 A", "340 A"));
        s.limits().wire_feed = Some(range("4 m/min", "4.5 m/min"));
    });
    let solved = solved(&scene, &steady());
    assert!(solved.pieces[0].advised.as_ref().unwrap().is_ok());
    assert!(
        solved.notes.iter().any(|note| note.starts_with("That the current is usual for the feed"))
    );
}
