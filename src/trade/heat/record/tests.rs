use super::*;

fn sample(volts: f64, amperes: f64, seconds: f64) -> Sample {
    Sample {
        voltage: Voltage::computed(volts).unwrap(),
        current: Current::computed(amperes).unwrap(),
        duration: Duration::computed(seconds).unwrap(),
    }
}

fn rules(start: f64, crater: f64) -> RecordRules {
    RecordRules {
        arc_on_current: "5 A".parse().unwrap(),
        shortest_pause: "0.5 s".parse().unwrap(),
        arc_start: Duration::computed(start).unwrap(),
        crater: Duration::computed(crater).unwrap(),
        held_from_repeat: None,
    }
}

fn near(got: f64, expected: f64) {
    assert!((got - expected).abs() < 1e-9 * expected.abs().max(1.0), "{got} is not {expected}");
}

/// Own arithmetic: an ideal pulse of 350 A at 32 V for 30 % and 80 A at 20 V for 70 % has
/// 0.3 * 11 200 + 0.7 * 1600 = 4480 W; ten periods of 10 ms are 448 J in 0.1 s.
#[test]
fn a_pulse_has_the_mean_of_its_products() {
    let period = [sample(32.0, 350.0, 0.003), sample(20.0, 80.0, 0.007)];
    let arc = recorded_arc(&period.repeat(10), &rules(0.0, 0.0)).unwrap();
    near(arc.mean_power.watts(), 4480.0);
    near(arc.energy.joules(), 448.0);
    near(arc.arc_time.seconds(), 0.1);
    near(arc.longest_sample.seconds(), 0.007);
}

/// Own arithmetic: open circuit before and after does not count; start 1 s and crater 2 s of the
/// 10 s arc are left out: 7 s at 25 V * 200 A = 5000 W are 35 kJ. The cut falls inside samples.
#[test]
fn open_circuit_arc_start_and_crater_are_left_out() {
    let mut record = vec![sample(70.0, 0.0, 3.0), sample(18.0, 300.0, 0.4)];
    record.extend([sample(25.0, 200.0, 1.6); 6]);
    record.push(sample(70.0, 0.0, 3.0));
    let arc = recorded_arc(&record, &rules(1.0, 2.0)).unwrap();
    near(arc.arc_time.seconds(), 7.0);
    near(arc.mean_power.watts(), 5000.0);
    near(arc.energy.joules(), 35_000.0);
    near(arc.excluded.seconds(), 3.0);
    assert_eq!(arc.ignitions, 1);
}

/// A short circuit at 2 V still carries 300 A: its energy counts. Own arithmetic:
/// 25 * 200 * 0.9 + 2 * 300 * 0.1 = 4560 J in 1 s.
#[test]
fn a_short_circuit_is_part_of_the_arc() {
    let record = [sample(25.0, 200.0, 0.9), sample(2.0, 300.0, 0.1)];
    near(recorded_arc(&record, &rules(0.0, 0.0)).unwrap().energy.joules(), 4560.0);
}

/// Both half-waves of alternating current count, and so does the zero between them. Own arithmetic:
/// (20 * 150 + 0 + 20 * 150) * 0.01 = 60 J in 0.03 s.
#[test]
fn alternating_current_counts_with_its_zero_crossing() {
    let record = [sample(20.0, 150.0, 0.01), sample(0.0, 0.0, 0.01), sample(-20.0, -150.0, 0.01)];
    let arc = recorded_arc(&record, &rules(0.0, 0.0)).unwrap();
    near(arc.energy.joules(), 60.0);
    near(arc.arc_time.seconds(), 0.03);
    assert_eq!(arc.ignitions, 1);
}

/// Two arcs of 4 s with a pause of 1 s: each loses its own start and crater, 1 s in all.
#[test]
fn every_ignition_loses_its_own_start_and_crater() {
    let arc = sample(24.0, 200.0, 4.0);
    let record = [arc, sample(60.0, 0.0, 1.0), arc];
    let got = recorded_arc(&record, &rules(0.5, 0.5)).unwrap();
    assert_eq!(got.ignitions, 2);
    near(got.arc_time.seconds(), 6.0);
    near(got.excluded.seconds(), 2.0);
}

/// Own arithmetic: readings of 4000 W and 6000 W, the second held for three more. Kept, the mean is
/// (4000 + 4 * 6000) / 5 = 5600 W; with held ones left out it is 5000 W, over the same 5 s.
#[test]
fn held_readings_count_in_time_only() {
    let (a, b) = (sample(20.0, 200.0, 1.0), sample(30.0, 200.0, 1.0));
    let record = [a, b, b, b, b];
    let kept = recorded_arc(&record, &rules(0.0, 0.0)).unwrap();
    near(kept.mean_power.watts(), 5600.0);
    let strict = RecordRules { held_from_repeat: 1.try_into().ok(), ..rules(0.0, 0.0) };
    let arc = recorded_arc(&record, &strict).unwrap();
    near(arc.mean_power.watts(), 5000.0);
    near(arc.arc_time.seconds(), 5.0);
    near(arc.held.seconds(), 3.0);
    near(arc.energy.joules(), 25_000.0);
    let lenient = RecordRules { held_from_repeat: 2.try_into().ok(), ..strict };
    near(recorded_arc(&record, &lenient).unwrap().held.seconds(), 2.0);
}

#[test]
fn a_record_without_an_arc_has_no_energy() {
    let off = recorded_arc(&[sample(70.0, 0.0, 1.0)], &rules(0.0, 0.0));
    assert!(matches!(off, Err(RecordError::NoArc { .. })));
    assert!(matches!(recorded_arc(&[], &rules(0.0, 0.0)), Err(RecordError::NoArc { .. })));
    let short = recorded_arc(&[sample(25.0, 200.0, 1.0)], &rules(0.5, 0.5));
    assert_eq!(short, Err(RecordError::NothingLeft { ignitions: 1 }));
    let backwards = [sample(25.0, 200.0, 1.0), sample(25.0, 200.0, 0.0)];
    let refused = recorded_arc(&backwards, &rules(0.0, 0.0));
    assert_eq!(refused, Err(RecordError::NoDuration { index: 1 }));
}

/// The first reading falls into the arc start, the rest repeat it.
#[test]
fn a_stuck_logger_measures_no_power() {
    let record = [sample(25.0, 200.0, 1.0); 4];
    let strict = RecordRules { held_from_repeat: 1.try_into().ok(), ..rules(1.0, 0.0) };
    assert_eq!(recorded_arc(&record, &strict), Err(RecordError::AllHeld));
}

#[test]
fn a_reversed_probe_is_no_negative_energy() {
    let reversed = recorded_arc(&[sample(-25.0, 200.0, 1.0)], &rules(0.0, 0.0));
    assert_eq!(reversed, Err(RecordError::NoPower));
    let dead = recorded_arc(&[sample(0.0, 200.0, 1.0)], &rules(0.0, 0.0));
    assert_eq!(dead, Err(RecordError::NoPower));
}
