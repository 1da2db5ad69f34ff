//! Windows against brute force: settings drawn at random, judged by the equations themselves.

use std::cell::Cell;

use arcbounds::{
    check::{Force, Settings, Variable},
    quantity::{Kind, Span},
    window::{ConflictSet, Contradiction, Holder, Narrowed, Nearest, Side, Subject},
};
use proptest::{
    prelude::*,
    test_runner::{Config, RngAlgorithm, TestRng, TestRunner},
};

use super::windows_support::{Figures, Follow, SETTINGS, amount, settings};

/// Noise of the logarithms, far below every step.
const NOISE: f64 = 1e-8;

fn figures() -> impl Strategy<Value = Figures> {
    let middle = [4.0..14.0, 18.0..32.0, 120.0..350.0, 150.0..700.0, 12.0..28.0];
    let half = prop::array::uniform5(0.03..0.3_f64);
    let arc = prop::array::uniform3((0.7..1.1_f64, 0.95..1.5_f64, any::<[bool; 2]>()));
    let follow = prop::option::weighted(
        0.5,
        ((0.6..1.1_f64, 0.1..0.5_f64), (0.01..0.08_f64, 0.01..0.08_f64)),
    );
    let spread = prop::sample::select(vec![[0.0, 0.0], [0.05, 0.0], [0.05, 0.1]]);
    (middle, half, arc, follow, spread).prop_map(|(middle, half, arc, follow, spread)| {
        let mut limits: Vec<_> = SETTINGS
            .iter()
            .enumerate()
            .map(|(place, variable)| {
                let (value, half) = (middle[place], half[place]);
                (*variable, Some(value * (1.0 - half)), Some(value * (1.0 + half)))
            })
            .collect();
        let power = middle[1] * middle[2];
        let energy = 0.06 * power / middle[3];
        let values = [
            (Variable::ArcPower, power),
            (Variable::ArcEnergy, energy),
            (Variable::HeatInput, 0.8 * energy),
        ];
        for ((variable, value), (low, high, kept)) in values.into_iter().zip(arc) {
            let end = |share: f64, kept: bool| kept.then_some(value * share);
            limits.push((variable, end(low, kept[0]), end(high, kept[1])));
        }
        let follow = follow.map(|((p, q), (below, above))| Follow {
            through: [middle[0], middle[2], middle[4]],
            exponents: [p, -q],
            band: [below, above],
            feeds: [middle[0] * 0.5, middle[0] * 2.0],
            stick_outs: [6.0, 50.0],
        });
        Figures { limits, spread, follow }
    })
}

/// A uniform draw from a counter, so that a hundred thousand samples cost no strategy.
struct Draw(u64);

impl Draw {
    fn next(&mut self) -> f64 {
        // SplitMix64 (Steele, Lea, Flood 2014).
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^= z >> 31;
        f64::from(u32::try_from(z >> 32).unwrap()) / f64::from(u32::MAX)
    }
}

/// The range of a limit, open ends filled.
fn ends(figures: &Figures, variable: Variable) -> (f64, f64) {
    let limit = figures.limits.iter().find(|limit| limit.0 == variable).unwrap();
    (limit.1.unwrap_or(0.0), limit.2.unwrap_or(f64::INFINITY))
}

/// Whether every limit holds for everything that can follow and everywhere the hand strays, every value
/// multiplied by or divided by `drift` beyond that.
fn holds(figures: &Figures, at: [f64; 5], drift: [f64; 5]) -> bool {
    let [feed, volts, current, speed, out] = at;
    let wide = |value: f64, spread: f64, drift: f64| {
        (value * (1.0 - spread) / drift, value * (1.0 + spread) * drift)
    };
    let feeds = wide(feed, 0.0, drift[0]);
    let volts = wide(volts, 0.0, drift[1]);
    let speeds = wide(speed, figures.spread[0], drift[3]);
    let outs = wide(out, figures.spread[1], drift[4]);
    let currents = match &figures.follow {
        // More feed and less stick-out draw more current.
        Some(follow) => (follow.currents(feeds.0, outs.1).0, follow.currents(feeds.1, outs.0).1),
        None => wide(current, 0.0, drift[2]),
    };
    let power = (volts.0 * currents.0, volts.1 * currents.1);
    let energy = (0.06 * power.0 / speeds.1, 0.06 * power.1 / speeds.0);
    let inside = |variable, (low, high): (f64, f64)| {
        let (min, max) = ends(figures, variable);
        low >= min * (1.0 - NOISE) && high <= max * (1.0 + NOISE)
    };
    let known = figures.follow.is_none_or(|follow| {
        feeds.0 >= follow.feeds[0] * (1.0 - NOISE)
            && feeds.1 <= follow.feeds[1] * (1.0 + NOISE)
            && outs.0 >= follow.stick_outs[0] * (1.0 - NOISE)
            && outs.1 <= follow.stick_outs[1] * (1.0 + NOISE)
    });
    known
        && inside(Variable::WireFeed, feeds)
        && inside(Variable::Voltage, volts)
        && inside(Variable::Current, currents)
        && inside(Variable::TravelSpeed, speeds)
        && inside(Variable::StickOut, outs)
        && inside(Variable::ArcPower, power)
        && inside(Variable::ArcEnergy, energy)
        && inside(Variable::HeatInput, (0.8 * energy.0, 0.8 * energy.1))
}

const STILL: [f64; 5] = [1.0; 5];

/// Usual drift of each setting, to a power: 2 % of what is dialled, 5 % of the rest.
fn drifted(times: f64) -> [f64; 5] {
    [1.02_f64, 1.02, 1.05, 1.05, 1.05].map(|factor| factor.powf(times))
}

/// The middle of what settings say, as figures.
fn plain(figures: &Figures, settings: &Settings) -> [f64; 5] {
    fn middle<K: Kind>(span: Span<K>, spread: f64) -> f64 {
        let [low, high] = [span.low().canonical(), span.high().canonical()];
        if spread > 0.0 { low / (1.0 - spread) } else { f64::midpoint(low, high) }
    }
    [
        middle(settings.wire_feed.unwrap().span, 0.0),
        middle(settings.voltage.unwrap().span, 0.0),
        middle(settings.current.unwrap().span, 0.0),
        middle(settings.travel_speed.unwrap().span, figures.spread[0]),
        middle(settings.stick_out.unwrap().span, figures.spread[1]),
    ]
}

/// The drift that a sample has, by halving.
fn drift_of(figures: &Figures, at: [f64; 5]) -> f64 {
    let (mut low, mut high) = (0.0, 20.0);
    for _ in 0..40 {
        let middle = f64::midpoint(low, high);
        if holds(figures, at, drifted(middle)) {
            low = middle;
        } else {
            high = middle;
        }
    }
    low
}

fn distance(figures: &Figures, a: [f64; 5], b: [f64; 5]) -> f64 {
    let counted = |place: &usize| figures.follow.is_none() || *place != 2;
    (0..5).filter(counted).map(|place| (a[place] / b[place]).ln().powi(2)).sum()
}

/// Samples for each window, so that all windows together see more than 100,000.
const SAMPLES: u32 = 2_500;
const WINDOWS: u32 = 48;

/// Windows from one fixed seed: a failure is repeated by running again.
fn runner() -> TestRunner {
    let rng = TestRng::from_seed(RngAlgorithm::ChaCha, &[7; 32]);
    let config = Config { cases: WINDOWS, failure_persistence: None, ..Config::default() };
    TestRunner::new_with_rng(config, rng)
}

#[test]
fn no_sample_is_better_than_the_answers() {
    let (opened, inside_all) = (Cell::new(0_u32), Cell::new(0_u32));
    let result = runner().run(&(figures(), any::<u64>()), |(figures, seed)| {
        let space = figures.space();
        let mut draw = Draw(seed);
        let from = SETTINGS.map(|variable| {
            let (min, max) = ends(&figures, variable);
            min * (max / min).powf(draw.next() * 1.6 - 0.3)
        });
        let stated = settings(from);
        match space.open(Force::Required) {
            Err(conflict) => {
                for _ in 0..SAMPLES {
                    prop_assert!(!holds(&figures, sample(&figures, &mut draw), STILL));
                }
                irreducible(&figures, &conflict)?;
            }
            Ok(open) => {
                opened.set(opened.get() + 1);
                let narrowed = open.narrow(&stated);
                ends_are_shown(&figures, &narrowed)?;
                let places = open.places(&stated).unwrap();
                let greatest = places.greatest_drift.ratio();
                let start = plain(&figures, &places.starting_point.unwrap().settings);
                prop_assert!(holds(&figures, start, STILL));
                let own = drift_of(&figures, start);
                prop_assert!(own >= greatest * 0.97 - 1e-4, "{own} of {greatest}");
                let (nearest, change) = open.nearest_without_steps(&stated).unwrap();
                prop_assert!(holds(&figures, plain(&figures, &nearest), STILL));
                for _ in 0..SAMPLES {
                    let at = sample(&figures, &mut draw);
                    if !holds(&figures, at, STILL) {
                        continue;
                    }
                    inside_all.set(inside_all.get() + 1);
                    inside(&figures, &narrowed, at)?;
                    prop_assert!(drift_of(&figures, at) <= greatest + 1e-6);
                    let least = change.ratio().powi(2);
                    prop_assert!(distance(&figures, at, from) >= least * (1.0 - 1e-6) - 1e-9);
                }
            }
        }
        Ok(())
    });
    result.unwrap();
    // Both outcomes were met, and plenty of samples were inside.
    assert!((15..=WINDOWS - 5).contains(&opened.get()), "{opened:?} windows were open");
    assert!(inside_all.get() > 1_000, "{inside_all:?} samples were inside");
}

/// A setting drawn from a little more than the boxes.
fn sample(figures: &Figures, draw: &mut Draw) -> [f64; 5] {
    SETTINGS.map(|variable| {
        let (min, max) = ends(figures, variable);
        let (min, max) = (min * 0.99, max * 1.01);
        min * (max / min).powf(draw.next())
    })
}

/// A sample inside all limits lies in every reported interval.
fn inside(figures: &Figures, narrowed: &[Narrowed], at: [f64; 5]) -> Result<(), TestCaseError> {
    for one in narrowed {
        let place = SETTINGS.iter().position(|variable| *variable == one.variable).unwrap();
        let low = one.lowest.as_ref().unwrap().exact.canonical();
        let high = one.highest.as_ref().unwrap().exact.canonical();
        let value = at[place];
        let within = low * (1.0 - NOISE) <= value && value <= high * (1.0 + NOISE);
        prop_assert!(within, "{} {value} {low} {high} {figures:?}", one.variable);
    }
    Ok(())
}

/// Each stated end has a witness with exactly that value which keeps every limit, and lies inward of the
/// exact end.
fn ends_are_shown(figures: &Figures, narrowed: &[Narrowed]) -> Result<(), TestCaseError> {
    for one in narrowed {
        // No setting has steps here.
        prop_assert!(!one.emptied_by_rounding && one.stated().is_some(), "{}", one.variable);
        let place = SETTINGS.iter().position(|variable| *variable == one.variable).unwrap();
        for (end, inward) in [(&one.lowest, 1.0), (&one.highest, -1.0)] {
            let end = end.as_ref().unwrap();
            let (stated, exact) = (end.stated.canonical(), end.exact.canonical());
            prop_assert!((stated - exact) * inward >= -NOISE * exact);
            prop_assert!(!end.binding.is_empty());
            let witness = plain(figures, end.witness.as_ref().unwrap());
            let shown = witness[place] / stated - 1.0;
            prop_assert!(shown.abs() < NOISE, "{} {shown}", one.variable);
            prop_assert!(holds(figures, witness, STILL), "{} {figures:?}", one.variable);
        }
    }
    Ok(())
}

/// The limits of a conflict alone leave nothing, and without any one of them something.
fn irreducible(figures: &Figures, conflict: &ConflictSet) -> Result<(), TestCaseError> {
    let end = |member: &Contradiction| (member.limit.subject, member.limit.side);
    let all: Vec<(Subject, Side)> = conflict.members.iter().map(end).collect();
    prop_assert!(!all.is_empty() && conflict.words.len() > 20);
    let only = |kept: &[(Subject, Side)]| {
        let space = figures.space_without(&|subject, side| !kept.contains(&(subject, side)));
        space.open(Force::Required).is_err()
    };
    prop_assert!(only(&all), "{}", conflict.words);
    // What the data reach is no limit to be left out.
    let data = |member: &&Contradiction| matches!(member.limit.holder, Holder::ResponseData(_));
    let reach: Vec<_> = conflict.members.iter().filter(data).map(end).collect();
    for spare in all.iter().filter(|end| !reach.contains(end)) {
        let rest: Vec<_> = all.iter().copied().filter(|other| other != spare).collect();
        prop_assert!(!only(&rest), "{} spares {spare:?}", conflict.words);
    }
    for member in conflict.members.iter().filter(|member| member.enough) {
        // With the end that it says would be needed, something is left.
        let mut given_way = figures.clone();
        for (variable, min, max) in &mut given_way.limits {
            if member.limit.subject == Subject::Variable(*variable) {
                let needed = member.needed.unwrap().canonical();
                match member.limit.side {
                    Side::Lowest => *min = Some(needed),
                    Side::Highest => *max = Some(needed),
                }
            }
        }
        let ordered =
            given_way.limits.iter().all(|(_, min, max)| min.zip(*max).is_none_or(|(a, b)| a <= b));
        if ordered {
            prop_assert!(given_way.space().open(Force::Required).is_ok(), "{}", conflict.words);
        }
    }
    Ok(())
}

/// On steps of 0.1 m/min and 0.5 V the nearest setting is on a step and no step around it, nor around
/// what is asked for, is nearer, whatever travel speed and stick-out go with it.
#[test]
fn no_neighbour_on_the_lattice_is_nearer() {
    let result = runner().run(&(figures(), any::<u64>()), |(figures, seed)| {
        let mut space = figures.space();
        space.step(Variable::WireFeed, amount(Variable::WireFeed, 0.1));
        space.step(Variable::Voltage, amount(Variable::Voltage, 0.5));
        let mut draw = Draw(seed);
        let from = SETTINGS.map(|variable| {
            let (min, max) = ends(&figures, variable);
            min * (max / min).powf(draw.next() * 1.6 - 0.3)
        });
        let Ok(open) = space.open(Force::Required) else { return Ok(()) };
        let found = match open.nearest(&settings(from)) {
            Nearest::At(place) => Some(plain(&figures, &place.settings)),
            Nearest::NoStepFits => None,
            Nearest::NotDecided => return Err(TestCaseError::fail("not decided")),
        };
        if let Some(at) = found {
            prop_assert!(holds(&figures, at, STILL));
            if holds(&figures, from, STILL) {
                // What keeps every limit is left alone.
                prop_assert!(distance(&figures, at, from) < 1e-9);
                return Ok(());
            }
            for (value, step) in [(at[0], 0.1), (at[1], 0.5)] {
                let steps = value / step;
                prop_assert!((steps - steps.round()).abs() < 1e-6);
            }
            // Where a step fits, no setting is said to have none.
            let mut narrowed = open.narrow(&settings(from)).into_iter();
            prop_assert!(narrowed.all(|one| !one.emptied_by_rounding), "{figures:?}");
        }
        let least = found.map_or(f64::INFINITY, |at| distance(&figures, at, from));
        let middle = found.unwrap_or(from);
        for feed in -4..=4 {
            for volts in -4..=4 {
                let mut at = middle;
                at[0] = (middle[0] / 0.1).round() * 0.1 + f64::from(feed) * 0.1;
                at[1] = (middle[1] / 0.5).round() * 0.5 + f64::from(volts) * 0.5;
                let mut held = space.clone();
                for (variable, value) in [(Variable::WireFeed, at[0]), (Variable::Voltage, at[1])] {
                    let value = Some(amount(variable, value));
                    held.choose(
                        variable,
                        &arcbounds::quantity::AmountRange { min: value, max: value },
                    );
                }
                let Ok(open) = held.open(Force::Required) else { continue };
                let (other, _) = open.nearest_without_steps(&settings(from)).unwrap();
                let other = distance(&figures, plain(&figures, &other), from);
                // Travel speed and stick-out stand in four digits.
                prop_assert!(other.sqrt() >= least.sqrt() - 2e-3, "{other} {least} {figures:?}");
            }
        }
        Ok(())
    });
    result.unwrap();
}
