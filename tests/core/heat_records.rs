//! What must hold for any sampled record, lead and reading.

use std::num::NonZeroUsize;

use arcbounds::{
    quantity::{Kind, Quantity},
    trade::{
        Accuracy, ArcReadings, Lead, Reading, RecordRules, RunOut, Sample, Waveform,
        arc_energy_of_readings, arc_voltage_behind_leads, heat_input_from_run_out, recorded_arc,
        run_out_for_heat_input,
    },
};
use proptest::prelude::*;

fn q<K: Kind>(canonical: f64) -> Quantity<K> {
    Quantity::computed(canonical).unwrap()
}

fn rules(start: f64, crater: f64, held: Option<NonZeroUsize>) -> RecordRules {
    RecordRules {
        arc_on_current: q(5.0),
        shortest_pause: q(0.5),
        arc_start: q(start),
        crater: q(crater),
        held_from_repeat: held,
    }
}

fn samples() -> impl Strategy<Value = Vec<Sample>> {
    let sample = (0.0_f64..60.0, prop_oneof![Just(0.0), 0.0_f64..400.0], 0.001_f64..0.6);
    let sample = sample.prop_map(|(volts, amperes, seconds)| Sample {
        voltage: q(volts),
        current: q(amperes),
        duration: q(seconds),
    });
    prop::collection::vec(sample, 1..40)
}

proptest! {
    /// Energy is mean power times arc time; what counts and what is excluded is never more than the
    /// record; no reading is above the highest product in it.
    #[test]
    fn a_record_accounts_for_its_time(
        samples in samples(), start in 0.0_f64..1.0, crater in 0.0_f64..1.0, held in 0_usize..3
    ) {
        if let Ok(arc) = recorded_arc(&samples, &rules(start, crater, NonZeroUsize::new(held))) {
            let product = arc.mean_power.watts() * arc.arc_time.seconds();
            prop_assert!((arc.energy.joules() - product).abs() <= 1e-9 * product.abs());
            let whole: f64 = samples.iter().map(|sample| sample.duration.seconds()).sum();
            let accounted = arc.arc_time.seconds() + arc.excluded.seconds();
            prop_assert!(accounted <= whole * (1.0 + 1e-9));
            prop_assert!(arc.held.seconds() <= arc.arc_time.seconds());
            let products = samples.iter().map(|s| s.voltage.volts() * s.current.amperes());
            let highest = products.fold(0.0, f64::max);
            prop_assert!(arc.mean_power.watts() <= highest * (1.0 + 1e-9));
        }
    }

    /// Nothing excluded, nothing held, no pause: the plain sum of products.
    #[test]
    fn a_record_without_gaps_is_a_plain_sum(
        readings in prop::collection::vec((15.0_f64..35.0, 50.0_f64..400.0, 0.001_f64..0.6), 1..40)
    ) {
        let sample = |(volts, amperes, seconds): &(f64, f64, f64)| Sample {
            voltage: q(*volts),
            current: q(*amperes),
            duration: q(*seconds),
        };
        let samples: Vec<_> = readings.iter().map(sample).collect();
        let sum: f64 = readings.iter().map(|(u, i, dt)| u * i * dt).sum();
        let arc = recorded_arc(&samples, &rules(0.0, 0.0, None)).unwrap();
        prop_assert!((arc.energy.joules() / sum - 1.0).abs() < 1e-9);
        prop_assert_eq!(arc.ignitions, 1);
    }

    #[test]
    fn the_run_out_comes_back_from_its_heat_input(
        core in 1.6_f64..8.0, melted in 50.0_f64..500.0, run in 20.0_f64..800.0, share in 0.5_f64..1.9
    ) {
        let electrode = RunOut { core: q(core), melted: q(melted), efficiency: q(share) };
        let heat = heat_input_from_run_out(&electrode, q(run)).unwrap();
        prop_assert_eq!(run_out_for_heat_input(&electrode, heat), Ok(q(run)));
    }

    #[test]
    fn leads_only_ever_lower_the_voltage(
        volts in 15.0_f64..40.0, amperes in 10.0_f64..600.0, metres in 1.0_f64..60.0,
        section in 16.0_f64..120.0
    ) {
        let leads = [Lead { length: q(metres), section: q(section) }; 2];
        if let Ok(got) = arc_voltage_behind_leads(q(volts), q(amperes), &leads) {
            prop_assert!(got.arc_voltage.volts() < volts && got.arc_voltage.volts() > 0.0);
            prop_assert!((got.arc_voltage.volts() + got.drop.volts() - volts).abs() < 1e-9);
        }
    }

    /// The result is never known better than the worst instrument.
    #[test]
    fn no_result_is_better_than_its_instruments(parts in prop::array::uniform3(0.0_f64..0.3)) {
        let readings = ArcReadings {
            voltage: Reading { value: q(24.0), accuracy: Accuracy::of_reading(q(parts[0])) },
            current: Reading { value: q(200.0), accuracy: Accuracy::of_reading(q(parts[1])) },
            speed: Reading { value: q(300.0), accuracy: Accuracy::of_reading(q(parts[2])) },
            waveform: Waveform::NotControlled,
        };
        let relative = arc_energy_of_readings(&readings).unwrap().relative.unwrap().ratio();
        prop_assert!(parts.iter().all(|part| relative >= part - 1e-12));
        prop_assert!(relative <= parts.iter().sum::<f64>() + 1e-12);
    }

    #[test]
    fn no_record_causes_a_panic(
        volts in prop::num::f64::NORMAL, amperes in prop::num::f64::NORMAL,
        seconds in prop::num::f64::POSITIVE | prop::num::f64::ZERO,
    ) {
        let sample = Sample { voltage: q(volts), current: q(amperes), duration: q(seconds) };
        if let Ok(arc) = recorded_arc(&[sample, sample], &rules(0.0, 0.0, None)) {
            prop_assert!(arc.energy.joules().is_finite() && arc.mean_power.watts().is_finite());
        }
    }
}
