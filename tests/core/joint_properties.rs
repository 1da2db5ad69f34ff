//! What must hold for any joint, fit, plan, estimate and remedy: monotony, scale laws, inverses,
//! finite results, no panic.

use arcbounds::{
    quantity::{Kind, Quantity, Range, VoltageKind},
    trade::{
        BackGouge, BurnOff, BurnOffFit, BurnOffForm, BurnOffPoint, Cap, Change, Direction, DoubleJ,
        DoubleU, Fillet, FilletFace, Gassing, Joint, JointWork, RoundSide, SingleBevel, SingleJ,
        SingleU, SingleVee, Step, Use, WeldSection, estimate_joint, face_parabola, face_segment,
        groove_runs, leg_for_throat, runs_for_area, specific_melt_rate,
    },
};
use proptest::prelude::*;

fn q<K: Kind>(canonical: f64) -> Quantity<K> {
    Quantity::computed(canonical).unwrap()
}

/// Thickness, gap, root face, radius, bevel angle of a joint that exists.
fn groove() -> impl Strategy<Value = [f64; 5]> {
    (6.0_f64..100.0, 0.0_f64..8.0, 0.0_f64..3.0, 0.0_f64..2.9, 0.0_f64..60.0)
        .prop_map(|(t, g, f, r, b)| [t, g, f, r, b])
}

fn joints(dimensions: [f64; 5]) -> [Joint; 7] {
    let [plate, gap, face, root, bevel] = dimensions;
    let (thickness, gap, face, radius) = (q(plate), q(gap), q(face), q(root));
    let side = RoundSide { depth: q(plate / 2.0), radius, angle: q(bevel) };
    [
        Joint::SingleVee(SingleVee { thickness, gap, face, angle: q(2.0 * bevel) }),
        Joint::SingleBevel(SingleBevel { thickness, gap, face, angle: q(bevel) }),
        Joint::SingleU(SingleU { thickness, gap, face, radius, angle: q(bevel) }),
        Joint::SingleJ(SingleJ { thickness, gap, face, radius, angle: q(bevel) }),
        Joint::Fillet(Fillet {
            leg: q(plate),
            other_leg: q(plate * 0.8),
            angle: q(60.0 + bevel),
            gap,
            face: FilletFace::Convex(q(0.1 * root)),
        }),
        Joint::DoubleU(DoubleU { thickness, gap, near: side, far: side }),
        Joint::DoubleJ(DoubleJ { thickness, gap, near: side, far: side }),
    ]
}

fn areas(dimensions: [f64; 5]) -> [f64; 7] {
    joints(dimensions).map(|joint| joint.area().unwrap().mm2())
}

proptest! {
    #[test]
    fn areas_grow_with_the_square_of_the_size(d in groove(), k in 0.2_f64..5.0) {
        let [t, g, f, r, b] = d;
        let scaled = areas([t * k, g * k, f * k, r * k, b]);
        for (one, other) in areas(d).into_iter().zip(scaled) {
            prop_assert!((other - one * k * k).abs() <= 1e-9 * other.abs(), "{one} {other}");
        }
    }

    #[test]
    fn a_thicker_plate_or_wider_gap_never_takes_less(d in groove(), more in 0.001_f64..10.0) {
        let [t, g, f, r, b] = d;
        for (one, other) in areas(d).into_iter().zip(areas([t + more, g, f, r, b])) {
            prop_assert!(other >= one);
        }
        for (one, other) in areas(d).into_iter().zip(areas([t, g + more, f, r, b])) {
            prop_assert!(other >= one);
        }
    }

    #[test]
    fn a_u_without_radius_is_a_v_and_a_j_a_bevel(d in groove()) {
        let [t, g, f, _, b] = d;
        let [vee, bevel, u, j, ..] = areas([t, g, f, 0.0, b]);
        prop_assert!((vee - u).abs() <= 1e-9 * vee);
        prop_assert!((bevel - j).abs() <= 1e-9 * bevel);
    }

    #[test]
    fn a_u_with_straight_walls_takes_more_than_a_square_joint(d in groove()) {
        let [t, g, f, r, _] = d;
        let [_, _, u, j, ..] = areas([t, g, f, r, 0.0]);
        prop_assert!(u >= g * t && j >= g * t && u >= j);
    }

    #[test]
    fn a_face_lies_between_its_parabola_and_its_rectangle(
        c in 0.1_f64..50.0, share in 1e-9_f64..0.5
    ) {
        let h = c * share;
        let arc = face_segment(q(c), q(h)).unwrap().mm2();
        let parabola = face_parabola(q(c), q(h)).unwrap().mm2();
        prop_assert!(arc >= parabola * (1.0 - 1e-9) && arc <= c * h, "{arc} {parabola}");
        let more = face_segment(q(c), q(h * 0.999)).unwrap().mm2();
        prop_assert!(more < arc);
    }

    #[test]
    fn a_throat_comes_back_from_its_leg(leg in 1.0_f64..50.0, angle in 30.0_f64..150.0) {
        let fillet = Fillet { angle: q(angle), ..Fillet::equal(q(leg)).unwrap() };
        let back = leg_for_throat(fillet.throat().unwrap(), q(angle)).unwrap();
        prop_assert_eq!(back, q(leg));
    }

    #[test]
    fn caps_and_gouges_only_add(d in groove(), h in 0.0_f64..4.0, s in 0.0_f64..3.0) {
        for joint in joints(d) {
            let bare = WeldSection::bare(joint);
            let cap = Some(Cap { height: q(h), overlap: q(s) });
            let gouge = Some(BackGouge::Parabola { width: q(2.0 * h), depth: q(s) });
            let all = WeldSection { cap, gouge, ..bare }.area().unwrap();
            prop_assert!(all.at_least(bare.area().unwrap()));
        }
    }

    /// Whatever is laid is laid from one side or the other, and the near side of a joint prepared on both is
    /// the same joint prepared on one, as thick as the far preparation leaves.
    #[test]
    fn sides_add_up_to_the_whole(d in groove(), h in 0.0_f64..2.0, s in 0.0_f64..3.0) {
        for joint in joints(d) {
            let cap = Some(Cap { height: q(h), overlap: q(s) });
            let gouge = Some(BackGouge::Parabola { width: q(2.0 * h), depth: q(s) });
            let section = WeldSection { cap, gouge, ..WeldSection::bare(joint) };
            let Some(sides) = section.sides().unwrap() else { continue };
            let far = sides.far.map_or(0.0, |far| far.area.mm2());
            let all = section.area().unwrap().mm2();
            prop_assert!((sides.near.area.mm2() + far - all).abs() <= 1e-9 * all);
        }
        let [t, g, _, r, b] = d;
        let [.., double_u, double_j] = joints(d);
        let [_, _, u, j, ..] = joints([t / 2.0, g, 0.0, r, b]);
        for (double, single) in [(double_u, u), (double_j, j)] {
            let single = single.area().unwrap().mm2();
            let sides = WeldSection::bare(double).sides().unwrap().unwrap();
            prop_assert!((sides.near.area.mm2() - single).abs() <= 1e-9 * single);
            prop_assert!((sides.near.depth.mm() - t / 2.0).abs() <= 1e-9 * t);
        }
    }

    /// Any numbers at all, below zero too: a finite area or an error.
    #[test]
    fn no_area_is_ever_not_a_number(
        a in prop::num::f64::NORMAL | prop::num::f64::SUBNORMAL | prop::num::f64::ZERO,
        b in prop::num::f64::NORMAL | prop::num::f64::SUBNORMAL | prop::num::f64::ZERO,
        c in -10.0_f64..200.0, e in -200.0_f64..200.0, f in -10.0_f64..100.0,
    ) {
        for joint in joints([a, b, c, f, e]).into_iter().chain(joints([c, f, b, a, e])) {
            if let Ok(area) = joint.area() {
                prop_assert!(area.mm2().is_finite());
            }
            if let Ok(width) = joint.face_width() {
                prop_assert!(width.mm().is_finite());
            }
        }
        if let Ok(area) = face_segment(q(a), q(b)) {
            prop_assert!(area.mm2().is_finite() && area.mm2() >= 0.0);
        }
    }

    #[test]
    fn runs_are_enough_and_not_one_too_many(total in 1.0_f64..5_000.0, one in 1.0_f64..200.0) {
        let runs = f64::from(runs_for_area(q(total), q(one)).unwrap());
        prop_assert!(runs * one >= total * (1.0 - 1e-8));
        prop_assert!((runs - 1.0) * one < total);
    }

    #[test]
    fn no_run_plan_panics(a in any::<f64>(), b in any::<f64>(), c in any::<f64>()) {
        let finite = |x: f64| if x.is_finite() { x } else { 1.0 };
        let (a, b, c) = (finite(a), finite(b), finite(c));
        if let Ok(runs) = runs_for_area(q(a), q(b)) {
            prop_assert!((1..=10_000).contains(&runs));
        }
        let limit = Some(arcbounds::trade::SizeLimit::AtMost(q(b)));
        if let Ok(plan) = groove_runs(q(a), q(b), q(c), limit, limit) {
            prop_assert!(plan.runs >= plan.by_area);
        }
    }

    #[test]
    fn the_current_comes_back_from_its_feed(
        alpha in 0.05_f64..2.0, beta in 0.0_f64..5e-4, amperes in 20.0_f64..900.0, l in 3.0_f64..60.0
    ) {
        let wire = BurnOff { arc: q(alpha), resistance: q(beta) };
        let feed = wire.feed(q(amperes), q(l)).unwrap();
        prop_assert_eq!(wire.current(feed, q(l)).unwrap(), q(amperes));
        let more = wire.feed(q(amperes * 1.01), q(l)).unwrap();
        prop_assert!(feed.compare(more).is_lt());
        let longer = wire.current(feed, q(l * 1.1)).unwrap();
        prop_assert!(longer.at_most(q(amperes)));
        let rate = specific_melt_rate(q(8.9), feed, q(amperes)).unwrap();
        prop_assert!(rate.g_per_a_h() > 0.0);
    }

    #[test]
    fn an_exact_law_is_found_again_and_its_band_holds_it(
        alpha in 0.1_f64..1.0, beta in 1e-5_f64..2e-4, low in 80.0_f64..200.0, l in 8.0_f64..30.0
    ) {
        let wire = BurnOff { arc: q(alpha), resistance: q(beta) };
        let mut points = Vec::new();
        for current in [low, low * 1.2, low * 1.5] {
            for length in [l, l * 1.3, l * 1.6] {
                let feed = wire.feed(q(current), q(length)).unwrap();
                points.push(BurnOffPoint { feed, current: q(current), stick_out: q(length) });
            }
        }
        for form in [BurnOffForm::Feed, BurnOffForm::FeedPerCurrent] {
            let fit = BurnOffFit::new(&points, form).unwrap();
            prop_assert!((fit.model().arc.mm_per_s_a() / alpha - 1.0).abs() < 1e-6);
            prop_assert!((fit.model().resistance.per_s_a2() / beta - 1.0).abs() < 1e-6);
            let asked = points[4];
            let band = fit.current_band(asked.feed, asked.stick_out).unwrap().band;
            prop_assert!(band.low().at_most(asked.current) && band.high().at_least(asked.current));
        }
    }

    #[test]
    fn no_fit_is_ever_not_a_number(
        raw in prop::collection::vec((0.01_f64..80.0, 1.0_f64..1500.0, 1.0_f64..120.0), 0..8),
        feed in 0.01_f64..80.0, l in 1.0_f64..120.0,
    ) {
        let points: Vec<_> = raw
            .into_iter()
            .map(|(w, i, l)| BurnOffPoint { feed: q(w), current: q(i), stick_out: q(l) })
            .collect();
        for form in [BurnOffForm::Feed, BurnOffForm::FeedPerCurrent] {
            let Ok(fit) = BurnOffFit::new(&points, form) else { continue };
            prop_assert!(fit.model().arc.mm_per_s_a() >= 0.0);
            if let Ok(band) = fit.current_band(q(feed), q(l)) {
                prop_assert!(band.band.low().at_most(band.central));
                prop_assert!(band.band.high().at_least(band.central));
                prop_assert!(band.band.low().amperes() >= 0.0);
            }
        }
    }

    #[test]
    fn an_estimate_is_in_proportion_to_its_length(
        area in 5.0_f64..2_000.0, length in 10.0_f64..1e6, rate in 0.3_f64..15.0,
        eta in 0.3_f64..=1.0, factor in 0.05_f64..=1.0, k in 0.1_f64..10.0
    ) {
        let work = JointWork {
            deposition: q(rate),
            efficiency: q(eta),
            operating_factor: q(factor),
            gas: Use::Amount(Gassing { flow: q(18.0), beyond_arc: None }),
            flux: Use::NotUsed,
            power: Use::Unknown,
        };
        let at = |length: f64| estimate_joint(q(area), q(7.85), q(length), &work).unwrap();
        let (one, other) = (at(length), at(length * k));
        prop_assert_eq!(other.total.arc, q(one.total.arc.seconds() * k));
        prop_assert_eq!(other.per_metre.filler, one.per_metre.filler);
        prop_assert_eq!(one.total.energy, Use::Unknown);
        prop_assert!(one.total.elapsed.at_least(one.total.arc));
        prop_assert!(one.total.filler.at_least(one.total.metal));
    }

    #[test]
    fn a_remedy_never_leaves_what_is_allowed(
        from in 10.0_f64..45.0, low in 10.0_f64..40.0, wide in 0.0_f64..10.0, step in 0.0_f64..5.0,
        raise in any::<bool>()
    ) {
        let direction = if raise { Direction::Raise } else { Direction::Lower };
        let change = Change::<VoltageKind> { direction, step: Step::By(q(step)) };
        let allowed = Range::new(Some(q(low)), Some(q(low + wide))).unwrap();
        if let Some(to) = change.within(q(from), &allowed).unwrap() {
            prop_assert!(to.at_least(q(low)) && to.at_most(q(low + wide)));
            prop_assert_eq!(raise, !to.at_most(q(from)));
            prop_assert_eq!(!raise, !to.at_least(q(from)));
        }
    }
}
