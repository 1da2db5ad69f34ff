//! Volts and current that go with the feed as printed: the advised region against the check's own advice. Wires are
//! invented.

use super::{Scene, all_pass, range, set, settings, smooth, solved, steady};
use crate::{
    check::{Force, Outcome, Settings, Variable, record::OperatingPoint},
    window::{
        Derived, Follows, Holder, LimitKind, Question, Side, Subject,
        plan::tests::Draw,
        solve::{Left, Solved},
    },
};

/// Volts printed at these feeds; enough room for them in the procedure, the station and the data.
fn printed(scene: &mut Scene, points: &[(f64, f64)]) {
    let condition = &mut scene.consumable.as_mut().unwrap().data[0].conditions[0];
    condition.points.change(|all| {
        let first = all[0];
        let point = |(feed, volts): &(f64, f64)| OperatingPoint {
            wire_feed: format!("{feed} m/min").parse().ok(),
            voltage: format!("{volts} V").parse().unwrap(),
            ..first
        };
        *all = points.iter().map(point).collect();
    });
    condition.ranges = crate::check::Ranges::default().into();
    let mut limits = scene.limits();
    limits.voltage = Some(range("16 V", "34 V"));
    limits.wire_feed = Some(range("4 m/min", "12 m/min"));
    (limits.arc_energy, limits.heat_input, limits.arc_power) = (None, None, None);
}

fn advised(solved: &Solved) -> &Left {
    solved.pieces[0].advised.as_ref().unwrap().as_ref().unwrap()
}

/// What the check says of a value beside what is printed for the feed.
fn outcome(scene: &Scene, settings: &Settings, variable: Variable) -> Option<Outcome> {
    let scene = scene.clone().with(|s| s.setup.settings = settings.clone());
    let found = scene.of("settings-fit-data");
    let of = |finding: &crate::check::Finding| finding.variable == variable;
    found.into_iter().find(of).map(|finding| finding.outcome)
}

/// Printed are 23 V at 6, 25 V at 8 and 27 V at 10 m/min; at 8 m/min 10 % to either side are 22.5 to 27.5 V (own
/// arithmetic).
#[test]
fn at_a_chosen_feed_the_advised_volts_are_those_printed_for_it() {
    let points = [(6.0, 23.0), (8.0, 25.0), (10.0, 27.0)];
    let scene = Scene::allowed().with(|s| printed(s, &points));
    let question = Question { chosen: vec![Variable::WireFeed], ..steady() };
    let solved = solved(&scene, &question);
    let volts = |left: &Left| {
        let of = |one: &&crate::window::Narrowed| one.variable == Variable::Voltage;
        left.narrowed.iter().find(of).unwrap().stated().unwrap().to_string()
    };
    assert_eq!(volts(solved.pieces[0].required.as_ref().unwrap()), "16 V to 34 V");
    assert_eq!(volts(advised(&solved)), "22.5 V to 27.5 V");
    let limits = solved.pieces[0].limits.iter();
    let mut of_fit = limits.filter(|l| l.subject == Subject::Derived(Derived::PrintedVolts));
    let (low, high) = (of_fit.next().unwrap(), of_fit.next().unwrap());
    assert_eq!((low.side, high.side), (Side::Lowest, Side::Highest));
    assert_eq!((low.kind, low.force), (LimitKind::ExactLinear, Force::Advised));
    assert!(low.to_string().starts_with("volts printed for the feed at least 22.5 V (data of"));
    assert!(solved.notes.is_empty(), "{:?}", solved.notes);
}

/// Whatever is printed, nothing that the advised region answers with lies where the check advises against volts or
/// current for the feed. Without a response the current is read, and goes with the feed as printed too.
#[test]
fn nothing_advised_lies_where_the_check_advises_against_it() {
    let mut draw = Draw(7);
    let (mut open, mut read) = (0, 0);
    for number in 0..60 {
        let mut volts = draw.between(20.0, 23.0);
        let points = [5.0, 6.5, 7.5, 9.0, 11.0].map(|feed| {
            volts += draw.between(0.2, 3.0);
            (feed, (volts * 10.0).round() / 10.0)
        });
        let scene = Scene::allowed().with(|s| printed(s, &points[..2 + number % 4]));
        let solved = solved(&scene, &steady());
        let Some(Ok(left)) = &solved.pieces[0].advised else { continue };
        assert!(solved.notes.is_empty(), "{:?}", solved.notes);
        let all = settings(left);
        assert!(all.len() > 5);
        open += 1;
        read += usize::from(matches!(solved.pieces[0].follows, Follows::MustBeRead { .. }));
        for settings in &all {
            assert_eq!(outcome(&scene, settings, Variable::Voltage), Some(Outcome::Inside));
            if matches!(solved.pieces[0].follows, Follows::MustBeRead { .. }) {
                assert_eq!(outcome(&scene, settings, Variable::Current), Some(Outcome::Inside));
            }
        }
    }
    assert!(open >= 30 && read >= 10, "{open} windows were open, {read} with a current to be read");
}

/// Usual of a wire of this size are 24 to 28 V (Modern Welding, Goodheart-Willcox 2020, Fig. 8-20), which says nothing
/// where points are printed for this very wire: 31 V go with 12 m/min, and neither window nor check advise otherwise.
#[test]
fn what_is_printed_for_the_wire_goes_before_what_is_usual() {
    let scene = Scene::allowed().with(|s| {
        printed(s, &[(8.0, 29.0), (10.0, 30.0), (12.0, 31.0)]);
        s.limits().voltage = Some(range("29 V", "34 V"));
    });
    let solved = solved(&scene, &steady());
    assert!(solved.notes.is_empty(), "{:?}", solved.notes);
    let settings = settings(advised(&solved));
    assert!(settings.len() > 5);
    let on_volts = |scene: &Scene| {
        let found = scene.of("common-practice");
        found.into_iter().filter(|one| one.variable == Variable::Voltage).count()
    };
    let at_31 = scene.with(|s| s.setup.settings.voltage = Some(set("31 V")));
    assert_eq!(on_volts(&at_31), 0);
    assert_eq!(on_volts(&at_31.with(|s| s.consumable.as_mut().unwrap().data.clear())), 1);
}

/// Usual are 5/8 to 1 in from contact tip to work (common practice, no source): the advised region keeps to them, unless
/// the procedure is made for others, which is noted.
#[test]
fn common_practice_is_advice_unless_nothing_is_left_with_it() {
    let of = |least: &str, most: &str| {
        let scene = Scene::allowed().with(|s| {
            printed(s, &[(5.0, 22.0), (8.0, 26.0), (11.0, 30.0)]);
            s.limits().stick_out = Some(range(least, most));
            s.setup.settings.stick_out = None;
        });
        let solved = solved(&scene, &steady());
        let usual = |settings: &Settings| {
            let out = settings.stick_out.unwrap().span;
            out.low().mm() >= 15.875 - 1e-9 && out.high().mm() <= 25.4 + 1e-9
        };
        let settings = settings(advised(&solved));
        (settings.iter().filter(|one| usual(one)).count(), settings.len(), solved.notes.join(" "))
    };
    let (usual, all, notes) = of("14 mm", "24 mm");
    assert!(usual == all && all > 5 && notes.is_empty(), "{usual} of {all}: {notes}");
    let (usual, all, notes) = of("12 mm", "15 mm");
    assert!(usual == 0 && all > 5, "{usual} of {all}");
    assert!(notes.starts_with("Common practice on the electrical stick out (common"), "{notes}");
    assert!(
        notes.ends_with("is not in the advised window: nothing would be left with it."),
        "{notes}"
    );
}

/// Two sources name 150 to 250 A and 180 to 300 A for flux-cored wire of 1.2 mm (the first Modern Welding,
/// Goodheart-Willcox 2020, Fig. 8-20; the other common practice, no source): one that is met is enough, so that the
/// advised region goes from 150 to 300 A.
#[test]
fn usual_values_of_sources_that_overlap_are_joined() {
    let scene = Scene::allowed().with(|s| {
        s.consumable.as_mut().unwrap().data.clear();
        s.setup.settings.current = None;
        (s.station, s.setup.station) = (None, None);
        (s.work_order, s.setup.work_order) = (None, None);
        s.limits().current = Some(range("100 A", "400 A"));
        let mut limits = s.limits();
        (limits.arc_energy, limits.heat_input, limits.arc_power) = (None, None, None);
    });
    let solved = solved(&scene, &steady());
    let current = |solved: &Solved| {
        let narrowed = &advised(solved).narrowed;
        let current = narrowed.iter().find(|one| one.variable == Variable::Current);
        let current = current.unwrap().stated().unwrap();
        [current.min, current.max].map(|end| end.unwrap().canonical())
    };
    let [low, high] = current(&solved);
    assert!(
        (150.0 - 1e-9..151.0).contains(&low) && (299.0..300.0 + 1e-9).contains(&high),
        "{low} {high}"
    );
    for current in ["150 A", "300 A"] {
        let at = scene.clone().with(|s| s.setup.settings.current = Some(set(current)));
        let found = at.of("common-practice");
        let of_current = found.iter().find(|one| one.variable == Variable::Current);
        assert_eq!(of_current.unwrap().outcome, Outcome::Inside);
    }
}

/// By brute force: nothing that the check does not find to fit is advised, and nothing is left out that fits with the
/// gap to spare; of points that flatten out and of points that rise ever more.
#[test]
fn what_fits_with_the_gap_to_spare_is_advised() {
    for (middle, bent) in [(26.5, Side::Lowest), (23.0, Side::Highest)] {
        let points = [(6.0, 22.0), (8.0, middle), (10.0, 27.5)];
        let scene = Scene::allowed().with(|s| printed(s, &points));
        let solved = solved(&scene, &steady());
        let of_fit = |limit: &&crate::window::LimitEnd| {
            limit.subject == Subject::Derived(Derived::PrintedVolts)
        };
        let gap = |side: Side| {
            let limit = solved.pieces[0].limits.iter().filter(of_fit).find(|l| l.side == side);
            limit.unwrap().gap.map_or(0.0, crate::quantity::Share::ratio)
        };
        let (low, high) = (gap(Side::Lowest), gap(Side::Highest));
        // On the hollow side one line has to do for both; on the other each printed line has its own. Own arithmetic:
        // 26.5 V lie 6 % above what a power of the feed from 22 to 27.5 V comes to there, 23 V 8 % below it.
        let (hollow, full) = if bent == Side::Lowest { (low, high) } else { (high, low) };
        assert!((0.059..0.09).contains(&hollow) && full < 0.01, "{low} {high}");
        let space = scene.in_case(|case| crate::window::spaces(case, &steady()).remove(0));
        let faces: Vec<_> = space.faces.iter().filter(|face| of_fit(&&face.limit)).collect();
        let printed_at = |feed: f64| {
            let (from, to) = if feed <= 8.0 { (0, 1) } else { (1, 2) };
            let ((w0, v0), (w1, v1)) = (points[from], points[to]);
            v0 + (v1 - v0) * (feed - w0) / (w1 - w0)
        };
        let mut draw = Draw(11);
        let (mut inside, mut spared) = (0, 0);
        for _ in 0..100_000 {
            let (feed, volts) = (draw.between(6.0, 10.0), draw.between(17.0, 33.0));
            let on = |face: &&crate::window::space::Face| {
                face.weights[0] * feed.ln() + face.weights[1] * volts.ln() <= face.bound + 1e-12
            };
            let left = faces.iter().all(on);
            let ratio = volts / printed_at(feed);
            let fits =
                |low: f64, high: f64| 0.9 * (1.0 + low) <= ratio && ratio * (1.0 + high) <= 1.1;
            assert!(!left || fits(-1e-9, -1e-9), "{feed} m/min with {volts} V");
            assert!(left || !fits(low + 1e-9, high + 1e-9), "{feed} m/min with {volts} V");
            inside += usize::from(left);
            spared += usize::from(fits(low, high));
        }
        assert!(inside > 10_000 && spared > 10_000, "{inside} {spared}");
    }
}

/// Nothing is known beyond the printed feeds: the advice keeps to them, the permission does not.
#[test]
fn the_advice_keeps_to_the_printed_feeds() {
    let scene = Scene::allowed().with(|s| printed(s, &[(6.0, 24.0), (9.0, 27.0)]));
    let solved = solved(&scene, &steady());
    let feeds = |left: &Left| left.narrowed[0].stated().unwrap().to_string();
    assert_eq!(feeds(solved.pieces[0].required.as_ref().unwrap()), "4 m/min to 12 m/min");
    assert_eq!(feeds(advised(&solved)), "6 m/min to 9 m/min");
    let reach = solved.pieces[0].limits.iter().filter(|limit| {
        matches!(limit.holder, Holder::ResponseData(_)) && limit.force == Force::Advised
    });
    assert_eq!(reach.count(), 2);
}

/// An interval that was chosen holds for all of it: volts that go with each of its feeds, from 24.3 V by the 27 V
/// printed at 9 to 27.5 V by the 25 V printed at 7 m/min (own arithmetic, 10 % to either side). One that goes beyond
/// the printed feeds is not advised against.
#[test]
fn a_chosen_interval_of_feeds_has_volts_for_all_of_it() {
    let chosen = |from: &str, to: &str| {
        let scene = Scene::allowed().with(|s| {
            printed(s, &[(6.0, 24.0), (10.0, 28.0)]);
            let feeds = crate::quantity::Span::new(from.parse().unwrap(), to.parse().unwrap());
            s.setup.settings.wire_feed = Some(crate::check::Given::set(feeds.unwrap()));
        });
        solved(&scene, &Question { chosen: vec![Variable::WireFeed], ..steady() })
    };
    let solved = chosen("7 m/min", "9 m/min");
    let volts = advised(&solved).narrowed.iter().find(|one| one.variable == Variable::Voltage);
    let volts = volts.unwrap().stated().unwrap();
    let [low, high] = [volts.min, volts.max].map(|end| end.unwrap().canonical());
    assert!((24.3..24.6).contains(&low) && (27.2..27.5).contains(&high), "{volts}");
    let beyond = chosen("9 m/min", "11 m/min");
    assert!(beyond.notes[0].contains("do not reach"), "{:?}", beyond.notes);
    assert!(beyond.pieces[0].advised.as_ref().unwrap().is_ok());
}

/// Points that do not reach the allowed feeds, or that no straight face lies between, are said to be left out.
#[test]
fn what_cannot_be_held_is_said() {
    let note = |points: &[(f64, f64)]| {
        let scene = Scene::allowed().with(|s| printed(s, points));
        let solved = solved(&scene, &steady());
        assert!(matches!(&solved.pieces[0].advised, Some(Ok(_))));
        solved.notes.join(" ")
    };
    let beyond = note(&[(13.0, 24.0), (15.0, 27.0)]);
    assert!(beyond.contains("do not reach the allowed wire feeds"), "{beyond}");
    assert_eq!(beyond.matches("voltage").count(), 1);
    assert_eq!(beyond.matches("current").count(), 1);
    let bent = note(&[(5.0, 20.0), (7.0, 32.0), (9.0, 20.0)]);
    assert!(bent.contains("voltage") && bent.contains("bend too much"), "{bent}");
}

/// Too many volts for the feed that was chosen are an advised conflict, with the volts that would go with it.
#[test]
fn volts_that_do_not_go_with_the_feed_are_a_conflict_in_words() {
    let scene = smooth().with(|s| {
        s.limits().voltage = Some(range("29 V", "32 V"));
        (s.limits().arc_energy, s.limits().heat_input) = (None, None);
        s.limits().arc_power = None;
        s.consumable.as_mut().unwrap().data[0].conditions[0].ranges.edit().voltage = None;
        s.setup.settings.wire_feed = Some(set("7 m/min"));
    });
    let question = Question { chosen: vec![Variable::WireFeed], ..steady() };
    let solved = solved(&scene, &question);
    all_pass(&scene, solved.pieces[0].required.as_ref().unwrap());
    let conflict = solved.pieces[0].advised.as_ref().unwrap().as_ref().unwrap_err();
    assert!(conflict.words.contains("volts printed for the feed at most"), "{}", conflict.words);
}
