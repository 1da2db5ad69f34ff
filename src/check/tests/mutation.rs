//! The limit moved past the value flips the outcome, check by check: no check passes everything.

use super::probe::PROBES;
use crate::check::{
    Force, Outcome, Verdict,
    fixture::{Change, Scene, quantity, range},
};

#[test]
fn a_limit_moved_past_the_value_flips_every_numeric_check() {
    for probe in PROBES {
        let [.., inside_low, middle, inside_high, _, above] = probe.values;
        let start = Scene::allowed().with(|s| (probe.set)(s, Some(&probe.text(middle))));
        assert_eq!(probe.only(&start).outcome, Outcome::Inside, "{}", probe.check);
        let moved = [
            (probe.text(inside_high), probe.text(above)),
            (String::new(), probe.text(inside_low)),
            (probe.text(inside_high), String::new()),
        ];
        for (min, max) in moved {
            let scene = start.clone().with(|s| (probe.limit)(s, &min, &max));
            let at = format!("{} {min} to {max}", probe.check);
            assert_eq!(probe.only(&scene).outcome, Outcome::Outside, "{at}");
            assert_eq!(scene.verdict(), Verdict::NotAllowed, "{at}");
        }
    }
}

/// A check, a change of one limit, and the force of what then is not met.
type Mutation = (&'static str, Change, Force);

/// Limits that are not one range of the procedure. The complete job is 26 V, 220 A, 350 mm/min,
/// 0.9806 kJ/mm, a spool of 15 kg (own arithmetic).
const MUTATIONS: &[Mutation] = &[
    ("heat-input", |s| s.limits().arc_energy = Some(range("", "0.9805 kJ/mm")), Force::Required),
    ("heat-input", |s| s.limits().arc_energy = Some(range("0.9807 kJ/mm", "")), Force::Required),
    ("heat-input", |s| s.limits().heat_input = Some(range("", "0.7844 kJ/mm")), Force::Required),
    ("heat-input", |s| s.limits().heat_input = Some(range("0.7846 kJ/mm", "")), Force::Required),
    (
        "current",
        |s| station(s).ranges.edit().current = Some(range("40 A", "219 A")),
        Force::Required,
    ),
    ("current", |s| data(s).current = Some(range("221 A", "300 A")), Force::Advised),
    ("voltage", |s| data(s).voltage = Some(range("27 V", "30 V")), Force::Advised),
    (
        "wire-feed",
        |s| station(s).ranges.edit().wire_feed = Some(range("9 m/min", "")),
        Force::Required,
    ),
    (
        "interpass",
        |s| order(s).ranges.edit().interpass = Some(range("", "119 °C")),
        Force::Required,
    ),
    ("station-output", |s| rate_both(s, "219 A"), Force::Required),
    ("station-output", |s| station(s).rated[1].current = quantity("219 A"), Force::Advised),
    ("station-output", |s| gun(s, "219 A"), Force::Required),
    ("station-output", |s| load_volts(s, "25 V"), Force::Advised),
    ("station-feeder", |s| station(s).diameters = vec![quantity("1.6 mm")], Force::Required),
    ("spool", |s| station(s).heaviest_spool = Some(quantity("14 kg")), Force::Required),
    ("no-limit", |s| s.limits().voltage = None, Force::Required),
    ("settings-fit-data", |s| points(s, |p| p.current = quantity("150 A")), Force::Advised),
    ("settings-fit-data", |s| points(s, |p| p.voltage = quantity("20 V")), Force::Advised),
    (
        "readings-disagree",
        |s| s.setup.settings.arc_energy = Some(crate::check::fixture::set("1.2 kJ/mm")),
        Force::Advised,
    ),
    ("leg", |s| s.setup.job.leg = Some(quantity("12 mm")), Force::Advised),
    (
        "common-practice",
        |s| s.setup.settings.travel_angle = Some(crate::check::fixture::set("-10 deg")),
        Force::Advised,
    ),
];

fn station(scene: &mut Scene) -> &mut crate::check::record::Station {
    scene.station.as_mut().unwrap()
}

fn order(scene: &mut Scene) -> &mut crate::check::record::WorkOrder {
    scene.work_order.as_mut().unwrap()
}

fn condition(scene: &mut Scene) -> &mut crate::check::record::Condition {
    &mut scene.consumable.as_mut().unwrap().data[0].conditions[0]
}

fn data(scene: &mut Scene) -> crate::check::Edit<'_> {
    condition(scene).ranges.edit()
}

fn points(scene: &mut Scene, change: fn(&mut crate::check::record::OperatingPoint)) {
    condition(scene).points.change(|points| points.iter_mut().for_each(change));
}

fn rate_both(scene: &mut Scene, current: &str) {
    station(scene).rated.iter_mut().for_each(|point| point.current = quantity(current));
}

fn gun(scene: &mut Scene, current: &str) {
    station(scene).gun.as_mut().unwrap().current = quantity(current);
}

fn load_volts(scene: &mut Scene, volts: &str) {
    station(scene).rated.iter_mut().for_each(|point| point.voltage = Some(quantity(volts)));
}

#[test]
fn every_other_limit_flips_its_check_as_well() {
    for (index, (check, change, force)) in MUTATIONS.iter().enumerate() {
        let unmet = |scene: &Scene| {
            let findings = scene.of(check);
            let unmet = findings.iter().filter(|f| {
                f.force == *force && Verdict::of_one(f, scene.rule) != Verdict::Allowed
            });
            unmet.count()
        };
        let start = Scene::allowed();
        assert_eq!(unmet(&start), 0, "{check} before mutation {index}");
        let scene = start.with(change);
        assert!(unmet(&scene) >= 1, "{check} after mutation {index}");
        let least = match force {
            Force::Required => Verdict::Undetermined,
            Force::Advised => Verdict::AllowedWithAdvice,
        };
        assert!(scene.verdict() >= least, "{check} mutation {index}");
    }
}
