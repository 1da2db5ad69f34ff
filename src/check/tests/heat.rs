//! Arc energy and heat input: each on its own basis, and by the method the output allows.

use crate::{
    check::{
        Finding, Force, Outcome, Shown, Variable, Verdict,
        fixture::{Change, Scene, measured, range, set},
    },
    trade::{Process, Waveform},
};

/// 26 V, 220 A, 350 mm/min: 26 * 220 * 60 / (1000 * 350) = 0.98057 kJ/mm; times 0.8 of EN
/// 1011-1:2009 Table 1 is 0.78446 (own arithmetic). So 0.9 as arc energy is exceeded and as heat
/// input is not.
#[test]
fn arc_energy_and_heat_input_are_never_compared_with_each_other() {
    let as_arc_energy = Scene::allowed().with(|s| {
        s.limits().arc_energy = Some(range("", "0.9 kJ/mm"));
        s.limits().heat_input = None;
    });
    let as_heat_input = Scene::allowed().with(|s| {
        s.limits().arc_energy = None;
        s.limits().heat_input = Some(range("", "0.9 kJ/mm"));
    });
    assert_eq!(one(&as_arc_energy, Variable::ArcEnergy).outcome, Outcome::Outside);
    assert_eq!(one(&as_heat_input, Variable::HeatInput).outcome, Outcome::Inside);
    assert_eq!(as_arc_energy.of("heat-input").len(), 1);
    assert_eq!(as_heat_input.of("heat-input").len(), 1);
}

fn one(scene: &Scene, variable: Variable) -> Finding {
    let mut findings = scene.of("heat-input");
    findings.retain(|finding| finding.variable == variable);
    assert_eq!(findings.len(), 1, "{findings:#?}");
    findings.remove(0)
}

/// Volts measured to 2 %: the arc energy is 0.98057 ± 0.0196 kJ/mm (own arithmetic).
#[test]
fn uncertainty_of_the_readings_reaches_the_computed_energy() {
    let outcome = |max: &str| {
        let scene = Scene::allowed().with(|s| {
            s.setup.settings.voltage = Some(measured("26 V", "0.52 V"));
            s.limits().arc_energy = Some(range("", max));
        });
        one(&scene, Variable::ArcEnergy).outcome
    };
    assert_eq!(outcome("1.01 kJ/mm"), Outcome::Inside);
    assert_eq!(outcome("0.99 kJ/mm"), Outcome::EdgeInside);
    assert_eq!(outcome("0.97 kJ/mm"), Outcome::EdgeOutside);
    assert_eq!(outcome("0.95 kJ/mm"), Outcome::Outside);
}

/// A computed value on a limit typed in kJ/in: 24 V, 200 A, 300 mm/min is 0.96 kJ/mm, which is
/// 24.384 kJ/in; at k = 0.8 0.768 kJ/mm, which is 19.5072 kJ/in (own arithmetic).
#[test]
fn a_computed_value_on_its_limit_is_inside_in_every_unit() {
    for (arc_energy, heat_input) in [
        ("0.96 kJ/mm", "0.768 kJ/mm"),
        ("24.384 kJ/in", "19.5072 kJ/in"),
        ("24384 J/in", "19507.2 J/in"),
        ("9.6 kJ/cm", "7.68 kJ/cm"),
        ("960 J/mm", "768 J/mm"),
    ] {
        let scene = Scene::allowed().with(|s| {
            s.setup.settings.voltage = Some(set("24 V"));
            s.setup.settings.current = Some(set("200 A"));
            s.setup.settings.travel_speed = Some(set("300 mm/min"));
            s.limits().arc_energy = Some(range(arc_energy, arc_energy));
            s.limits().heat_input = Some(range(heat_input, heat_input));
        });
        assert_eq!(one(&scene, Variable::ArcEnergy).outcome, Outcome::Inside, "{arc_energy}");
        assert_eq!(one(&scene, Variable::HeatInput).outcome, Outcome::Inside, "{heat_input}");
    }
}

/// The same limits less and more than a millionth away from 0.96 kJ/mm, which is 24.384 kJ/in.
#[test]
fn a_computed_value_a_millionth_beyond_its_limit_is_outside_in_every_unit() {
    let outcome = |limit: crate::quantity::Range<crate::quantity::ArcEnergyKind>| {
        let scene = Scene::allowed().with(|s| {
            s.setup.settings.voltage = Some(set("24 V"));
            s.setup.settings.current = Some(set("200 A"));
            s.setup.settings.travel_speed = Some(set("300 mm/min"));
            s.limits().arc_energy = Some(limit);
        });
        one(&scene, Variable::ArcEnergy).outcome
    };
    for (below, above) in [
        ("0.959999 kJ/mm", "0.960001 kJ/mm"),
        ("24.38397 kJ/in", "24.38403 kJ/in"),
        ("24383.97 J/in", "24384.03 J/in"),
        ("9.59999 kJ/cm", "9.60001 kJ/cm"),
        ("959.999 J/mm", "960.001 J/mm"),
    ] {
        assert_eq!(outcome(range("", below)), Outcome::Outside, "at most {below}");
        assert_eq!(outcome(range(above, "")), Outcome::Outside, "at least {above}");
        assert_eq!(outcome(range(below, above)), Outcome::Inside, "{below} to {above}");
    }
}

#[test]
fn whatever_is_missing_makes_the_energy_not_given_and_says_what() {
    let table: &[(Change, &str)] = &[
        (|s| s.setup.settings.voltage = None, "No arc voltage"),
        (|s| s.setup.settings.current = None, "No welding current"),
        (|s| s.setup.settings.travel_speed = None, "No travel speed"),
        (|s| output(s, Some(Waveform::Controlled)), "waveform-controlled"),
        (|s| output(s, None), "Nobody says whether"),
    ];
    for (change, why) in table {
        let scene = Scene::allowed().with(change);
        for variable in [Variable::ArcEnergy, Variable::HeatInput] {
            let finding = one(&scene, variable);
            assert_eq!(finding.outcome, Outcome::NotGiven, "{why}");
            assert_eq!(finding.force, Force::Required);
            assert!(finding.reason.contains(why), "{}", finding.reason);
        }
        assert!(scene.verdict() >= Verdict::Undetermined);
    }
}

fn output(scene: &mut Scene, waveform: Option<Waveform>) {
    scene.setup.settings.waveform = waveform;
    scene.procedure.waveform = waveform;
    scene.station.as_mut().unwrap().waveforms = waveform.into_iter().collect();
}

/// EN 1011-1:2009, Table 1, does not list 142.
#[test]
fn a_process_without_efficiency_has_arc_energy_but_no_heat_input() {
    let scene = Scene::allowed().with(|s| s.procedure.process = Process::TigAutogenous);
    assert_eq!(one(&scene, Variable::ArcEnergy).outcome, Outcome::Inside);
    let heat_input = one(&scene, Variable::HeatInput);
    assert_eq!(heat_input.outcome, Outcome::NotGiven);
    assert!(heat_input.reason.contains("no thermal efficiency"), "{}", heat_input.reason);
}

/// 5720 W at 350 mm/min is 0.98057 kJ/mm (own arithmetic).
#[test]
fn measured_power_serves_a_controlled_output() {
    let scene = Scene::allowed().with(|s| {
        output(s, Some(Waveform::Controlled));
        s.setup.settings.arc_power = Some(measured("5720 W", "57 W"));
    });
    assert_eq!(one(&scene, Variable::ArcEnergy).outcome, Outcome::Inside);
    assert_eq!(scene.verdict(), Verdict::Allowed);
}

#[test]
fn a_stated_figure_does_not_take_the_place_of_the_computed_one() {
    let scene = Scene::allowed().with(|s| {
        s.setup.settings.voltage = None;
        s.setup.settings.heat_input = Some(set("0.8 kJ/mm"));
        s.setup.settings.arc_energy = Some(set("1 kJ/mm"));
    });
    assert_eq!(one(&scene, Variable::HeatInput).outcome, Outcome::NotGiven);
    assert_eq!(one(&scene, Variable::ArcEnergy).outcome, Outcome::NotGiven);
    let flattering = Scene::allowed().with(|s| {
        s.limits().heat_input = Some(range("", "0.7 kJ/mm"));
        s.setup.settings.heat_input = Some(set("0.6 kJ/mm"));
    });
    let finding = one(&flattering, Variable::HeatInput);
    assert_eq!(finding.outcome, Outcome::Outside);
    assert!(matches!(finding.given, Shown::Amount(amount) if amount.to_string() == "0.7845 kJ/mm"));
}

/// 200 to 240 A at 26 V and 350 mm/min: 0.891 to 1.070 kJ/mm (own arithmetic).
#[test]
fn an_interval_is_judged_by_its_worst_corner() {
    use crate::check::fixture::interval;
    let outcome = |max: &str| {
        let scene = Scene::allowed().with(|s| {
            s.setup.settings.current = Some(interval("200 A", "240 A"));
            s.limits().arc_energy = Some(range("", max));
        });
        one(&scene, Variable::ArcEnergy).outcome
    };
    assert_eq!(outcome("1.071 kJ/mm"), Outcome::Inside);
    assert_eq!(outcome("1.069 kJ/mm"), Outcome::Outside);
}

/// 27 V, 240 A, 9 in/min: 27 * 240 * 60 / 9 = 43 200 J/in; 40 kJ/in needs 27 * 240 * 60 / 40 000 =
/// 9.72 in/min (own arithmetic).
#[test]
fn a_refused_energy_is_told_in_the_units_of_its_limit_with_the_speed_it_needs() {
    let scene = |max: &str| {
        Scene::allowed().with(|s| {
            s.setup.settings.voltage = Some(set("27 V"));
            s.setup.settings.current = Some(set("240 A"));
            s.setup.settings.travel_speed = Some(set("9 in/min"));
            s.limits().arc_energy = Some(range("", max));
        })
    };
    let refused = one(&scene("40 kJ/in"), Variable::ArcEnergy);
    assert!(
        refused.reason.starts_with("43.2 kJ/in is above the limit of at most 40 kJ/in set by "),
        "{}",
        refused.reason
    );
    let remedy = refused.remedy.unwrap();
    assert!(remedy.ends_with("; with this power travel at 9.72 in/min or faster."), "{remedy}");
    let too_cold = Scene::allowed().with(|s| {
        s.setup.settings.voltage = Some(set("24 V"));
        s.setup.settings.current = Some(set("200 A"));
        s.setup.settings.travel_speed = Some(set("300 mm/min"));
        // 0.96 kJ/mm at 300 mm/min; 1.2 kJ/mm needs 240 mm/min (own arithmetic).
        s.limits().arc_energy = Some(range("1.2 kJ/mm", ""));
    });
    let remedy = one(&too_cold, Variable::ArcEnergy).remedy.unwrap();
    assert!(remedy.ends_with("; with this power travel at 240 mm/min or slower."), "{remedy}");
}
