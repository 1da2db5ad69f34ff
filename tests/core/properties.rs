//! What must hold for any plausible setting: monotony, inverses, finite results, no panic.

use arcbounds::{
    quantity::{Kind, Quantity, Span},
    trade::{
        Coded, Process, RunMetal, TechniqueCase, Waveform, advice, arc_energy_from_averages,
        arc_energy_from_power, arc_energy_span, arc_time, combined_uncertainty,
        current_for_arc_energy, cylinder_mass, deposition_rate, elapsed_time, electrical_stick_out,
        fillet_area, heat_input, leg_band, melt_rate, run_area, run_time, thermal_efficiency,
        travel_speed, travel_speed_for_arc_energy, travel_speed_for_leg, tubular_wire_density,
        visible_stick_out,
    },
};
use proptest::prelude::*;

fn q<K: Kind>(canonical: f64) -> Quantity<K> {
    Quantity::computed(canonical).unwrap()
}

/// Any value in the plausible span of a kind; `lowest` replaces an end at zero or below.
fn any<K: Kind>(lowest: f64) -> impl Strategy<Value = Quantity<K>> {
    let (low, high) = K::INFO.span;
    (low.max(lowest).ln()..high.ln()).prop_map(|log| q(log.exp()))
}

const NOT: Waveform = Waveform::NotControlled;

proptest! {
    #[test]
    fn more_volts_or_amps_never_cool_and_more_speed_never_heats(
        volts in any(0.0), amperes in any(0.0), speed in any(0.0), factor in 1.000_001_f64..10.0
    ) {
        let energy = arc_energy_from_averages(volts, amperes, speed, NOT).unwrap();
        let more_volts = arc_energy_from_averages(q(volts.volts() * factor), amperes, speed, NOT);
        let more_amps = arc_energy_from_averages(volts, q(amperes.amperes() * factor), speed, NOT);
        let faster = q(speed.mm_per_min() * factor);
        let faster = arc_energy_from_averages(volts, amperes, faster, NOT);
        prop_assert!(energy.compare(more_volts.unwrap()).is_lt());
        prop_assert!(energy.compare(more_amps.unwrap()).is_lt());
        prop_assert!(energy.compare(faster.unwrap()).is_gt());
    }

    #[test]
    fn both_inverses_of_arc_energy_come_back(
        volts in any(0.0), amperes in any(0.0), speed in any(0.0)
    ) {
        let energy = arc_energy_from_averages(volts, amperes, speed, NOT).unwrap();
        prop_assert_eq!(travel_speed_for_arc_energy(volts, amperes, energy), Ok(speed));
        prop_assert_eq!(current_for_arc_energy(volts, speed, energy), Ok(amperes));
    }

    #[test]
    fn averages_and_power_agree_for_a_steady_arc(
        volts in any(0.0), amperes in any(0.0), speed in any(0.0)
    ) {
        let power = q(volts.volts() * amperes.amperes());
        let by_averages = arc_energy_from_averages(volts, amperes, speed, NOT).unwrap();
        prop_assert_eq!(arc_energy_from_power(power, speed), Ok(by_averages));
    }

    #[test]
    fn the_span_holds_every_setting_inside(
        volts in any(0.0), amperes in any(0.0), speed in any(0.0),
        wider in 1.0_f64..3.0, at in prop::array::uniform3(0.0_f64..=1.0)
    ) {
        let high = |low: f64| low * wider;
        let between = |low: f64, share: f64| low + (high(low) - low) * share;
        let span = arc_energy_span(
            &Span::new(volts, q(high(volts.volts()))).unwrap(),
            &Span::new(amperes, q(high(amperes.amperes()))).unwrap(),
            &Span::new(speed, q(high(speed.mm_per_min()))).unwrap(),
            NOT,
        ).unwrap();
        let inside = arc_energy_from_averages(
            q(between(volts.volts(), at[0])),
            q(between(amperes.amperes(), at[1])),
            q(between(speed.mm_per_min(), at[2])),
            NOT,
        ).unwrap();
        prop_assert!(inside.at_least(span.low()) && inside.at_most(span.high()));
    }

    #[test]
    fn heat_input_is_never_above_arc_energy(energy in any(0.0), k in 0.01_f64..=1.0) {
        let heat = heat_input(energy, q(k)).unwrap();
        prop_assert!(heat.kj_per_mm() > 0.0 && heat.kj_per_mm() <= energy.kj_per_mm());
    }

    #[test]
    fn length_and_time_come_back_from_speed(length in any(0.0), time in any(0.0)) {
        let speed = travel_speed(length, time).unwrap();
        prop_assert_eq!(run_time(length, speed), Ok(time));
    }

    #[test]
    fn what_is_seen_comes_back_from_the_stick_out(seen in 0.0_f64..60.0, recess in -10.0_f64..20.0) {
        prop_assume!(seen + recess >= 1.0);
        let electrical = electrical_stick_out(q(seen), q(recess)).unwrap();
        let again = visible_stick_out(electrical, q(recess)).unwrap();
        prop_assert!((again.mm() - seen).abs() < 1e-9);
    }

    #[test]
    fn deposition_rises_with_feed_and_stays_below_melting(
        wire in 0.5_f64..100.0, feed in any(0.0), eta in 0.3_f64..=1.0, factor in 1.000_001_f64..10.0
    ) {
        let melted = melt_rate(q(wire), feed).unwrap();
        let deposited = deposition_rate(q(wire), feed, q(eta)).unwrap();
        let more = deposition_rate(q(wire), q(feed.m_per_min() * factor), q(eta)).unwrap();
        prop_assert!(deposited.at_most(melted));
        prop_assert!(deposited.compare(more).is_lt());
    }

    #[test]
    fn a_tubular_wire_lies_between_its_two_densities(
        fill in 0.0_f64..=1.0, sheath in 5.0_f64..9.0, core in 1.0_f64..5.0
    ) {
        let mean = tubular_wire_density(q(fill), q(sheath), q(core)).unwrap();
        prop_assert!(mean.at_most(q(sheath)) && mean.at_least(q(core)));
    }

    #[test]
    fn the_leg_comes_back_from_its_speed(
        leg in 2.0_f64..20.0, feed in 1.0_f64..25.0, diameter in any(0.0), shape in 1.0_f64..=1.2
    ) {
        let density = q(7.85);
        let wire = cylinder_mass(diameter, density).unwrap();
        let metal = RunMetal { wire, feed: q(feed), efficiency: q(0.9), density };
        let speed = travel_speed_for_leg(&metal, q(leg), q(shape)).unwrap();
        let area = run_area(&metal, speed).unwrap();
        prop_assert_eq!(fillet_area(q(leg), q(shape)), Ok(area));
        let band = leg_band(area, &Span::one(q(shape))).unwrap();
        prop_assert_eq!(band.single(), Some(q(leg)));
    }

    #[test]
    fn pauses_never_shorten_a_job(metal in any(0.001), rate in any(0.0), factor in 0.01_f64..=1.0) {
        let arc = arc_time(metal, rate).unwrap();
        prop_assert!(elapsed_time(arc, q(factor)).unwrap().at_least(arc));
    }

    #[test]
    fn a_further_error_never_makes_a_reading_better(
        parts in prop::collection::vec(0.0_f64..0.5, 1..6), more in 0.0_f64..0.5
    ) {
        let mut parts: Vec<_> = parts.into_iter().map(q).collect();
        let before = combined_uncertainty(&parts).unwrap();
        parts.push(q(more));
        let after = combined_uncertainty(&parts).unwrap();
        prop_assert!(after.at_least(before) && after.at_least(q(more)));
    }

    /// Zero, subnormal and huge values included: a result is a finite number or an error.
    #[test]
    fn no_result_is_ever_not_a_number(
        a in prop::num::f64::POSITIVE | prop::num::f64::SUBNORMAL | prop::num::f64::ZERO,
        b in prop::num::f64::POSITIVE | prop::num::f64::SUBNORMAL | prop::num::f64::ZERO,
        c in prop::num::f64::POSITIVE | prop::num::f64::SUBNORMAL | prop::num::f64::ZERO,
    ) {
        let finite = |result: Option<f64>| result.is_none_or(f64::is_finite);
        let energy = arc_energy_from_averages(q(a), q(b), q(c), NOT).ok();
        prop_assert!(finite(energy.map(Quantity::canonical)));
        prop_assert!(finite(travel_speed(q(a), q(b)).ok().map(Quantity::canonical)));
        prop_assert!(finite(tubular_wire_density(q(a), q(b), q(c)).ok().map(Quantity::canonical)));
        prop_assert!(finite(electrical_stick_out(q(a), q(b)).ok().map(Quantity::canonical)));
        let metal = RunMetal { wire: q(a), feed: q(b), efficiency: q(1.0), density: q(c) };
        prop_assert!(finite(run_area(&metal, q(a)).ok().map(Quantity::canonical)));
        let speed = travel_speed_for_leg(&metal, q(c), q(1.1)).ok();
        prop_assert!(finite(speed.map(Quantity::canonical)));
        prop_assert!(finite(arc_time(q(a), q(b)).ok().map(Quantity::canonical)));
        prop_assert!(finite(elapsed_time(q(a), q(b)).ok().map(Quantity::canonical)));
        prop_assert!(finite(combined_uncertainty(&[q(a), q(b)]).ok().map(Quantity::canonical)));
    }
}

/// Advice and factors exist or do not, for every process, without a panic.
#[test]
fn every_process_gets_an_answer() {
    for (process, code) in Process::ALL {
        let case = TechniqueCase {
            process: *process,
            slag: false,
            position: None,
            diameter: None,
            run: None,
        };
        for advice in advice(&case) {
            assert!(!advice.statement.is_empty(), "{code}");
        }
        if let Some((k, _)) = thermal_efficiency(*process) {
            assert!(k.ratio() > 0.0 && k.ratio() <= 1.0, "{code}");
        }
    }
}
