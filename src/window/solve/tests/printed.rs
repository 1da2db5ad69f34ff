//! Windows of a wire with printed deposition rates, held against the figures of the check. Wires are invented.

use super::{Scene, all_pass, only, set, settings, solved, steady};
use crate::{
    check::{FigureValue, Settings},
    quantity::{DepositionRate, Kind, Quantity, Range, Span},
    window::{Question, plan::tests::Draw, solve::run_size},
};

/// So many grams of metal per metre of wire, printed at 6, 8 and 10 m/min.
fn wire(scene: &mut Scene, metal: [f64; 3]) {
    let points = &mut scene.consumable.as_mut().unwrap().data[0].conditions[0].points;
    points.change(|points| {
        for (point, metal) in points.iter_mut().zip(metal) {
            let feed = point.wire_feed.unwrap().m_per_min();
            point.deposition_rate = Some(DepositionRate::computed(metal * feed * 0.06).unwrap());
        }
    });
}

/// A figure of the check for these settings.
fn figure<K: Kind>(scene: &Scene, settings: &Settings, name: &str) -> Span<K> {
    let scene = scene.clone().with(|s| s.setup.settings = settings.clone());
    let value = scene.in_case(|case| case.figures().get(name).unwrap().value);
    match value {
        FigureValue::One(amount) => Span::one(amount.of_kind().unwrap()),
        FigureValue::Between(range) => {
            let [low, high] = [range.min, range.max].map(|end| end.unwrap().of_kind().unwrap());
            Span::new(low, high).unwrap()
        }
    }
}

fn asked<K: Kind>(low: f64, high: f64) -> Range<K> {
    let end = |value: f64| Quantity::computed(value).ok();
    Range::new(end(low), end(high)).unwrap()
}

/// Own arithmetic: at 10 m/min and 300 mm/min a metre of wire with m g of metal leaves m * 10 * 1000 / 7.85 / 300 mm²;
/// 6 g/m 25.478 mm², 6.3 g/m 26.752 mm².
#[test]
fn the_size_of_a_run_is_the_least_and_the_greatest_printed() {
    let scene = Scene::allowed().with(|s| wire(s, [6.3, 6.0, 6.1]));
    let size = scene.in_case(|case| run_size(case).unwrap().0);
    assert_eq!(size.area.low().to_string(), "25.48 mm2");
    assert_eq!(size.area.high().to_string(), "26.75 mm2");
}

/// Whatever rates are printed, every setting that a window answers with has the run area and the deposition rate that
/// were asked for, by the check's own figures; also at feeds beyond the printed ones.
#[test]
fn what_the_window_claims_of_the_metal_the_check_computes() {
    let mut draw = Draw(3);
    let mut open = 0;
    for number in 0..40 {
        let middle = draw.between(5.2, 7.1);
        let metal = [(); 3].map(|()| middle * draw.between(0.94, 1.08));
        let beyond = number % 2 == 1;
        let scene = Scene::allowed().with(|s| {
            wire(s, metal);
            if beyond {
                let feeds = Range::new("9.5 m/min".parse().ok(), "12 m/min".parse().ok());
                s.limits().wire_feed = feeds.ok();
                s.setup.settings.wire_feed = Some(set("11 m/min"));
                // Enough for the current that goes with the feed.
                s.limits().current = None;
                s.limits().arc_energy = None;
                s.limits().heat_input = None;
                s.limits().arc_power = None;
            }
        });
        let most = if beyond { 4.5 } else { 3.2 };
        let rate = asked(draw.between(1.5, 2.6), draw.between(2.9, most));
        let area = asked(draw.between(10.0, 18.0), draw.between(19.0, 35.0));
        let question = Question { deposition_rate: Some(rate), run_area: Some(area), ..steady() };
        let solved = solved(&scene, &question);
        assert!(solved.notes.is_empty(), "{:?}", solved.notes);
        let Ok(left) = &solved.pieces[0].required else { continue };
        open += 1;
        let all = settings(left);
        assert!(all.len() > 5);
        for settings in &all {
            let laid = figure(&scene, settings, "deposition-rate");
            assert!(rate.contains(&laid), "{rate:?} {laid:?} {metal:?}");
            let size = figure(&scene, settings, "run-area");
            assert!(area.contains(&size), "{area:?} {size:?} {metal:?}");
        }
    }
    assert!(open >= 20, "{open} windows were open");
}

/// Own arithmetic: 9 g/m of metal are more than the 7.726 g/m of the heaviest wire of 1.2 mm.
#[test]
fn rates_that_cannot_be_right_are_not_used_and_the_window_says_so() {
    let scene = Scene::allowed().with(|s| wire(s, [6.0, 9.0, 6.0]));
    let plain = Scene::allowed();
    let size = |scene: &Scene| scene.in_case(|case| run_size(case).unwrap().0);
    assert_eq!(size(&scene), size(&plain));
    let question = Question { run_area: Some(asked(10.0, 30.0)), ..steady() };
    let solved = solved(&scene, &question);
    let note = solved.metal.first().unwrap();
    assert!(note.contains("not used") && note.contains("9 g/m"), "{note}");
    assert_eq!(solved.notes, [""; 0]);
    all_pass(&scene, only(&solved));
}
