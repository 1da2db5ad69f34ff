//! What a finding says of a value that an instrument read near its limit.

use super::probe::PROBES;
use crate::{
    check::{
        Accuracy, Finding, Given, GuardFactor, Outcome, Telling, Verdict,
        fixture::{Scene, interval, measured, quantity, range, set},
        judge,
    },
    quantity::CurrentKind,
    trade::{ErrorModel, ErrorSize},
};

/// The procedure's finding on a current of the band 234 to 286 A.
fn on_current(given: Given<CurrentKind>, guard: GuardFactor) -> Finding {
    let scene = Scene::allowed().with(|s| {
        s.guard = guard;
        s.limits().current = Some(range("234 A", "286 A"));
        s.setup.settings.current = Some(given);
    });
    let all = scene.findings();
    all.into_iter()
        .find(|f| f.check == "current" && f.owner.to_string().contains("procedure"))
        .unwrap()
}

fn largest(text: &str, error: &str) -> Given<CurrentKind> {
    let accuracy = Accuracy::Known(ErrorModel::Largest, ErrorSize::Absolute(quantity(error)));
    Given { accuracy, ..measured(text, "") }
}

/// 281 A against 286 A with U = 7.0 A: in the guard band, Phi(5/3.5) = 0.923; 5 A would be accurate enough
/// (own arithmetic; JCGM 106:2012, 7.3 and 8.3).
#[test]
fn a_reading_in_the_guard_band_says_how_likely_it_conforms() {
    let finding = on_current(measured("281 A", "7 A"), GuardFactor::ONE);
    assert_eq!(finding.outcome, Outcome::EdgeInside);
    let shown = finding.conformity.unwrap();
    assert!((shown.probability.ratio() - 0.923).abs() < 0.0005 && shown.provable);
    assert_eq!((shown.model, shown.formula().name), (ErrorModel::Expanded, "conformity-normal"));
    let remedy = finding.remedy.unwrap();
    for word in ["by 7 A", "286 A", "an expanded uncertainty (k = 2) of at most 5 A"] {
        assert!(remedy.contains(word), "{word}: {remedy}");
    }
}

/// 1 % of 151.3 °F are 1.5 °F, though 151.3 °F are 66.28 °C; 1 % of a scale of 1000 °F are 10 °F; half of 32 °F are 16,
/// though 32 °F are 0 °C (own arithmetic).
#[test]
fn a_share_of_a_temperature_is_one_of_the_number_on_its_scale() {
    let share = |text: &str| quantity::<crate::quantity::ShareKind>(text);
    let read = |value, size| {
        let scene = Scene::allowed().with(|s| {
            s.limits().preheat = Some(range("150 °F", ""));
            s.work_order.as_mut().unwrap().ranges.edit().preheat = None;
            let accuracy = Accuracy::Known(ErrorModel::Expanded, size);
            s.setup.settings.preheat = Some(Given { accuracy, ..measured(value, "") });
        });
        scene.outcomes("preheat")[0]
    };
    let of_reading = |value, percent| read(value, ErrorSize::OfReading(share(percent)));
    assert_eq!(of_reading("151.3 °F", "1 %"), Outcome::EdgeInside);
    assert_eq!(of_reading("151.6 °F", "1 %"), Outcome::Inside);
    // The same reading in degrees Celsius, whose number is smaller: 0.66 °C of the 0.72 °C above the limit.
    assert_eq!(of_reading("66.28 °C", "1 %"), Outcome::Inside);
    assert_eq!(of_reading("66.2 °C", "1 %"), Outcome::EdgeInside);
    let of_scale = |value| {
        let (share, full_scale) = (share("1 %"), quantity("1000 °F"));
        read(value, ErrorSize::OfFullScale { share, full_scale })
    };
    assert_eq!(of_scale("159.9 °F"), Outcome::EdgeInside);
    assert_eq!(of_scale("160.1 °F"), Outcome::Inside);
    let freezing = Given {
        accuracy: Accuracy::of_reading(share("50 %")),
        ..measured::<crate::quantity::TemperatureKind>("32 °F", "")
    };
    assert!((freezing.uncertainty().unwrap() - 16.0 * 5.0 / 9.0).abs() < 1e-9);
}

/// 2.5 % of 203 A are 5.1 A and of 252 A 6.3 A: beside 6 A the worse of the two is the one at 203 A and the other at 252 A
/// (own arithmetic).
#[test]
fn of_two_accuracies_the_worse_holds_at_each_end() {
    let share = |text: &str| ErrorSize::OfReading(quantity::<crate::quantity::ShareKind>(text));
    let read = |recorded: Option<&str>| {
        let mut given = measured("203 A", "6 A");
        given.span = interval::<CurrentKind>("203 A", "252 A").span;
        if let Some(recorded) = recorded {
            given.read_by((ErrorModel::Expanded, share(recorded)));
        }
        let scene = Scene::allowed().with(|s| {
            s.limits().current = Some(range("197.5 A", "310 A"));
            s.setup.settings.current = Some(given);
        });
        let current = scene.of("current").remove(0);
        (current.outcome, given.uncertainty().unwrap())
    };
    assert_eq!(read(None).0, Outcome::EdgeInside);
    let (outcome, worst) = read(Some("2.5 %"));
    assert_eq!(outcome, Outcome::EdgeInside);
    assert!((worst - 6.3).abs() < 1e-9);
    assert!((read(Some("1 %")).1 - 6.0).abs() < 1e-9);
    assert!((read(Some("3 %")).1 - 7.56).abs() < 1e-9);
}

/// On the limit itself no instrument proves it: the remedy asks for no better one.
#[test]
fn on_the_limit_only_another_value_helps() {
    let remedy = on_current(measured("286 A", "7 A"), GuardFactor::ONE).remedy.unwrap();
    assert!(remedy.ends_with("by 7 A."), "{remedy}");
}

/// With a largest error of 7 A the same reading lies inside with 12 of 14 (own arithmetic).
#[test]
fn a_largest_error_is_spread_evenly() {
    let finding = on_current(largest("281 A", "7 A"), GuardFactor::ONE);
    assert_eq!(finding.outcome, Outcome::EdgeInside);
    let shown = finding.conformity.unwrap();
    assert!((shown.probability.ratio() - 12.0 / 14.0).abs() < 1e-9);
    assert_eq!(shown.formula().name, "conformity-rectangular");
    assert!(finding.remedy.unwrap().contains("a largest error of at most 5 A"));
    let clear = on_current(largest("279 A", "7 A"), GuardFactor::ONE);
    assert_eq!((clear.outcome, clear.conformity), (Outcome::Inside, None));
}

/// The band is 52 A wide: an error of 30 A to each side proves nothing, 26 A would prove its middle; with
/// half the guard band 30 A do (own arithmetic).
#[test]
fn an_instrument_that_cannot_prove_the_limit_is_named() {
    let finding = on_current(measured("260 A", "30 A"), GuardFactor::ONE);
    assert_eq!(finding.outcome, Outcome::EdgeInside);
    assert!(!finding.conformity.unwrap().provable);
    assert!(
        finding.reason.contains("this instrument cannot prove conformity"),
        "{}",
        finding.reason
    );
    assert!(finding.reason.contains("30 A to each side"), "{}", finding.reason);
    let remedy = finding.remedy.unwrap();
    assert!(remedy.contains("of at most 26 A") && remedy.contains("middle"), "{remedy}");
    let half = on_current(measured("260 A", "30 A"), GuardFactor::new(0.5).unwrap());
    assert_eq!(half.outcome, Outcome::Inside);
    assert!(half.conformity.unwrap().provable);
}

/// A value beyond its limit is refused, and the probability says how little is on its side: Phi(-4/3.5) =
/// 0.127 (own arithmetic).
#[test]
fn a_reading_beyond_the_limit_says_so_too() {
    let finding = on_current(measured("290 A", "7 A"), GuardFactor::ONE);
    assert_eq!(finding.outcome, Outcome::EdgeOutside);
    assert!((finding.conformity.unwrap().probability.ratio() - 0.127).abs() < 0.0005);
}

#[test]
fn nothing_is_said_of_values_that_are_set_far_off_or_of_unknown_accuracy() {
    for given in [set("281 A"), measured("260 A", "7 A"), measured("281 A", "")] {
        assert_eq!(on_current(given, GuardFactor::ONE).conformity, None, "{given:?}");
    }
}

/// 9 °F of error are 5 K: a limit in °F is answered with a difference in °F, not with a temperature.
#[test]
fn differences_of_temperature_have_no_zero_of_their_own() {
    let scene = Scene::allowed().with(|s| {
        s.limits().preheat = Some(range("68 °F", ""));
        s.setup.settings.preheat = Some(measured("70 °F", "9 °F"));
    });
    let finding = scene.findings().into_iter().find(|f| f.check == "preheat").unwrap();
    assert_eq!(finding.outcome, Outcome::EdgeInside);
    let remedy = finding.remedy.unwrap();
    assert!(remedy.contains("by 9 °F") && remedy.contains("at most 2 °F"), "{remedy}");
}

/// Every check of a measured variable shows the probability where its instrument decides.
#[test]
fn every_measured_variable_shows_it() {
    for probe in PROBES {
        let (low, high) = probe.ends;
        let value = probe.text(high - (high - low) * 1e-3);
        let error = probe.text(probe.error);
        let finding = probe.only(&Scene::allowed().with(|s| (probe.measure)(s, &value, &error)));
        assert_eq!(finding.outcome, Outcome::EdgeInside, "{}", probe.check);
        assert!(finding.conformity.is_some(), "{}", probe.check);
    }
}

/// The verdict does not depend on whether anybody reads the probability.
#[test]
fn words_change_no_verdict() {
    let scene =
        Scene::allowed().with(|s| s.setup.settings.current = Some(measured("238 A", "7 A")));
    let verdicts = [Telling::Nothing, Telling::WhatNeedsSomething, Telling::Everything]
        .map(|telling| judge(&scene.book(), &scene.setup, scene.day, telling).verdict);
    assert_eq!(verdicts, [Verdict::AllowedWithAdvice; 3]);
}
