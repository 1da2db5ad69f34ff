//! Load voltage, duty cycle and characteristics against exam questions, a glossary, a manual and own
//! arithmetic.

use arcbounds::{
    quantity::{Current, Kind, Quantity, Share},
    trade::{
        Coded, CurrentUse, DutyPoint, LinearCharacteristic, LoadFamily, OperatingPoint,
        PowerSourceError, Process, RatingPlate, arc_on_time, conventional_load_voltage,
        current_by_constant_heating, duty_by_constant_heating, equivalent_current,
        linear_characteristic, load_family,
    },
};
use proptest::prelude::*;

use super::published::{assert_near, q};

fn computed<K: Kind>(canonical: f64) -> Quantity<K> {
    Quantity::computed(canonical).unwrap()
}

fn near<K: Kind>(id: &str, got: Quantity<K>, expected: f64, relative: f64) {
    assert_near(id, got, computed(expected), relative);
}

fn point(current: &str, duty: &str) -> DutyPoint {
    DutyPoint { current: q(current), duty: q(duty) }
}

fn family(process: &str) -> LoadFamily {
    load_family(Process::from_code(process).unwrap()).unwrap()
}

/// IEC 60974-1, 11.2, from memory; numbers own arithmetic.
#[test]
fn load_voltages() {
    use LoadFamily::{PlasmaCutting, PlasmaGouging};
    for (line, amperes, volts) in [
        (family("111"), 150.0, 26.0),
        (family("111"), 250.0, 30.0),
        (family("111"), 315.0, 32.6),
        (family("111"), 700.0, 44.0),
        (family("121"), 600.0, 44.0),
        (family("141"), 100.0, 14.0),
        (family("141"), 250.0, 20.0),
        (family("141"), 600.0, 34.0),
        (family("141"), 700.0, 34.0),
        (family("135"), 150.0, 21.5),
        (family("135"), 250.0, 26.5),
        (family("135"), 400.0, 34.0),
        (family("136"), 500.0, 39.0),
        (family("114"), 600.0, 44.0),
        (family("15"), 150.0, 31.0),
        (family("15"), 600.0, 49.0),
        (PlasmaCutting, 60.0, 104.0),
        (PlasmaCutting, 165.0, 146.0),
        (PlasmaCutting, 200.0, 150.0),
        (PlasmaGouging, 100.0, 140.0),
        (PlasmaGouging, 300.0, 220.0),
        (PlasmaGouging, 400.0, 220.0),
    ] {
        let got = conventional_load_voltage(line, computed(amperes)).unwrap();
        near(&format!("{line} {amperes}"), got, volts, 1e-9);
    }
    assert_eq!(load_family(Process::PlasmaMig), None);
    let none = conventional_load_voltage(LoadFamily::Wire, computed(0.0));
    assert!(matches!(none, Err(PowerSourceError::OutOfRange(_))));
}

/// American Welding Society online glossary, duty cycle: 300 A at 60 % is 6 min on in 10.
#[test]
fn minutes_of_arc() {
    assert_eq!(arc_on_time(q("60 %")), Ok(q("6 min")));
    assert!(matches!(arc_on_time(q("120 %")), Err(PowerSourceError::OutOfRange(_))));
}

/// Power-source operating manual, section 2.06 (publisher not named): 400 A at 25 % is 282.8 A at
/// 50 %. The other rows are own arithmetic.
#[test]
fn law_of_constant_heating() {
    for (id, current, duty, wanted, expected) in [
        ("PS-04", "400 A", "25 %", "50 %", 282.8),
        ("D3", "300 A", "60 %", "100 %", 232.4),
        ("D4", "400 A", "40 %", "60 %", 326.6),
        ("D4", "400 A", "40 %", "100 %", 253.0),
        ("D6", "500 A", "35 %", "60 %", 381.9),
    ] {
        let got = current_by_constant_heating(&point(current, duty), q(wanted)).unwrap();
        near(id, got, expected, 5e-4);
    }
    for (id, current, duty, used, expected) in [
        ("D1", "300 A", "60 %", "250 A", 0.8640),
        ("D2", "300 A", "60 %", "350 A", 0.4408),
        ("D5", "400 A", "40 %", "315 A", 0.6450),
        ("D6", "500 A", "35 %", "400 A", 0.5469),
        ("at most all of the time", "300 A", "60 %", "100 A", 1.0),
    ] {
        let got = duty_by_constant_heating(&point(current, duty), q(used)).unwrap();
        near(id, got, expected, 5e-4);
    }
}

/// Own arithmetic: 350 A 40 %, 290 A 60 %, 230 A 100 %. At 300 A 40 % * (350/300)^2 = 54.44 %; at
/// 240 A 60 % * (290/240)^2 = 87.60 %; at 291 A 40 % * (350/291)^2 =
/// 57.87 %. Below 230 A 100 % stays; above 350 A there is none.
#[test]
fn duty_only_between_points_of_the_plate() {
    let plate = RatingPlate::new(vec![
        point("290 A", "60 %"),
        point("350 A", "40 %"),
        point("230 A", "100 %"),
    ]);
    let plate = plate.unwrap();
    for (current, duty) in [
        ("350 A", 0.40),
        ("300 A", 0.544_4),
        ("291 A", 0.578_7),
        ("290 A", 0.60),
        ("240 A", 0.876_0),
        ("230 A", 1.0),
        ("100 A", 1.0),
    ] {
        near(current, plate.duty_at(q(current)).unwrap(), duty, 5e-4);
    }
    let above = plate.duty_at(q("351 A"));
    assert_eq!(
        above,
        Err(PowerSourceError::AboveRating { given: q("351 A"), highest: q("350 A") })
    );
    // 350 A * sqrt(40/50) = 313.0 A; 35 % is within the highest point, which is not exceeded.
    near("50 %", plate.current_at(q("50 %")).unwrap(), 313.0, 5e-4);
    near("60 %", plate.current_at(q("60 %")).unwrap(), 290.0, 1e-9);
    near("35 %", plate.current_at(q("35 %")).unwrap(), 350.0, 1e-9);
}

/// One point says nothing about more duty, and less current is only known to bear the same.
#[test]
fn a_plate_is_not_extrapolated() {
    let plate = RatingPlate::new(vec![point("400 A", "25 %")]).unwrap();
    let above = plate.current_at(q("50 %"));
    assert_eq!(above, Err(PowerSourceError::AboveDuty { given: q("50 %"), highest: q("25 %") }));
    assert_eq!(plate.duty_at(q("200 A")), Ok(q("25 %")));
    assert_eq!(RatingPlate::new(vec![]), Err(PowerSourceError::NoPoint));
    let odd = RatingPlate::new(vec![point("400 A", "60 %"), point("300 A", "40 %")]);
    assert!(matches!(odd, Err(PowerSourceError::Inconsistent { .. })));
    let twice = RatingPlate::new(vec![point("400 A", "60 %"), point("400 A", "40 %")]);
    assert!(matches!(twice, Err(PowerSourceError::Inconsistent { .. })));
}

/// Own arithmetic: 200 A for 4 min and 300 A for 2 min in 10: sqrt((160000 + 180000)/10) = 184.4 A.
#[test]
fn mixed_use_as_one_current() {
    let of = |current, time| CurrentUse { current: q(current), time: q(time) };
    let got = equivalent_current(&[of("200 A", "4 min"), of("300 A", "2 min")]).unwrap();
    near("D7", got, 184.4, 5e-4);
    let long = equivalent_current(&[of("200 A", "6 min"), of("100 A", "5 min")]);
    assert_eq!(long, Err(PowerSourceError::LongerThanPeriod { given: q("11 min") }));
    assert_eq!(equivalent_current(&[]), Err(PowerSourceError::NoPoint));
}

fn at(volts: f64, amperes: f64) -> OperatingPoint {
    OperatingPoint { voltage: computed(volts), current: computed(amperes) }
}

/// Ghosh and Mallik, Manufacturing Science, problem on p. 285 (same data in GATE ME 1989): 80 V open
/// circuit, 1000 A short circuit: most arc power 20 kW (printed); 40 V and 500 A own arithmetic.
#[test]
fn most_power_of_a_drooping_source() {
    let source = LinearCharacteristic { open_circuit: q("80 V"), short_circuit: q("1000 A") };
    let (point, power) = source.most_power().unwrap();
    near("PS-01", power, 20_000.0, 1e-9);
    assert_eq!(point, at(40.0, 500.0));
    near("PS-01", source.current_at(q("40 V")).unwrap(), 500.0, 1e-9);
    let above = source.current_at(q("81 V"));
    assert!(matches!(above, Err(PowerSourceError::AboveOpenCircuit { .. })));
}

/// GATE 2016, Mechanical Engineering, question 160: arc V = 100 + 40*l, 1 mm at 250 A and 2 mm at
/// 200 A; short-circuit current 425 A (answer range 423 to 428). GATE 2014, Mechanical Engineering,
/// set 4: V = 20 + 5*l, 5 mm at 500 A and 7 mm at 400 A; 95 V and 950 A (third option).
#[test]
fn characteristics_through_two_arcs() {
    let got = linear_characteristic(&at(140.0, 250.0), &at(180.0, 200.0)).unwrap();
    near("PS-02", got.short_circuit, 425.0, 1e-9);
    let got = linear_characteristic(&at(45.0, 500.0), &at(55.0, 400.0)).unwrap();
    near("PS-03", got.open_circuit, 95.0, 1e-9);
    near("PS-03", got.short_circuit, 950.0, 1e-9);
    for (one, other) in [((20.0, 200.0), (30.0, 300.0)), ((20.0, 200.0), (20.0, 300.0))] {
        let rising = linear_characteristic(&at(one.0, one.1), &at(other.0, other.1));
        assert_eq!(rising, Err(PowerSourceError::NotDrooping));
    }
}

proptest! {
    #[test]
    fn duty_and_current_come_back_from_each_other(
        amperes in 20.0_f64..1000.0, duty in 0.1_f64..=0.9, factor in 1.0_f64..3.0
    ) {
        let rated = DutyPoint { current: computed(amperes), duty: computed(duty) };
        let wanted: Share = computed((duty * factor).min(1.0));
        let current = current_by_constant_heating(&rated, wanted).unwrap();
        prop_assert_eq!(duty_by_constant_heating(&rated, current), Ok(wanted));
    }

    /// More current never has more duty, no plate point is exceeded, and the current found for a duty
    /// has that duty.
    #[test]
    fn a_plate_is_monotone_and_consistent(
        first in 50.0_f64..200.0, steps in prop::array::uniform2(1.05_f64..2.0),
        shares in prop::array::uniform2(0.3_f64..1.0), (low, high) in (0.1_f64..1.0, 0.1_f64..1.0),
        wanted in 0.05_f64..1.0
    ) {
        let currents = [first, first * steps[0], first * steps[0] * steps[1]];
        let duties = [1.0, shares[0], shares[0] * shares[1]];
        let points = currents.iter().zip(duties);
        let points = points.map(|(a, x)| DutyPoint { current: computed(*a), duty: computed(x) });
        let plate = RatingPlate::new(points.collect()).unwrap();
        let (low, high) = (low.min(high) * currents[2], low.max(high) * currents[2]);
        let [at_low, at_high] = [low, high].map(|a| plate.duty_at(computed(a)).unwrap());
        prop_assert!(at_high.at_most(at_low));
        let current: Current = plate.current_at(computed(wanted)).unwrap();
        prop_assert!(plate.duty_at(current).unwrap().ratio() >= wanted * (1.0 - 1e-8));
        prop_assert!(current.amperes() <= currents[2] * (1.0 + 1e-12));
    }

    #[test]
    fn no_rating_causes_a_panic(
        a in prop::num::f64::POSITIVE | prop::num::f64::SUBNORMAL | prop::num::f64::ZERO,
        b in prop::num::f64::POSITIVE | prop::num::f64::SUBNORMAL | prop::num::f64::ZERO,
    ) {
        for (family, _) in LoadFamily::ALL {
            let _ = conventional_load_voltage(*family, computed(a));
        }
        let rated = DutyPoint { current: computed(a), duty: computed(b) };
        let _ = duty_by_constant_heating(&rated, computed(b));
        let _ = current_by_constant_heating(&rated, computed(b));
        let _ = linear_characteristic(&at(a, b), &at(b, a));
        let _ = equivalent_current(&[CurrentUse { current: computed(a), time: computed(b) }]);
    }
}
