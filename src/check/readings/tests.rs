use super::*;
use crate::{
    check::{
        Outcome, Variable,
        fixture::{Scene, interval, measured, quantity, set},
    },
    trade::{
        ARC_ENERGY_FROM_AVERAGES, ARC_ENERGY_FROM_ENERGY, ARC_ENERGY_FROM_POWER,
        ARC_ENERGY_FROM_POWER_AND_TIME, ErrorSize,
    },
};

fn readings(settings: Settings, waveform: Option<Waveform>) -> Readings {
    let setup = Setup { settings, ..Setup::default() };
    Readings::of(&setup, Some(Process::MagFluxCored), waveform, Arcs::of(&setup, None))
}

const PLAIN: Option<Waveform> = Some(Waveform::NotControlled);

fn run() -> Settings {
    Settings {
        voltage: Some(set("24 V")),
        current: Some(set("200 A")),
        run_length: Some(set("300 mm")),
        arc_time: Some(set("60 s")),
        ..Settings::default()
    }
}

/// 300 mm in 60 s are 300 mm/min; 24 V and 200 A are 4800 W and 0.96 kJ/mm; times 0.8 by EN
/// 1011-1:2009 Table 1 0.768 (own arithmetic).
#[test]
fn speed_power_energy_and_heat_follow_from_what_is_stated() {
    let readings = readings(run(), PLAIN);
    assert_eq!(readings.travel_speed.unwrap().span.single(), Some(quantity("300 mm/min")));
    assert_eq!(readings.arc_power.unwrap().span.single(), Some(quantity("4800 W")));
    let arc_energy = readings.arc_energy.unwrap();
    assert_eq!(arc_energy.given.span.single(), Some(quantity("0.96 kJ/mm")));
    assert_eq!(*arc_energy.formula, ARC_ENERGY_FROM_AVERAGES);
    let heat_input = readings.heat_input.unwrap();
    assert_eq!(heat_input.given.span.single(), Some(quantity("0.768 kJ/mm")));
    assert!(readings.comparisons.is_empty());
}

/// The handbook line 28 V, 250 A, 12 in/min = 35.00 kJ/in (ASME IX QW-409.1 (a) form, own
/// arithmetic).
#[test]
fn a_speed_in_inches_gives_the_energy_per_inch() {
    let settings = Settings {
        voltage: Some(set("28 V")),
        current: Some(set("250 A")),
        travel_speed: Some(set("12 in/min")),
        ..Settings::default()
    };
    let energy = readings(settings, PLAIN).arc_energy.unwrap();
    assert_eq!(energy.given.span.single(), Some(quantity("35.00 kJ/in")));
}

#[test]
fn the_method_goes_by_what_was_measured_and_is_named() {
    let energy = |settings: Settings, waveform| readings(settings, waveform).arc_energy.unwrap();
    let power = Settings { arc_power: Some(measured("5 kW", "")), ..run() };
    let controlled = Some(Waveform::Controlled);
    for waveform in [PLAIN, controlled, None] {
        // 60 kJ over 300 mm are 0.2 kJ/mm; 5 kW for 60 s over 300 mm are 1 kJ/mm.
        let by_energy =
            energy(Settings { run_energy: Some(measured("60 kJ", "")), ..power.clone() }, waveform);
        assert_eq!(*by_energy.formula, ARC_ENERGY_FROM_ENERGY);
        assert_eq!(by_energy.given.span.single(), Some(quantity("0.2 kJ/mm")));
        let by_time = energy(power.clone(), waveform);
        assert_eq!(*by_time.formula, ARC_ENERGY_FROM_POWER_AND_TIME);
        assert_eq!(by_time.given.span.single(), Some(quantity("1 kJ/mm")));
        let by_speed =
            Settings { travel_speed: Some(set("300 mm/min")), run_length: None, ..power.clone() };
        let by_speed = energy(by_speed, waveform);
        assert_eq!(*by_speed.formula, ARC_ENERGY_FROM_POWER);
        assert_eq!(by_speed.given.span.single(), Some(quantity("1 kJ/mm")));
    }
}

/// 24 V times 200 A are 4.8 kW: 60 s of it over 300 mm are 0.96 kJ/mm, at the stated 200 mm/min 1.44 kJ/mm; 4 kW are
/// 0.8 and 1.2 kJ/mm, 60 kJ over 300 mm 0.2 kJ/mm (own arithmetic).
#[test]
fn what_nobody_measured_replaces_no_volts_and_amps() {
    let ends = |settings: &Settings, waveform| {
        let span = readings(settings.clone(), waveform).arc_energy.unwrap().given.span;
        (span.low(), span.high())
    };
    let power = Settings { arc_power: Some(set("4 kW")), ..run() };
    let slow = Settings { travel_speed: Some(set("200 mm/min")), ..power.clone() };
    let energy = Settings { run_energy: Some(set("60 kJ")), ..run() };
    assert_eq!(ends(&power, PLAIN), (quantity("0.8 kJ/mm"), quantity("0.96 kJ/mm")));
    assert_eq!(ends(&slow, PLAIN), (quantity("0.8 kJ/mm"), quantity("1.44 kJ/mm")));
    assert_eq!(ends(&energy, PLAIN), (quantity("0.2 kJ/mm"), quantity("0.96 kJ/mm")));
    // Where volts times amps is no power, what is stated is all there is.
    let controlled = Some(Waveform::Controlled);
    assert_eq!(ends(&power, controlled), (quantity("0.8 kJ/mm"), quantity("0.8 kJ/mm")));
    assert_eq!(ends(&slow, controlled), (quantity("0.8 kJ/mm"), quantity("1.2 kJ/mm")));
    let watts = |settings: Settings| {
        let span = readings(settings, PLAIN).arc_power.unwrap().span;
        (span.low(), span.high())
    };
    assert_eq!(watts(power), (quantity("4 kW"), quantity("4.8 kW")));
    let read = Settings { arc_power: Some(measured("4 kW", "")), ..run() };
    assert_eq!(watts(read), (quantity("4 kW"), quantity("4 kW")));
}

/// Two electrodes of 24 V and 200 A at 300 mm/min give 1.92 kJ/mm (own arithmetic), which stands beside what is stated
/// for both, never for itself: volts and amps are those of each.
#[test]
fn what_is_stated_for_several_arcs_counts_only_where_it_gives_an_energy_per_length() {
    let two = Settings { electrodes: Some(2), arc_time: None, ..run() };
    let two = Settings { travel_speed: Some(set("300 mm/min")), ..two };
    let whole = Settings { run_energy: Some(set("570 kJ")), ..two.clone() };
    let span = readings(whole.clone(), PLAIN).arc_energy.unwrap().given.span;
    assert_eq!((span.low(), span.high()), (quantity("1.9 kJ/mm"), quantity("1.92 kJ/mm")));
    let of_no_length = Settings { run_length: None, ..whole };
    let open = readings(of_no_length, PLAIN);
    assert!(open.arc_energy.unwrap_err().0.contains("the energy of the run needs its length"));
    assert!(open.heat_input.is_err());
    let read = Some(measured("570 kJ", "5 kJ"));
    let read = Settings { run_energy: read, run_length: None, ..two.clone() };
    assert!(readings(read, PLAIN).heat_input.is_err());
    let standing = Settings { arc_power: Some(set("9.5 kW")), travel_speed: None, ..two };
    assert!(readings(standing, PLAIN).heat_input.is_err());
}

/// 24 V and 200 A for 60 s are 288 kJ, which is 0.96 kJ/mm over 300 mm (own arithmetic); 60 kJ beside it is a reading
/// gone wrong, 290 kJ is not.
#[test]
fn a_measured_run_energy_is_held_against_power_and_speed() {
    let compared = |energy, waveform| {
        let settings = Settings { run_energy: Some(set(energy)), ..run() };
        readings(settings, waveform).comparisons
    };
    let [apart] = &compared("60 kJ", PLAIN)[..] else { panic!("one comparison") };
    assert_eq!((apart.variable, apart.outcome), (Variable::RunEnergy, Outcome::Outside));
    assert_eq!(apart.stated.to_string(), "0.2 kJ/mm");
    assert_eq!(apart.computed.to_string(), "0.96 kJ/mm");
    let [agrees] = &compared("290 kJ", PLAIN)[..] else { panic!("one comparison") };
    assert_eq!(agrees.outcome, Outcome::Inside);
    assert!(
        compared("60 kJ", Some(Waveform::Controlled)).is_empty(),
        "volts times amps is no power"
    );
}

#[test]
fn volts_times_amps_needs_somebody_to_say_that_the_output_is_plain() {
    for waveform in [Some(Waveform::Controlled), None] {
        let readings = readings(run(), waveform);
        assert!(readings.arc_power.is_err() && readings.arc_energy.is_err());
        assert_eq!(readings.heat_input.unwrap_err(), readings.arc_energy.unwrap_err());
    }
}

#[test]
fn the_output_is_the_setups_then_the_stations_then_the_procedures() {
    use Waveform::{Controlled, NotControlled};
    let mut scene = Scene::allowed();
    let output =
        |scene: &Scene| output_of(&scene.setup, Some(&scene.procedure), scene.station.as_ref());
    scene.setup.settings.waveform = Some(Controlled);
    assert_eq!(output(&scene), Some(Controlled));
    scene.setup.settings.waveform = None;
    scene.station.as_mut().unwrap().waveforms = vec![Controlled];
    assert_eq!(output(&scene), Some(Controlled));
    scene.station.as_mut().unwrap().waveforms = vec![NotControlled, Controlled];
    assert_eq!(output(&scene), Some(NotControlled));
    scene.procedure.waveform = None;
    assert_eq!(output(&scene), None);
}

/// 3 %, 3 % and 5 % combine to 6.557 % (own arithmetic: square root of 43).
#[test]
fn uncertainties_of_measured_parts_combine_in_quadrature() {
    let settings = Settings {
        voltage: Some(measured("24 V", "0.72 V")),
        current: Some(measured("200 A", "6 A")),
        travel_speed: Some(measured("300 mm/min", "15 mm/min")),
        ..Settings::default()
    };
    let energy = readings(settings.clone(), PLAIN).arc_energy.unwrap().given;
    let Accuracy::Known(_, ErrorSize::OfReading(share)) = energy.accuracy else {
        panic!("{energy:?}")
    };
    assert_eq!(share.to_string(), "6.557 %");
    assert_eq!(energy.origin, Origin::Measured);
    let half_known = Settings { current: Some(measured("200 A", "")), ..settings };
    let energy = readings(half_known, PLAIN).arc_energy.unwrap().given;
    assert!(energy.accuracy_unknown());
}

#[test]
fn values_that_were_set_have_no_uncertainty() {
    let energy = readings(run(), PLAIN).arc_energy.unwrap().given;
    assert_eq!(energy.origin, Origin::Set);
    assert!(!energy.accuracy_unknown());
}

/// 16 mm ± 0.3 and 4 mm ± 0.4 are 20 mm ± 0.5 (own arithmetic).
#[test]
fn stick_out_is_what_is_seen_and_the_recess() {
    let settings = Settings {
        visible_stick_out: Some(measured("16 mm", "0.3 mm")),
        tip_recess: Some(measured("4 mm", "0.4 mm")),
        ..Settings::default()
    };
    let stick_out = readings(settings, PLAIN).stick_out.unwrap();
    assert_eq!(stick_out.span.single(), Some(quantity("20 mm")));
    let Accuracy::Known(_, ErrorSize::Absolute(error)) = stick_out.accuracy else {
        panic!("{stick_out:?}")
    };
    assert!((error.mm() - 0.5).abs() < 1e-12);
}

#[test]
fn a_visible_stick_out_without_recess_is_no_electrical_one() {
    let settings = Settings { visible_stick_out: Some(set("16 mm")), ..Settings::default() };
    assert_eq!(readings(settings, PLAIN).stick_out, None);
}

#[test]
fn a_stated_and_a_computed_value_are_both_kept() {
    let settings = Settings { travel_speed: Some(measured("330 mm/min", "5 mm/min")), ..run() };
    let speed = readings(settings, PLAIN).travel_speed.unwrap();
    assert_eq!(speed.span.low(), quantity("300 mm/min"));
    assert_eq!(speed.span.high(), quantity("330 mm/min"));
    assert_eq!(speed.origin, Origin::Measured);
    let unknown = Settings { travel_speed: Some(measured("330 mm/min", "")), ..run() };
    assert!(readings(unknown, PLAIN).travel_speed.unwrap().accuracy_unknown());
    let time_unknown = Settings { arc_time: Some(measured("60 s", "")), ..run() };
    let settings =
        Settings { travel_speed: Some(measured("330 mm/min", "5 mm/min")), ..time_unknown };
    assert!(readings(settings, PLAIN).travel_speed.unwrap().accuracy_unknown());
}

#[test]
fn a_stated_value_that_agrees_stays_as_typed() {
    let settings = Settings { travel_speed: Some(set("30 cm/min")), ..run() };
    let speed = readings(settings, PLAIN).travel_speed.unwrap();
    assert_eq!(speed.span.single().unwrap().to_string(), "30 cm/min");
}

/// 24 to 26 V, 200 to 240 A, 240 to 300 mm/min: 0.96 to 1.56 kJ/mm (own arithmetic).
#[test]
fn intervals_give_the_worst_corners() {
    let settings = Settings {
        voltage: Some(interval("24 V", "26 V")),
        current: Some(interval("200 A", "240 A")),
        travel_speed: Some(interval("240 mm/min", "300 mm/min")),
        ..Settings::default()
    };
    let span = readings(settings, PLAIN).arc_energy.unwrap().given.span;
    assert_eq!(span.low(), quantity("0.96 kJ/mm"));
    assert_eq!(span.high(), quantity("1.56 kJ/mm"));
}
