//! What must hold for any values: a worse instrument never gives a better answer.

use proptest::prelude::*;

use super::probe::PROBES;
use crate::{
    check::{
        Accuracy, DecisionRule, Finding, Findings, Given, GuardFactor, Origin, Outcome, Settings,
        Tally, Telling, Verdict,
        fixture::{Change, Scene, claim, interval, measured, quantity, range, set},
        record::GasRule,
    },
    qualify::record::{CurrentForm, Layering, Mechanisation, ProductForm, Transfer},
    quantity::{Kind, Quantity, Share, Span},
    trade::{
        BeadPattern, ErrorModel, ErrorSize, Gas, GasGroup, GasMixture, JointKind, Polarity,
        Position, Process, Progression, RunClass, Waveform,
    },
};

/// A relative error of some meaning, or nothing known.
fn accuracy<K: Kind>(share: Option<f64>, model: ErrorModel) -> Accuracy<K> {
    share.map_or(Accuracy::Unknown, |share| {
        Accuracy::Known(model, ErrorSize::OfReading(Share::computed(share).unwrap()))
    })
}

fn read<K: Kind>(canonical: f64, share: Option<f64>, model: ErrorModel) -> Given<K> {
    let span = Span::one(Quantity::computed(canonical).unwrap());
    Given { origin: Origin::Measured, accuracy: accuracy(share, model), ..Given::set(span) }
}

/// The factors on the values of the complete job and the uncertainty of each instrument.
#[derive(Debug, Clone)]
struct Readings {
    factors: [f64; 9],
    shares: [Option<f64>; 9],
    /// What the figures of all of them mean, and how wide the guard bands are.
    model: ErrorModel,
    guard: GuardFactor,
}

fn apply(settings: &mut Settings, readings: &Readings, with_sources: bool) {
    let Readings { factors: f, shares: u, model, .. } = readings;
    settings.voltage = Some(read(26.0 * f[0], u[0], *model));
    settings.current = Some(read(220.0 * f[1], u[1], *model));
    settings.travel_speed = Some(read(350.0 * f[2], u[2], *model));
    settings.stick_out = Some(read(20.0 * f[3], u[3], *model));
    settings.wire_feed = Some(read(8.0 * f[4], u[4], *model));
    if with_sources {
        settings.run_length = Some(read(350.0 * f[5], u[5], *model));
        settings.arc_time = Some(read(60.0, u[6], *model));
        settings.arc_energy = Some(read(0.98 * f[7], u[7], *model));
        settings.arc_power = Some(read(5720.0 * f[8], u[8], *model));
    }
}

fn verdict(readings: &Readings, rule: DecisionRule, with_sources: bool) -> Verdict {
    let scene = Scene { rule, guard: readings.guard, ..Scene::allowed() };
    scene.with(|s| apply(&mut s.setup.settings, readings, with_sources)).verdict()
}

fn share() -> impl Strategy<Value = Option<f64>> {
    prop_oneof![
        4 => (0.0..0.01_f64).prop_map(Some),
        2 => (0.0..0.2_f64).prop_map(Some),
        1 => Just(None)
    ]
}

fn model() -> impl Strategy<Value = ErrorModel> {
    prop_oneof![Just(ErrorModel::Expanded), Just(ErrorModel::Largest)]
}

fn guard() -> impl Strategy<Value = GuardFactor> {
    prop_oneof![
        Just(GuardFactor::ONE),
        (0.1..3.0_f64).prop_map(|factor| GuardFactor::new(factor).unwrap())
    ]
}

/// Changes that the first look at a setup has to see: of choices, of who limits what, and of numbers at an end.
const CHANGES: &[Change] = &[
    |s| s.setup.process = None,
    |s| s.procedure.process = Process::SelfShieldedFluxCored,
    |s| s.procedure.process = Process::ManualMetalArc,
    |s| s.setup.job.joint = Some(JointKind::Butt),
    |s| s.setup.job.position = Some(claim(Position::Pf)),
    |s| s.setup.job.position = None,
    |s| s.procedure.positions.clear(),
    |s| s.setup.job.base_metals[1].group = None,
    |s| s.setup.job.base_metals[0].thickness = Some("24.000000001 mm".parse().unwrap()),
    |s| s.setup.job.base_metals[1].thickness = Some("40 mm".parse().unwrap()),
    |s| s.procedure.thickness = None,
    |s| s.consumable = None,
    |s| s.setup.filler.consumable = None,
    |s| s.procedure.diameters.clear(),
    |s| s.setup.filler.polarity = Some(Polarity::Dcen),
    |s| s.setup.filler.gas = Some(Gas::Group(GasGroup::Z)),
    |s| s.setup.filler.gas = Some(Gas::None),
    |s| {
        let mixture = GasMixture::parse("ArC-20").ok();
        s.procedure.gas = Some(GasRule { groups: vec![GasGroup::M21], mixture });
    },
    |s| {
        let mixture = GasMixture::parse("ArC-20").ok();
        s.setup.filler.gas = mixture.map(Gas::Mixture);
        s.procedure.gas = Some(GasRule { groups: vec![GasGroup::M21], mixture });
    },
    |s| {
        let mixture = GasMixture::parse("ArC-25").ok();
        s.setup.filler.gas = mixture.map(Gas::Mixture);
        s.procedure.gas = Some(GasRule { groups: Vec::new(), mixture });
    },
    |s| s.procedure.gas = Some(GasRule { groups: vec![GasGroup::Z], mixture: None }),
    |s| s.setup.settings.waveform = Some(Waveform::Controlled),
    |s| s.procedure.waveform = None,
    |s| s.setup.settings.bead = Some(BeadPattern::Stringer),
    |s| s.procedure.runs[0].transfer = Some(Transfer::Spray),
    |s| s.setup.settings.transfer = Some(Transfer::Spray),
    |s| s.procedure.runs[0].mechanisation = Some(Mechanisation::Partly),
    |s| s.setup.settings.mechanisation = Some(Mechanisation::Partly),
    |s| s.procedure.runs[0].current_form = Some(CurrentForm::Steady),
    |s| s.setup.settings.current_form = Some(CurrentForm::Pulsed),
    |s| s.procedure.runs[0].progression = Some(Progression::Up),
    |s| s.procedure.layering = Some(Layering::MultiRun),
    |s| s.procedure.deposited_thickness = Some(Box::new(range("8 mm", "24 mm"))),
    |s| s.setup.job.deposited_thickness = Some(quantity("12 mm")),
    |s| s.procedure.forms = vec![ProductForm::Plate],
    |s| s.setup.job.base_metals.iter_mut().for_each(|part| part.form = Some(ProductForm::Plate)),
    |s| s.procedure.outside_diameter = Some(Box::new(range("84.15 mm", ""))),
    |s| s.procedure.runs[0].electrodes = Some(2),
    |s| s.setup.settings.electrodes = Some(2),
    |s| s.procedure.runs[0].backing_gas = Some(Gas::None),
    |s| s.setup.filler.backing_gas = Some(Gas::None),
    |s| s.procedure.runs[0].flux = Some(Box::default()),
    |s| s.setup.job.run_class = Some(RunClass::Single),
    |s| s.procedure.calls_up_data = true,
    |s| s.station = None,
    |s| s.limits().preheat = None,
    |s| s.work_order.as_mut().unwrap().ranges.edit().gas_flow = Some(range("16.5 L/min", "")),
    |s| s.setup.settings.gas_flow = Some(set("18.00000001 L/min")),
    |s| s.setup.settings.preheat = Some(interval("20 °C", "101 °C")),
    |s| s.setup.settings.interpass = None,
    |s| s.setup.settings.work_angle = Some(measured("45 deg", "3 deg")),
    // Last, since others change its parts.
    |s| s.setup.job.base_metals.truncate(1),
    |s| s.setup.job.base_metals.clear(),
];

/// A worse one: larger, or unknown.
fn worsened(share: Option<f64>, by: f64, unknown: bool) -> Option<f64> {
    share.filter(|_| !unknown).map(|share| share + by)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(600))]

    #[test]
    fn a_worse_instrument_never_gives_a_better_verdict(
        factors in proptest::array::uniform9(0.85..1.15_f64),
        close in any::<bool>(),
        shares in proptest::array::uniform9(share()),
        which in 0..9_usize,
        by in 0.0..0.2_f64,
        unknown in any::<bool>(),
        with_sources in any::<bool>(),
        (model, guard) in (model(), guard()),
    ) {
        // Half of the time near the middle, where something is allowed at all.
        let factors = factors.map(|f| if close { 1.0 + (f - 1.0) / 8.0 } else { f });
        let better = Readings { factors, shares, model, guard };
        let mut worse = better.clone();
        worse.shares[which] = worsened(shares[which], by, unknown);
        for rule in [DecisionRule::Simple, DecisionRule::Guarded] {
            let (of_better, of_worse) =
                (verdict(&better, rule, with_sources), verdict(&worse, rule, with_sources));
            prop_assert!(of_worse >= of_better, "{rule}: {of_better} became {of_worse}");
        }
    }

    /// What is plainly met is only counted where nobody reads of it.
    #[test]
    fn what_is_told_changes_nothing_of_what_is_found(
        factors in proptest::array::uniform9(0.7..1.3_f64),
        close in any::<bool>(),
        shares in proptest::array::uniform9(share()),
        read in any::<bool>(),
        with_sources in any::<bool>(),
        (model, guard) in (model(), guard()),
    ) {
        let factors = factors.map(|f| if close { 1.0 + (f - 1.0) / 8.0 } else { f });
        let readings = Readings { factors, shares, model, guard };
        let mut scene = Scene { guard, ..Scene::allowed() };
        apply(&mut scene.setup.settings, &readings, with_sources);
        if !read {
            let settings = &mut scene.setup.settings;
            settings.current.as_mut().unwrap().origin = Origin::Set;
            settings.wire_feed.as_mut().unwrap().origin = Origin::Nominal;
            settings.voltage.as_mut().unwrap().origin = Origin::Set;
        }
        let (tally, mut all) = found(&scene, Telling::Everything);
        all.retain(|finding| finding.mark().needs_something());
        prop_assert_eq!(found(&scene, Telling::WhatNeedsSomething), (tally.clone(), all));
        prop_assert_eq!(found(&scene, Telling::Nothing), (tally, Vec::new()));
    }

    #[test]
    fn a_worse_instrument_never_gives_a_better_outcome_of_one_check(
        row in 0..PROBES.len(),
        at in 0.0..1.0_f64,
        error in 1..100_u32,
        more in 0..100_u32,
    ) {
        let probe = &PROBES[row];
        let (low, high) = (probe.values[0], probe.values[6]);
        let value = probe.text(low + at * (high - low));
        let scale = probe.error / 50.0;
        let outcome = |steps: u32| {
            let error = probe.text(f64::from(steps) * scale);
            probe.only(&Scene::allowed().with(|s| (probe.measure)(s, &value, &error))).outcome
        };
        let rank = |outcome: Outcome| match outcome {
            Outcome::Inside => 0,
            Outcome::EdgeInside => 1,
            _ => 2,
        };
        prop_assert!(rank(outcome(error + more)) >= rank(outcome(error)));
    }

    /// Every instrument is good but one, which gets worse.
    #[test]
    fn one_bad_instrument_among_good_ones_is_noticed(
        factors in proptest::array::uniform9(0.98..1.02_f64),
        which in 0..9_usize,
        from in 0.0..0.03_f64,
        by in 0.0..0.1_f64,
        unknown in any::<bool>(),
        (model, guard) in (model(), guard()),
    ) {
        let mut better = Readings { factors, shares: [Some(0.001); 9], model, guard };
        better.shares[which] = Some(from);
        let mut worse = better.clone();
        worse.shares[which] = worsened(Some(from), by, unknown);
        for rule in [DecisionRule::Simple, DecisionRule::Guarded] {
            let (of_better, of_worse) = (verdict(&better, rule, true), verdict(&worse, rule, true));
            prop_assert!(of_worse >= of_better, "{rule}: {of_better} became {of_worse}");
        }
    }

    #[test]
    fn guarded_acceptance_is_never_more_lenient_than_simple(
        factors in proptest::array::uniform9(0.9..1.1_f64),
        shares in proptest::array::uniform9(share()),
        (model, guard) in (model(), guard()),
    ) {
        let readings = Readings { factors, shares, model, guard };
        let guarded = verdict(&readings, DecisionRule::Guarded, true);
        prop_assert!(guarded >= verdict(&readings, DecisionRule::Simple, true));
    }

    /// A wider guard band is never more lenient either.
    #[test]
    fn a_wider_guard_band_never_gives_a_better_verdict(
        factors in proptest::array::uniform9(0.9..1.1_f64),
        shares in proptest::array::uniform9(share()),
        model in model(),
        (factor, more) in (0.1..1.5_f64, 0.0..1.5_f64),
    ) {
        let guard = |factor| GuardFactor::new(factor).unwrap();
        let narrow = Readings { factors, shares, model, guard: guard(factor) };
        let wide = Readings { guard: guard(factor + more), ..narrow.clone() };
        for rule in [DecisionRule::Simple, DecisionRule::Guarded] {
            prop_assert!(verdict(&wide, rule, true) >= verdict(&narrow, rule, true));
        }
    }

    #[test]
    fn a_narrower_limit_never_gives_a_better_verdict(
        row in 0..PROBES.len(),
        at in 0.0..1.0_f64,
        cut in 0.0..0.5_f64,
    ) {
        let probe = &PROBES[row];
        let (low, high) = probe.ends;
        let value = probe.text(low + at * (high - low));
        let start = Scene::allowed().with(|s| (probe.set)(s, Some(&value)));
        let narrow = start.clone().with(|s| {
            let part = cut * (high - low);
            (probe.limit)(s, &probe.text(low + part), &probe.text(high - part));
        });
        prop_assert!(narrow.verdict() >= start.verdict());
    }
}

/// The same with every two changes that concern what the first look settles.
#[test]
fn a_first_look_changes_nothing_of_what_is_found() {
    for (first, change) in CHANGES.iter().enumerate() {
        for (second, other) in CHANGES.iter().enumerate().skip(first) {
            let scene = Scene::allowed().with(change).with(other);
            let (tally, mut all) = found(&scene, Telling::Everything);
            all.retain(|finding| finding.mark().needs_something());
            let briefly = found(&scene, Telling::WhatNeedsSomething);
            assert_eq!(briefly, (tally, all), "changes {first} and {second}");
        }
    }
}

fn found(scene: &Scene, telling: Telling) -> (Tally, Vec<Finding>) {
    let found = scene.in_case(|case| Findings::of(case, telling));
    (found.tally().clone(), found.into_told())
}

/// Nothing of the complete job can be taken away and leave it allowed, unless it is advice.
#[test]
fn a_setup_that_states_less_is_never_better() {
    let takings: &[fn(&mut Settings)] = &[
        |s| s.current = None,
        |s| s.voltage = None,
        |s| s.wire_feed = None,
        |s| s.travel_speed = None,
        |s| s.stick_out = None,
        |s| s.travel_angle = None,
        |s| s.work_angle = None,
        |s| s.weave_width = None,
        |s| s.preheat = None,
        |s| s.interpass = None,
        |s| s.gas_flow = None,
        |s| s.bead = None,
        |s| *s = Settings::default(),
    ];
    for (index, take) in takings.iter().enumerate() {
        let scene = Scene::allowed().with(|s| take(&mut s.setup.settings));
        assert_eq!(scene.verdict(), Verdict::Undetermined, "{index}");
    }
}

/// Readings that disagree cannot hide behind each other: a limit has to hold for both.
#[test]
fn the_stated_and_the_computed_travel_speed_both_count() {
    let scene = |stated: &str, time: &str| {
        Scene::allowed().with(|s| {
            let settings = &mut s.setup.settings;
            settings.travel_speed = Some(set(stated));
            settings.run_length = Some(set("350 mm"));
            settings.arc_time = Some(set(time));
        })
    };
    assert_eq!(scene("350 mm/min", "60 s").verdict(), Verdict::Allowed);
    // 350 mm in 75 s are 280 mm/min (own arithmetic).
    assert_eq!(scene("350 mm/min", "75 s").verdict(), Verdict::NotAllowed);
    assert_eq!(scene("280 mm/min", "60 s").verdict(), Verdict::NotAllowed);
}
