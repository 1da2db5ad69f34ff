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
        area: quantity(area),
        leg: Some(quantity(leg)),
        depth: None,
        length: quantity("1 m"),
        rule: RunRule::None,
        units: UnitSystem::Metric,
        operating_factor: Some(Share::computed(0.5).unwrap()),
    }
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
struct Draw(u64);

impl Draw {
    fn between(&mut self, low: f64, high: f64) -> f64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        let z = u32::try_from((z ^ (z >> 31)) >> 32).unwrap();
        low + (high - low) * f64::from(z) / f64::from(u32::MAX)
    }
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
        let found = layouts(&joint, &models, true);
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
        assert!(laid >= joint.area.mm2() * (1.0 - 1e-9), "{laid} of {area}");
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
    let joint = JointAsked { kind: JointKind::Butt, leg: None, ..fillet("8 mm", "110 mm2") };
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

/// A butt weld is a root, fill runs and a cap; layers of at most 3 mm in 12 mm are four or more.
#[test]
fn a_groove_has_root_fill_and_cap_and_a_run_for_each_layer() {
    let scene = Scene::allowed().with(butt);
    let layer = Some(SizeLimit::AtMost(quantity("3 mm")));
    let limits = PrequalifiedLimits { single_run_fillet: None, root: layer, fill: layer };
    let joint = JointAsked {
        kind: JointKind::Butt,
        leg: None,
        depth: Some(quantity("12 mm")),
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

/// Of two procedures the one with more feed stands first.
#[test]
fn the_shorter_plan_stands_first() {
    let scene = Scene::allowed().with(|scene| {
        all_classes(scene);
        scene.setup.procedure = None;
        scene.setup.work_order = None;
    });
    let mut slow = scene.procedure.clone();
    slow.number = "WPS-0".to_owned();
    slow.runs[0].ranges.travel_speed = Some(range("300 mm/min", "305 mm/min"));
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
