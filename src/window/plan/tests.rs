//! Plans against samples, and small joints by hand. The scene's wire and procedure are made up.

use super::*;
use crate::{
    check::fixture::{Scene, quantity, range},
    trade::SizeLimit,
    window::{
        HandSpread,
        linear::AXES,
        space::{FEED, SPEED},
    },
};

fn fillet(leg: &str, area: &str) -> JointAsked {
    JointAsked {
        kind: JointKind::Fillet,
        fillet: Some(Fillet::equal(quantity(leg)).unwrap()),
        near: SideAsked { area: quantity(area), depth: None, cap: None },
        far: None,
        length: quantity("1 m"),
        rule: RunRule::None,
        units: UnitSystem::Metric,
        operating_factor: Some(Share::computed(0.5).unwrap()),
    }
}

fn side(area: &str, depth: &str) -> SideAsked {
    SideAsked { area: quantity(area), depth: Some(quantity(depth)), cap: None }
}

fn steady() -> Question {
    Question { spread: HandSpread::none().unwrap(), ..Question::plain().unwrap() }
}

fn plans(scene: &Scene, joint: &JointAsked) -> Vec<ProcedurePlan> {
    joint_plans(&scene.book(), &scene.setup, scene.day, &steady(), joint)
}

fn all_classes(scene: &mut Scene) {
    scene.procedure.runs[0].classes =
        vec![RunClass::Single, RunClass::Root, RunClass::Fill, RunClass::Cap];
}

/// Uniform draws (`SplitMix64`; Steele, Lea, Flood 2014).
pub(in crate::window) struct Draw(pub u64);

impl Draw {
    pub fn between(&mut self, low: f64, high: f64) -> f64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        let z = u32::try_from((z ^ (z >> 31)) >> 32).unwrap();
        low + (high - low) * f64::from(z) / f64::from(u32::MAX)
    }
}

/// What is stated of the runs that lie on others is none of the first run's: a root and a single run have no interpass
/// temperature.
#[test]
fn the_interpass_temperature_of_a_joint_is_that_of_its_later_runs() {
    let scene = Scene::allowed();
    let stated = scene.setup.settings.interpass;
    assert!(stated.is_some());
    let of = |class| {
        let setup = model::setup_of(&scene.setup, &fillet("6 mm", "18 mm2"), (class, None));
        setup.settings.interpass
    };
    assert_eq!([of(RunClass::Root), of(RunClass::Single)], [None, None]);
    assert_eq!([of(RunClass::Fill), of(RunClass::Cap)], [stated, stated]);
}

/// Whatever settings inside the limits are drawn, as many runs of them as the joint needs take no less time
/// than the best layout, and no fewer runs than the fewest.
#[test]
fn no_sampled_settings_fill_the_joint_in_less_time_or_fewer_runs() {
    let scene = Scene::allowed().with(all_classes);
    let mut draw = Draw(7);
    for area in [15.0, 32.0, 75.0, 160.0, 400.0] {
        let joint = fillet("40 mm", &format!("{area} mm2"));
        let models =
            Models::all(&scene.book(), &scene.setup, scene.day, &steady(), &joint).remove(0);
        let found = layouts(&joint, WeldSide::Near, &joint.near, &models, Number::Any);
        let best = found.by_time.first().unwrap();
        let fewest: u32 = found.by_runs[0].groups.iter().map(|group| group.count).sum();
        let model = models.run(RunClass::Fill).unwrap();
        let piece = &model.pieces[0];
        let ends: Vec<_> = (0..AXES).map(|axis| piece.polytope.ends_of(axis).unwrap()).collect();
        let mut inside = 0;
        for _ in 0..20_000 {
            let mut point = [0.0; crate::window::linear::DIM];
            for axis in 0..AXES {
                point[axis] = draw.between(ends[axis].0, ends[axis].1);
            }
            if !piece.polytope.contains(&point) {
                continue;
            }
            inside += 1;
            let one = (model.size.least() + point[FEED] - point[SPEED]).exp();
            let runs = (area / one - 1e-9).ceil().max(1.0);
            let minutes = runs / point[SPEED].exp();
            assert!(minutes >= best.minutes * (1.0 - 0.006), "{area}: {minutes} {best:?}");
            assert!(runs >= f64::from(fewest), "{area}: {runs} runs, not {fewest}");
        }
        assert!(inside > 200, "only {inside} samples were inside");
    }
}

/// What is laid adds up, and so do the times; every setting passes the check.
#[test]
fn a_plan_adds_up_and_passes_the_check() {
    let scene = Scene::allowed().with(all_classes);
    for area in ["20 mm2", "50 mm2", "120 mm2"] {
        let joint = fillet("40 mm", area);
        let plan = plans(&scene, &joint).remove(0);
        let fastest = plan.fastest.unwrap();
        let laid: f64 = fastest.runs.iter().map(|r| f64::from(r.count) * r.area.low().mm2()).sum();
        assert!(laid >= joint.near.area.mm2() * (1.0 - 1e-9), "{laid} of {area}");
        assert!((laid - fastest.laid.mm2()).abs() < 1e-9 * laid);
        let times = fastest.runs.iter().map(|r| f64::from(r.count) * r.arc_time.seconds());
        let time: f64 = times.sum();
        assert!((time - fastest.arc_time.seconds()).abs() < 1e-9 * time);
        assert!((fastest.elapsed.unwrap().seconds() - 2.0 * time).abs() < 1e-9 * time);
        for run in &fastest.runs {
            assert_eq!(run.settings.verdict, Verdict::Allowed, "{:?}", run.settings.unmet);
            let speed = run.settings.settings.travel_speed.unwrap().span;
            // 1 m at v mm/min (own arithmetic: 60 000 / v seconds).
            let seconds = 60_000.0 / speed.low().mm_per_min();
            assert!((run.arc_time.seconds() - seconds).abs() < 1e-6 * seconds);
        }
    }
}

/// 6.0, 6.2 and 6.1 g of metal per metre of wire printed at 6, 8 and 10 m/min: a plan counts the least, 6.0 g/m, with
/// which a run at w m/min and v mm/min has 6.0 * w * 1000 / 7.85 / v = 764.33 w / v mm² (own arithmetic), and the check
/// computes that much at least.
#[test]
fn a_plan_rests_on_printed_rates() {
    let printed = |scene: &mut Scene| {
        all_classes(scene);
        let points = &mut scene.consumable.as_mut().unwrap().data[0].conditions[0].points;
        // 6.0 * 6, 6.2 * 8 and 6.1 * 10 g/min.
        points.change(|points| {
            for (point, rate) in points.iter_mut().zip(["36 g/min", "49.6 g/min", "61 g/min"]) {
                point.deposition_rate = Some(quantity(rate));
            }
        });
    };
    let (scene, plain) = (Scene::allowed().with(printed), Scene::allowed().with(all_classes));
    let mut saved = 0.0;
    for area in ["20 mm2", "50 mm2", "120 mm2"] {
        let joint = fillet("40 mm", area);
        let fastest = plans(&scene, &joint).remove(0).fastest.unwrap();
        for run in &fastest.runs {
            let settings = &run.settings.settings;
            let checked = scene.clone().with(|s| s.setup.settings = settings.clone());
            let figures = checked.in_case(|case| case.figures().clone());
            let crate::check::FigureValue::One(size) = figures.get("run-area").unwrap().value
            else {
                panic!("one feed, one speed, one printed rate")
            };
            assert!(size.canonical() >= run.area.low().mm2() * (1.0 - 1e-9), "{size} {run:?}");
            let ratio = settings.wire_feed.unwrap().span.low().m_per_min()
                / settings.travel_speed.unwrap().span.low().mm_per_min();
            let low = run.area.low().mm2() / ratio;
            assert!((low - 764.33).abs() < 0.01, "{low}");
        }
        // Without rates 5.784 g/m and the 83 % of the least typical efficiency count: never fewer runs.
        let guessed = plans(&plain, &joint).remove(0).fastest.unwrap();
        saved += guessed.arc_time.seconds() - fastest.arc_time.seconds();
        assert!(fastest.count <= guessed.count);
    }
    assert!(saved > 0.0, "{saved} s");
}

/// Usual of this wire are 24 to 28 V (Modern Welding, Goodheart-Willcox 2020, Fig. 8-20). A plan keeps to them where the
/// procedure leaves any of them, though the middle of its volts lies beyond; where it leaves none there is a plan still.
#[test]
fn a_plan_that_keeps_to_what_is_advised_goes_first() {
    let planned = |least: &str, most: &str| {
        let scene = Scene::allowed().with(|scene| {
            all_classes(scene);
            let mut limits = scene.limits();
            limits.voltage = Some(range(least, most));
            (limits.arc_energy, limits.heat_input, limits.arc_power) = (None, None, None);
            drop(limits);
            let condition = &mut scene.consumable.as_mut().unwrap().data[0].conditions[0];
            condition.ranges.edit().voltage = None;
        });
        plans(&scene, &fillet("40 mm", "120 mm2")).remove(0).fastest.unwrap()
    };
    let volts = |plan: &JointPlan| {
        let of = |run: &PlannedRuns| run.settings.settings.voltage.unwrap().span.high().volts();
        plan.runs.iter().map(of).reduce(f64::max).unwrap()
    };
    let some = planned("26 V", "34 V");
    assert_eq!(some.verdict, Verdict::Allowed, "{:?}", some.runs);
    assert!(volts(&some) <= 28.0, "{:?}", some.runs);
    let none = planned("30 V", "34 V");
    assert_eq!(none.verdict, Verdict::AllowedWithAdvice, "{:?}", none.runs);
    assert!(volts(&none) > 30.0, "{:?}", none.runs);
}

/// Own arithmetic: an 8 mm fillet with one run of at most 6 mm: a flat 6 mm run has 18 mm², the joint 32.
#[test]
fn a_leg_beyond_one_run_says_how_many_do() {
    let scene = Scene::allowed().with(all_classes);
    let limits = PrequalifiedLimits {
        single_run_fillet: Some(SizeLimit::AtMost(quantity("6 mm"))),
        root: None,
        fill: None,
    };
    let joint = JointAsked { rule: RunRule::Own(limits), ..fillet("8 mm", "32 mm2") };
    let plan = plans(&scene, &joint).remove(0);
    let why = plan.not_in_one_run.unwrap();
    assert!(why.starts_with("8 mm leg in one run cannot be had: one run may have at most 6 mm."));
    let fastest = plan.fastest.unwrap();
    assert!(fastest.count >= 2);
    for run in &fastest.runs {
        assert_eq!(run.class, RunClass::Fill);
        assert!(run.area.high().mm2() <= 18.0 * (1.0 + 1e-9), "{:?}", run.area);
    }
    let fewest = plan.fewest_runs.as_ref().unwrap_or(&fastest).count;
    let words = ["", "one run", "two runs", "three runs", "four runs"][fewest as usize];
    assert!(why.ends_with(&format!("Instead: {words}.")), "{why}");
}

/// A limit that binds is named, with what one run gives.
#[test]
fn a_leg_that_the_heat_does_not_allow_names_the_limit() {
    let cold = |scene: &mut Scene| {
        all_classes(scene);
        scene.limits().arc_energy = Some(range("0.5 kJ/mm", "1 kJ/mm"));
        scene.limits().travel_speed = Some(range("150 mm/min", "700 mm/min"));
        scene.limits().heat_input = None;
    };
    let scene = Scene::allowed().with(cold);
    let plan = plans(&scene, &fillet("10 mm", "50 mm2")).remove(0);
    let why = plan.not_in_one_run.unwrap();
    for part in ["10 mm leg in one run cannot be had: needs", "arc energy", "One run gives at most"]
    {
        assert!(why.contains(part), "{part}: {why}");
    }
    assert!(plan.fastest.unwrap().count >= 2);
}

/// A size of run is as good as what is known of the wire: nothing is weighed or printed here, then both are.
#[test]
fn a_plan_says_where_the_sizes_of_its_runs_are_known_from() {
    let metal = |change: fn(&mut Scene)| -> Vec<String> {
        let scene = Scene::allowed().with(all_classes).with(change);
        let plan = plans(&scene, &fillet("8 mm", "32 mm2")).remove(0);
        plan.metal.iter().map(ToString::to_string).collect()
    };
    let [mass, efficiency, weld] = &metal(|_| ())[..] else { panic!("{:?}", metal(|_| ())) };
    assert!(mass.contains("estimated, steel sheath"), "{mass}");
    assert!(efficiency.contains("typical of process 136"), "{efficiency}");
    assert_eq!(weld, "weld metal: unalloyed steel, 7.85 g/cm3");
    let weighed = metal(|s| {
        let consumable = s.consumable.as_mut().unwrap();
        consumable.linear_masses = vec![(quantity("1.2 mm"), quantity("6.9 g/m"))];
        consumable.efficiency = Some(quantity("87 %"));
    });
    let said =
        ["mass per length of the wire: measured", "deposition efficiency: as its maker prints"];
    assert_eq!(weighed[..2], said);
    let unknown = metal(|s| s.consumable.as_mut().unwrap().designations.clear());
    assert_eq!(unknown, [""; 0]);
}

/// A run too small by far: its size is said in the units asked for, as the area of the joint is (20000 mm² over
/// 645.16 are 31 in²).
#[test]
fn sizes_of_runs_are_said_in_the_units_asked_for() {
    let scene = Scene::allowed().with(all_classes);
    let joint = JointAsked { units: UnitSystem::Us, fillet: None, ..fillet("8 mm", "20000 mm2") };
    let question = Question { units: UnitSystem::Us, ..steady() };
    let plan = joint_plans(&scene.book(), &scene.setup, scene.day, &question, &joint).remove(0);
    let why = plan.not_in_one_run.unwrap();
    assert!(why.starts_with("31 in2 in one run cannot be had"), "{why}");
    assert!(why.contains(" in2 (the job), where 0.0"), "{why}");
    let reasons = plan.reasons.join(" ");
    assert!(reasons.contains("more than 200 runs; the largest has 0.0"), "{reasons}");
    assert!(reasons.ends_with(" in2") && !reasons.contains("mm2"), "{reasons}");
}

fn butt(scene: &mut Scene) {
    all_classes(scene);
    scene.procedure.joints = vec![JointKind::Butt];
    scene.work_order = None;
    scene.setup.work_order = None;
    scene.setup.job.joint = Some(JointKind::Butt);
}

/// Which runs of a pipe weld are called hot is common practice, no source: the one after the root.
#[test]
fn a_procedure_with_limits_for_a_hot_run_has_one_after_the_root() {
    let joint = JointAsked { kind: JointKind::Butt, fillet: None, ..fillet("8 mm", "110 mm2") };
    let classes = |scene: &Scene| -> Vec<(RunClass, u32)> {
        let plan = plans(scene, &joint).remove(0);
        let fastest = plan.fastest.unwrap_or_else(|| panic!("{:?}", plan.reasons));
        let laid: f64 = fastest.runs.iter().map(|r| f64::from(r.count) * r.area.low().mm2()).sum();
        assert!(laid >= 110.0 * (1.0 - 1e-9), "{laid}");
        for run in &fastest.runs {
            assert_eq!(run.settings.verdict, Verdict::Allowed, "{:?}", run.settings.unmet);
        }
        fastest.runs.iter().map(|run| (run.class, run.count)).collect()
    };
    let without = classes(&Scene::allowed().with(butt));
    assert!(without.iter().all(|(class, _)| *class != RunClass::Hot), "{without:?}");
    let hot = |scene: &mut Scene| {
        butt(scene);
        scene.procedure.runs[0].classes.push(RunClass::Hot);
    };
    let with = classes(&Scene::allowed().with(hot));
    assert_eq!(with[..2], [(RunClass::Root, 1), (RunClass::Hot, 1)], "{with:?}");
    assert_eq!(with.last().unwrap().0, RunClass::Cap);
}

/// 70 mm² stand above the plate, as 2/3 * 50 * 2 = 67 mm² do on a face of 50 mm capped 2 mm high: the cap runs lay
/// that much at least. A face that is flush has the one cap run that it takes least time to lay.
#[test]
fn cap_runs_lay_what_stands_above_the_plate() {
    let scene = Scene::allowed().with(butt);
    let capped = |cap: f64| {
        let cap = Some(Area::computed(cap).unwrap());
        let near = SideAsked { cap, ..side("700 mm2", "40 mm") };
        let joint = JointAsked {
            kind: JointKind::Butt,
            near,
            fillet: None,
            rule: RunRule::None,
            ..fillet("8 mm", "700 mm2")
        };
        let plan = plans(&scene, &joint).remove(0);
        let fastest = plan.fastest.unwrap_or_else(|| panic!("{:?}", plan.reasons));
        let caps = fastest.runs.iter().filter(|runs| runs.class == RunClass::Cap);
        caps.map(|r| f64::from(r.count) * r.area.low().mm2()).sum::<f64>()
    };
    let flush = capped(0.0);
    assert!(flush < 60.0, "the limits must let a cap be smaller for the test to tell: {flush}");
    for above in [70.0, 150.0] {
        let laid = capped(above);
        assert!(laid >= above * (1.0 - 1e-9), "{laid} of {above}");
    }
}

/// Where nothing but the speed is limited, a faster feed would lay more than the joint needs in the same time.
#[test]
fn no_run_is_laid_far_larger_than_the_joint_needs() {
    let scene = Scene::allowed().with(|scene| {
        scene.limits().wire_feed = Some(range("2 m/min", "20 m/min"));
        scene.limits().current = Some(range("50 A", "500 A"));
        scene.limits().heat_input = None;
        scene.work_order = None;
        scene.setup.work_order = None;
        scene.station = None;
        scene.setup.station = None;
    });
    for (leg, area) in [("4 mm", 10.0), ("6 mm", 20.0), ("8 mm", 36.0)] {
        let joint = fillet(leg, &format!("{area} mm2"));
        let plan = plans(&scene, &joint).remove(0);
        let fastest = plan.fastest.unwrap_or_else(|| panic!("{:?}", plan.reasons));
        let laid = fastest.laid.mm2();
        assert!(laid >= area * (1.0 - 1e-9) && laid <= 1.5 * area, "{laid} of {area}");
    }
}

/// A leg that even the smallest runs overfill is no plan: one of the smallest is too much, two lay far more.
#[test]
fn a_joint_smaller_than_its_smallest_runs_is_not_planned() {
    let scene = Scene::allowed();
    let plan = plans(&scene, &fillet("2 mm", "2 mm2")).remove(0);
    assert_eq!((&plan.fastest, &plan.fewest_runs), (&None, &None));
    let why = plan.reasons.join(" ");
    assert!(why.contains("where the joint has 2 mm2: more than half as much again"), "{why}");
}

/// Common practice, no source: the root is a stringer, and what fills the groove above it is woven.
#[test]
fn each_class_is_laid_as_its_limits_allow() {
    use crate::trade::BeadPattern::{Stringer, Weave};
    let joint = JointAsked { kind: JointKind::Butt, fillet: None, ..fillet("8 mm", "110 mm2") };
    let laid = |stated, root: &[_], above: &[_]| {
        let scene = Scene::allowed().with(|scene| {
            butt(scene);
            let mut runs = scene.procedure.runs[0].clone();
            runs.classes = vec![RunClass::Root];
            runs.beads = root.to_vec();
            scene.procedure.runs[0].classes = vec![RunClass::Fill, RunClass::Cap];
            scene.procedure.runs[0].beads = above.to_vec();
            scene.procedure.runs.push(runs);
            scene.setup.settings.bead = stated;
        });
        let plan = plans(&scene, &joint).remove(0);
        let runs = plan.fastest.map(|plan| plan.runs).unwrap_or_default();
        for run in &runs {
            assert_eq!(run.settings.verdict, Verdict::Allowed, "{:?}", run.settings.unmet);
            let is_woven = run.settings.settings.bead == Some(Weave);
            assert_eq!(run.settings.settings.weave_width.is_some(), is_woven);
        }
        let beads = runs.iter().map(|run| run.settings.settings.bead);
        (beads.collect::<Vec<_>>(), plan.obstacles.len())
    };
    let (stringer, weave) = (Some(Stringer), Some(Weave));
    assert_eq!(laid(weave, &[Stringer], &[Weave]), (vec![stringer, weave, weave], 0));
    assert_eq!(laid(None, &[Stringer], &[Stringer, Weave]), (vec![stringer; 3], 0));
    // What is stated stands wherever it is allowed.
    assert_eq!(laid(weave, &[Stringer, Weave], &[Stringer, Weave]), (vec![weave; 3], 0));
    assert_eq!(laid(stringer, &[Stringer, Weave], &[Weave]), (vec![stringer, weave, weave], 0));
}

/// A butt weld is a root, fill runs and a cap; layers of at most 3 mm in 12 mm are four or more.
#[test]
fn a_groove_has_root_fill_and_cap_and_a_run_for_each_layer() {
    let scene = Scene::allowed().with(butt);
    let layer = Some(SizeLimit::AtMost(quantity("3 mm")));
    let limits = PrequalifiedLimits { single_run_fillet: None, root: layer, fill: layer };
    let joint = JointAsked {
        kind: JointKind::Butt,
        near: side("110 mm2", "12 mm"),
        fillet: None,
        rule: RunRule::Own(limits),
        ..fillet("8 mm", "110 mm2")
    };
    let plan = plans(&scene, &joint).remove(0);
    let fastest = plan.fastest.unwrap_or_else(|| panic!("{:?} {:?}", plan.reasons, plan.obstacles));
    let classes: Vec<_> = fastest.runs.iter().map(|run| run.class).collect();
    assert_eq!(classes.first(), Some(&RunClass::Root));
    assert_eq!(classes.last(), Some(&RunClass::Cap));
    assert!(fastest.count >= 4, "{fastest:?}");
    let free = JointAsked { rule: RunRule::None, ..joint };
    let free = plans(&scene, &free).remove(0);
    let count = free.fewest_runs.or(free.fastest).unwrap().count;
    assert!(count <= fastest.count);
}

/// Nothing is planned where a record is missing; what is missing is said.
#[test]
fn what_stands_in_the_way_is_said_and_nothing_planned() {
    let plan = plans(
        &Scene::allowed().with(|s| s.procedure.runs[0].classes = vec![RunClass::Single]),
        &fillet("40 mm", "400 mm2"),
    )
    .remove(0);
    assert!(plan.fastest.is_none());
    assert!(plan.reasons.iter().any(|why| why.contains("no limits for fill runs")), "{plan:?}");
    let wrong_gas = |scene: &mut Scene| {
        all_classes(scene);
        scene.setup.filler.gas = Some(crate::trade::Gas::Group(crate::trade::GasGroup::C1));
    };
    let plan = plans(&Scene::allowed().with(wrong_gas), &fillet("6 mm", "18 mm2")).remove(0);
    assert!(plan.fastest.is_none() && !plan.obstacles.is_empty());
    assert!(
        plans(&Scene::allowed().with(|s| s.procedure.positions.clear()), &fillet("6 mm", "18 mm2"))
            .len()
            <= 1
    );
}

/// AWS A5.20: GS is for single-pass welds (Bohnart, Table 23-2). One run is planned, and several are not.
#[test]
fn a_filler_for_one_run_gets_no_plan_of_several() {
    let scene = Scene::allowed().with(all_classes).with(|s| {
        let class = crate::trade::Designation::parse("E71T-GS").unwrap();
        s.consumable.as_mut().unwrap().designations = vec![class];
    });
    let one = plans(&scene, &fillet("4 mm", "10 mm2")).remove(0);
    assert!(one.obstacles.is_empty());
    assert_eq!(one.fastest.unwrap().runs[0].class, RunClass::Single);
    let several = plans(&scene, &fillet("20 mm", "200 mm2")).remove(0);
    assert!(several.fastest.is_none() && several.fewest_runs.is_none());
    let reason = several.reasons.join(" ");
    assert!(reason.contains("E71T-GS") && reason.contains("single"), "{reason}");
}

/// Of two procedures the one with more feed stands first.
/// What two wires lay is not what one feed says.
#[test]
fn with_several_electrodes_nothing_is_planned_from_one() {
    let several = |stated| {
        let scene = Scene::allowed().with(|s| {
            s.procedure.runs[0].electrodes = Some(2);
            s.setup.settings.electrodes = stated;
        });
        plans(&scene, &fillet("6 mm", "18 mm2")).remove(0)
    };
    let stated = several(Some(2));
    assert!(stated.fastest.is_none() && stated.obstacles.is_empty(), "{:?}", stated.obstacles);
    assert!(stated.reasons.iter().any(|why| why.contains("electrodes")), "{:?}", stated.reasons);
    let open = several(None);
    assert!(open.fastest.is_none());
    assert_eq!(open.obstacles.iter().map(|one| one.check).collect::<Vec<_>>(), ["electrodes"]);
}

#[test]
fn the_shorter_plan_stands_first() {
    let scene = Scene::allowed().with(|scene| {
        all_classes(scene);
        scene.setup.procedure = None;
        scene.setup.work_order = None;
    });
    let mut slow = scene.procedure.clone();
    slow.number = "WPS-0".to_owned();
    slow.runs[0].ranges.edit().travel_speed = Some(range("300 mm/min", "305 mm/min"));
    let mut book = scene.book();
    book.procedures =
        crate::check::Procedures::new([scene.procedure.clone(), slow].map(std::sync::Arc::new));
    let joint = fillet("40 mm", "60 mm2");
    let plans = joint_plans(&book, &scene.setup, scene.day, &steady(), &joint);
    let times: Vec<_> =
        plans.iter().map(|p| p.fastest.as_ref().unwrap().arc_time.seconds()).collect();
    assert_eq!(plans.len(), 2);
    assert!(times[0] <= times[1], "{times:?}");
}

fn both_sides(near: SideAsked, far: SideAsked) -> JointAsked {
    let one = fillet("8 mm", "1 mm2");
    JointAsked { kind: JointKind::Butt, fillet: None, near, far: Some(far), ..one }
}

fn layers(root: &str, fill: &str) -> RunRule {
    let at_most = |layer: &str| Some(SizeLimit::AtMost(quantity(layer)));
    let (root, fill) = (at_most(root), at_most(fill));
    RunRule::Own(PrequalifiedLimits { single_run_fillet: None, root, fill })
}

fn of_side(plan: &JointPlan, side: WeldSide) -> Vec<&PlannedRuns> {
    plan.runs.iter().filter(|run| run.side == Some(side)).collect()
}

fn number(runs: &[&PlannedRuns]) -> u32 {
    runs.iter().map(|run| run.count).sum()
}

/// Both sides of a double V, 25 mm, gap 2 mm, 14 and 9 mm deep under 60 degrees (own arithmetic): 14² tan 30 + 2 * 16 =
/// 145.2 mm² near, 9² tan 30 + 2 * 9 = 64.8 mm² far. What is laid on each side fills that side.
#[test]
fn a_joint_filled_from_both_sides_has_a_root_on_the_near_one_only() {
    let hot = |scene: &mut Scene| {
        butt(scene);
        scene.procedure.runs[0].classes.push(RunClass::Hot);
    };
    let joint = both_sides(side("145.2 mm2", "16 mm"), side("64.8 mm2", "9 mm"));
    let plan = plans(&Scene::allowed().with(hot), &joint).remove(0);
    let fastest = plan.fastest.unwrap_or_else(|| panic!("{:?}", plan.reasons));
    let (near, far) = (of_side(&fastest, WeldSide::Near), of_side(&fastest, WeldSide::Far));
    assert_eq!(near.len() + far.len(), fastest.runs.len());
    assert!(fastest.runs[..near.len()].iter().eq(near.iter().copied()), "near side first");
    let classes = |runs: &[&PlannedRuns]| runs.iter().map(|run| run.class).collect::<Vec<_>>();
    assert_eq!(classes(&near)[..2], [RunClass::Root, RunClass::Hot]);
    assert_eq!(classes(&near).last(), Some(&RunClass::Cap));
    assert_eq!(classes(&far).last(), Some(&RunClass::Cap));
    let begins = [RunClass::Root, RunClass::Hot, RunClass::Single];
    assert!(classes(&far).iter().all(|class| !begins.contains(class)), "{far:?}");
    for (runs, area) in [(&near, 145.2), (&far, 64.8)] {
        let laid: f64 = runs.iter().map(|r| f64::from(r.count) * r.area.low().mm2()).sum();
        assert!(laid >= area * (1.0 - 1e-9), "{laid} of {area}");
    }
    let time = |runs: &[&PlannedRuns]| -> f64 {
        runs.iter().map(|run| f64::from(run.count) * run.arc_time.seconds()).sum()
    };
    let sum = time(&near) + time(&far);
    assert!((fastest.arc_time.seconds() - sum).abs() < 1e-9 * sum);
    assert!((fastest.elapsed.unwrap().seconds() - 2.0 * sum).abs() < 1e-9 * sum);
    assert_eq!(fastest.count, number(&near) + number(&far));
    assert_eq!(fastest.verdict, Verdict::Allowed);
    let fewest = plan.fewest_runs.map_or(fastest.count, |plan| plan.count);
    let words = format!("filled from both sides. Instead: {fewest} runs.");
    assert!(plan.not_in_one_run.unwrap().ends_with(&words), "{words}");
}

/// Common practice, no source: a plate of 9 mm, square, is laid with one run on each side where the procedure has
/// limits for single runs and a layer may be as deep as a side. The runs are those of each side as a joint of its own.
#[test]
fn thin_plate_takes_one_run_on_each_side() {
    let joint = both_sides(side("18 mm2", "5 mm"), side("16 mm2", "4 mm"));
    let laid = |joint: &JointAsked, change: fn(&mut Scene)| {
        let scene = Scene::allowed().with(butt).with(change);
        let plan = plans(&scene, joint).remove(0);
        let fastest = plan.fastest.unwrap_or_else(|| panic!("{:?}", plan.reasons));
        assert_eq!(fastest.verdict, Verdict::Allowed);
        fastest.runs
    };
    let classes = |runs: &[PlannedRuns]| {
        runs.iter().map(|run| (run.class, run.side, run.count)).collect::<Vec<_>>()
    };
    let each = laid(&joint, |_| ());
    let sides = [WeldSide::Near, WeldSide::Far].map(|side| (RunClass::Single, Some(side), 1));
    assert_eq!(classes(&each), sides);
    for (run, asked) in each.iter().zip([joint.near, joint.far.unwrap()]) {
        let alone = laid(&JointAsked { near: asked, far: None, ..joint.clone() }, |_| ());
        assert_eq!((run.area, run.arc_time), (alone[0].area, alone[0].arc_time));
        assert!(run.area.low().mm2() >= asked.area.mm2() * (1.0 - 1e-9));
    }
    let several = |runs: &[PlannedRuns]| classes(runs).iter().all(|run| run.0 != RunClass::Single);
    let without_single = |scene: &mut Scene| {
        scene.procedure.runs[0].classes.retain(|class| *class != RunClass::Single);
    };
    assert!(several(&laid(&joint, without_single)));
    for (root, fill, one_each) in
        [("5 mm", "4 mm", true), ("4 mm", "4 mm", false), ("5 mm", "3 mm", false)]
    {
        let layered = JointAsked { rule: layers(root, fill), ..joint.clone() };
        assert_eq!(!several(&laid(&layered, |_| ())), one_each, "{root} {fill}");
    }
}

/// Own arithmetic: near 16 mm deep with a root layer of 4 mm and fill layers of 1.5 mm is 1 + 12 / 1.5 = 9 layers, far
/// 9 mm in fill layers of 1.5 mm 6. The near side filled alone is planned alike, whatever lies on the far one.
#[test]
fn layers_are_counted_for_each_side() {
    let scene = Scene::allowed().with(|scene| {
        butt(scene);
        scene.procedure.runs[0].classes = vec![RunClass::Root, RunClass::Fill, RunClass::Cap];
    });
    let (near, far) = (side("145.2 mm2", "16 mm"), side("64.8 mm2", "9 mm"));
    let joint = JointAsked { rule: layers("4 mm", "1.5 mm"), ..both_sides(near, far) };
    let both = plans(&scene, &joint).remove(0).fastest.unwrap();
    assert_eq!(number(&of_side(&both, WeldSide::Near)), 9);
    assert_eq!(number(&of_side(&both, WeldSide::Far)), 6);
    let alone =
        plans(&scene, &JointAsked { far: None, ..joint.clone() }).remove(0).fastest.unwrap();
    assert_eq!(alone.count, 9);
    for (run, of_both) in alone.runs.iter().zip(of_side(&both, WeldSide::Near)) {
        let here = PlannedRuns { side: Some(WeldSide::Near), ..run.clone() };
        assert_eq!(&here, of_both);
    }
    // A thicker root layer saves layers of the near side, 1 + 10 / 1.5, and none of the far one.
    let thick = JointAsked { rule: layers("6 mm", "1.5 mm"), ..joint.clone() };
    let thick = plans(&scene, &thick).remove(0);
    let fewest = thick.fewest_runs.unwrap();
    assert_eq!(number(&of_side(&fewest, WeldSide::Near)), 8);
    assert_eq!(number(&of_side(&fewest, WeldSide::Far)), 6);
    // One more run on the near side leaves its runs some drift.
    let fastest = thick.fastest.unwrap();
    assert_eq!(number(&of_side(&fastest, WeldSide::Near)), 9);
    let steadier = |plan: &JointPlan| {
        let drifts = plan.runs.iter().map(|run| run.settings.drift.ratio());
        drifts.reduce(f64::min).unwrap()
    };
    assert!(steadier(&fewest) < 0.096 && steadier(&fastest) >= 0.096);
}

/// A back run of less than one run is one run: its cap.
#[test]
fn a_little_on_the_far_side_is_one_run() {
    let joint = both_sides(side("93.7 mm2", "12 mm"), side("15 mm2", "3 mm"));
    let joint = JointAsked { rule: layers("4 mm", "3 mm"), ..joint };
    let plan = plans(&Scene::allowed().with(butt), &joint).remove(0).fastest.unwrap();
    let far = of_side(&plan, WeldSide::Far);
    assert_eq!((far.len(), far[0].class, far[0].count), (1, RunClass::Cap, 1));
}

/// What a side lacks is said of that side.
#[test]
fn reasons_name_the_side() {
    let scene = Scene::allowed().with(|scene| {
        butt(scene);
        scene.procedure.runs[0].classes = vec![RunClass::Single, RunClass::Fill, RunClass::Cap];
    });
    let joint = both_sides(side("145.2 mm2", "16 mm"), side("64.8 mm2", "9 mm"));
    let plan = plans(&scene, &joint).remove(0);
    assert_eq!(plan.fastest, None);
    let [why] = &plan.reasons[..] else { panic!("{:?}", plan.reasons) };
    assert!(why.starts_with("near side: ") && why.ends_with("no limits for root runs"), "{why}");
    let why = plan.not_in_one_run.unwrap();
    assert!(why.ends_with("it is filled from both sides."), "{why}");
}

/// Cross-section and travel speed of settings inside the limits.
fn sampled(model: &model::RunModel, draw: &mut Draw) -> Vec<(f64, f64)> {
    let piece = &model.pieces[0];
    let ends: Vec<_> = (0..AXES).map(|axis| piece.polytope.ends_of(axis).unwrap()).collect();
    let mut inside = Vec::new();
    for _ in 0..20_000 {
        let mut point = [0.0; crate::window::linear::DIM];
        for axis in 0..AXES {
            point[axis] = draw.between(ends[axis].0, ends[axis].1);
        }
        if piece.polytope.contains(&point) {
            let area = (model.size.least() + point[FEED] - point[SPEED]).exp();
            inside.push((area, point[SPEED].exp()));
        }
    }
    assert!(inside.len() > 200, "only {} samples were inside", inside.len());
    inside
}

/// Runs of drawn settings, a kind of its own for root, fill and cap of each side, as many fill runs as the side
/// needs: none take less time than the best layouts of both sides, nor fewer runs than the fewest. Sizes of root and
/// cap are tried in steps of 7 % here, which may cost 2 % of the time.
#[test]
fn no_sampled_runs_fill_both_sides_in_less_time_or_fewer_runs() {
    let scene = Scene::allowed().with(butt);
    let mut draw = Draw(11);
    for (near, far) in [(145.2, 64.8), (60.0, 60.0), (93.7, 24.0), (300.0, 110.0)] {
        let square = |area: f64| side(&format!("{area} mm2"), "9 mm");
        let joint = both_sides(square(near), square(far));
        let models =
            Models::all(&scene.book(), &scene.setup, scene.day, &steady(), &joint).remove(0);
        let mut minutes = 0.0;
        let mut fewest = 0;
        for (side, asked) in [(WeldSide::Near, joint.near), (WeldSide::Far, joint.far.unwrap())] {
            let found = layouts(&joint, side, &asked, &models, Number::Several);
            minutes += found.by_time[0].minutes;
            fewest += found.by_runs[0].groups.iter().map(|group| group.count).sum::<u32>();
        }
        let points = sampled(models.run(RunClass::Fill).unwrap(), &mut draw);
        let last = f64::from(u32::try_from(points.len() - 1).unwrap());
        for _ in 0..20_000 {
            let mut any = || {
                #[expect(
                    clippy::cast_possible_truncation,
                    clippy::cast_sign_loss,
                    reason = "an index"
                )]
                let index = draw.between(0.0, last) as usize;
                points[index]
            };
            let (mut sampled, mut runs) = (0.0, 0.0);
            for (area, root) in [(near, 1.0), (far, 0.0)] {
                let (first, fill, cap) = (any(), any(), any());
                let rest = area - root * first.0 - cap.0;
                let fills = (rest / fill.0 - 1e-9).ceil().max(0.0);
                sampled += root / first.1 + fills / fill.1 + 1.0 / cap.1;
                runs += root + fills + 1.0;
            }
            assert!(sampled >= minutes * 0.98, "{near} {far}: {sampled} {minutes}");
            assert!(runs >= f64::from(fewest), "{near} {far}: {runs} runs, not {fewest}");
        }
    }
}
