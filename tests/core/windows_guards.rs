//! Errors of instruments against brute force: settings drawn at random, read with the worst errors at every corner.

use arcbounds::{
    check::{Force, GuardFactor, Settings, Variable, record::InstrumentAccuracy},
    quantity::{Share, Span},
    window::{Guard, LimitKind, Space},
};
use proptest::prelude::*;

use super::windows_support::{Figures, Limit, SETTINGS, amount};

/// Noise of the logarithms.
const NOISE: f64 = 1e-8;

/// One instrument: what it reads, share of the reading or error at every reading as a share of the middle.
type Instrument = (usize, bool, f64);

#[derive(Debug, Clone)]
struct Scene {
    figures: Figures,
    instruments: Vec<Instrument>,
    middle: [f64; 5],
}

fn scenes() -> impl Strategy<Value = Scene> {
    let middle = [4.0..14.0, 18.0..32.0, 120.0..350.0, 150.0..700.0, 12.0..28.0];
    let instrument = (0_usize..5, any::<bool>(), 0.001..0.06_f64);
    let instruments = prop::collection::vec(instrument, 1..5);
    let spread = prop::sample::select(vec![[0.0, 0.0], [0.03, 0.05]]);
    (middle, 0.15..0.4_f64, prop::option::of(0.9..1.2_f64), instruments, spread).prop_map(
        |(middle, half, energy, instruments, spread)| {
            let boxed = |place: usize| -> Limit {
                let value = middle[place];
                (SETTINGS[place], Some(value * (1.0 - half)), Some(value * (1.0 + half)))
            };
            let mut limits: Vec<_> = (0..5).map(boxed).collect();
            let usual = 0.06 * middle[1] * middle[2] / middle[3];
            limits.extend(energy.map(|share| (Variable::ArcEnergy, None, Some(usual * share))));
            let figures = Figures { limits, spread, follow: None };
            Scene { figures, instruments, middle }
        },
    )
}

impl Scene {
    fn space(&self) -> Space {
        let mut space = self.figures.space();
        for (place, of_reading, size) in &self.instruments {
            let accuracy = if *of_reading {
                let of = amount(SETTINGS[*place], self.middle[*place]).kind();
                InstrumentAccuracy::OfReading { share: Share::computed(*size).unwrap(), of }
            } else {
                let fixed = size * self.middle[*place];
                InstrumentAccuracy::Absolute(amount(SETTINGS[*place], fixed))
            };
            space.guard(&Guard { variable: SETTINGS[*place], accuracy }, GuardFactor::ONE);
        }
        space
    }

    /// The widest error of a reading.
    fn error(&self, place: usize, reading: f64) -> f64 {
        let own = self.instruments.iter().filter(|(of, _, _)| *of == place);
        own.map(|(_, of_reading, size)| {
            size * if *of_reading { reading } else { self.middle[place] }
        })
        .fold(0.0, f64::max)
    }

    /// Lowest and highest true value of a setting that is aimed at.
    fn true_values(&self, place: usize, aim: f64) -> (f64, f64) {
        let spread = match place {
            3 => self.figures.spread[0],
            4 => self.figures.spread[1],
            _ => 0.0,
        };
        let (low, high) = (aim * (1.0 - spread), aim * (1.0 + spread));
        (low - self.error(place, low), high + self.error(place, high))
    }

    /// Whether each single limit holds for every true value.
    fn is_boxed(&self, place: usize, aim: f64) -> bool {
        let (low, high) = self.true_values(place, aim);
        let (_, min, max) = self.figures.limits[place];
        low >= min.unwrap() * (1.0 - NOISE) && high <= max.unwrap() * (1.0 + NOISE)
    }

    /// The most energy of the settings, as a share of its limit; zero without one.
    fn energy(&self, at: [f64; 5]) -> f64 {
        let Some((_, _, Some(most))) = self.figures.limits.get(5) else { return 0.0 };
        let [volts, amperes, speed] = [1, 2, 3].map(|place| self.true_values(place, at[place]));
        0.06 * volts.1 * amperes.1 / speed.0 / most
    }

    fn holds(&self, at: [f64; 5]) -> bool {
        (0..5).all(|place| self.is_boxed(place, at[place])) && self.energy(at) <= 1.0 + NOISE
    }
}

fn at_of(settings: &Settings, spread: [f64; 2]) -> [f64; 5] {
    fn aim<K: arcbounds::quantity::Kind>(span: Span<K>, spread: f64) -> f64 {
        let (low, high) = (span.low().canonical(), span.high().canonical());
        if spread > 0.0 { low / (1.0 - spread) } else { f64::midpoint(low, high) }
    }
    [
        aim(settings.wire_feed.unwrap().span, 0.0),
        aim(settings.voltage.unwrap().span, 0.0),
        aim(settings.current.unwrap().span, 0.0),
        aim(settings.travel_speed.unwrap().span, spread[0]),
        aim(settings.stick_out.unwrap().span, spread[1]),
    ]
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 96, failure_persistence: None, ..ProptestConfig::default() })]

    /// No setting that is answered fails at any corner of the errors; each end of a setting that only its own limits
    /// bind is tight; and of what holds, only settings as close to the energy limit as its gap are left out.
    #[test]
    fn no_reading_inside_fails_and_ends_are_tight(scene in scenes(), seeds in prop::array::uniform5(0.0..1.0_f64)) {
        let space = scene.space();
        let Ok(open) = space.open(Force::Required) else {
            // Half a box is wider than the errors and the hand together, so that only the energy leaves nothing.
            prop_assert!(scene.figures.limits.len() > 5, "{scene:?}");
            return Ok(());
        };
        let limits = space.limits();
        let of_energy = limits.iter().find(|one| one.subject.to_string() == "arc energy");
        for limit in limits.iter().filter(|limit| Some(*limit) != of_energy) {
            prop_assert_eq!(limit.kind, LimitKind::ExactLinear);
        }
        let gap = of_energy.and_then(|limit| limit.gap).map_or(0.0, Share::ratio);
        let narrowed = open.narrow(&Settings::default());
        prop_assert_eq!(narrowed.len(), 5);
        for (place, one) in narrowed.iter().enumerate() {
            for (end, outward) in [(&one.lowest, -1.0), (&one.highest, 1.0)] {
                let end = end.as_ref().unwrap();
                let exact = end.exact.canonical();
                prop_assert!(scene.is_boxed(place, exact), "{} {exact} {scene:?}", one.variable);
                if !end.binding.iter().any(|limit| limit.subject.to_string() == "arc energy") {
                    let beyond = exact * (1.0 + outward * 1e-6);
                    prop_assert!(!scene.is_boxed(place, beyond), "{} {exact} {scene:?}", one.variable);
                }
                if let Some(witness) = &end.witness {
                    let at = at_of(witness, scene.figures.spread);
                    prop_assert!(scene.holds(at), "{at:?} {scene:?}");
                }
            }
        }
        // A setting drawn from all that the boxes allow: held by the window exactly where it holds, but for the gap.
        let draw = |place: usize| {
            let (_, min, max) = scene.figures.limits[place];
            min.unwrap() * (max.unwrap() / min.unwrap()).powf(seeds[place])
        };
        let at = [0, 1, 2, 3, 4].map(draw);
        let mut held = space.clone();
        for (place, value) in at.iter().enumerate() {
            let value = amount(SETTINGS[place], *value);
            let within = narrowed[place].lowest.as_ref().zip(narrowed[place].highest.as_ref()).is_some_and(
                |(low, high)| (low.exact.canonical()..=high.exact.canonical()).contains(&value.canonical()),
            );
            if !within {
                // Shown above: its own limits, or the energy, keep it out.
                return Ok(());
            }
            let range = arcbounds::quantity::AmountRange { min: Some(value), max: Some(value) };
            if scene.figures.spread == [0.0, 0.0] {
                held.choose(SETTINGS[place], &range);
            }
        }
        if scene.figures.spread == [0.0, 0.0] {
            let is_held = held.open(Force::Required).is_ok();
            prop_assert!(!is_held || scene.holds(at), "{at:?} {scene:?}");
            if !is_held && scene.holds(at) {
                prop_assert!(scene.energy(at) * (1.0 + gap) >= 1.0 - NOISE, "{at:?} {gap} {scene:?}");
            }
        }
    }
}
