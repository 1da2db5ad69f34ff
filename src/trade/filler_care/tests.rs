use proptest::prelude::*;
use time::{Duration as Span, OffsetDateTime, macros::datetime};

use super::*;
use crate::{
    quantity::{HydrogenContent, Kind, Quantity, Range},
    trade::{Designation, HydrogenClass},
};

/// Start of all made-up histories.
const START: OffsetDateTime = datetime!(2026-11-25 06:00 UTC);

fn q<K: Kind>(text: &str) -> Quantity<K> {
    text.parse().unwrap()
}

fn range<K: Kind>(min: &str, max: &str) -> Range<K> {
    Range::new(Some(q(min)), (!max.is_empty()).then(|| q(max))).unwrap()
}

fn limit(longest: &str, humidity: &str, hydrogen: Option<HydrogenClass>) -> ExposureLimit {
    let highest_humidity = (!humidity.is_empty()).then(|| q(humidity));
    ExposureLimit { longest: q(longest), highest_humidity, hydrogen }
}

/// Made-up data: 4 h fresh, 8 h as H8; baked at 300 to 350 °C for 1 to 3 h, twice; held at 100 to 150 °C.
fn rules() -> CareRules {
    CareRules {
        source: "made up".to_owned(),
        hydrogen: Some(HydrogenClass::H4),
        bake_before_first_use: false,
        baking: Some(BakingRule {
            temperature: range("300 °C", "350 °C"),
            time: range("1 h", "3 h"),
            times: 2,
        }),
        holding: Some(range("100 °C", "150 °C")),
        holding_restores_after: None,
        exposure: vec![limit("4 h", "", None), limit("8 h", "", Some(HydrogenClass::H8))],
    }
}

fn hours(hours: f64) -> OffsetDateTime {
    START + Span::seconds_f64(hours * 3600.0)
}

fn opened(at: f64) -> CareStep {
    CareStep { at: hours(at), action: CareAction::Opened { humidity: None } }
}

fn out(at: f64) -> CareStep {
    CareStep { at: hours(at), action: CareAction::OutOfOven { humidity: None } }
}

fn held(at: f64, temperature: &str) -> CareStep {
    CareStep { at: hours(at), action: CareAction::IntoOven { temperature: q(temperature) } }
}

fn baked(at: f64, until: f64, temperature: &str) -> CareStep {
    let until = hours(until);
    CareStep { at: hours(at), action: CareAction::Baked { until, temperature: q(temperature) } }
}

fn at(steps: &[CareStep], moment: f64) -> CareState {
    let fresh = Some(q::<crate::quantity::HydrogenContentKind>("4 mL/100g"));
    care_state(&rules(), fresh, steps, hours(moment))
}

fn ml(state: &CareState) -> Option<f64> {
    state.hydrogen.map(HydrogenContent::ml_per_100g)
}

#[test]
fn in_its_packet_it_is_fresh() {
    let state = at(&[], 10_000.0);
    assert_eq!((state.place, state.fitness), (CarePlace::Packed, CareFitness::Usable));
    assert_eq!((ml(&state), state.usable_until, state.bakes_left), (Some(4.0), None, 2));
}

/// The limits include their ends: fresh up to 4 h, H8 up to 8 h, nothing after (own arithmetic).
#[test]
fn in_the_air_it_loses_one_class_after_the_other() {
    let steps = [opened(0.0)];
    for (moment, hydrogen) in [(0.0, 4.0), (3.9, 4.0), (4.0, 4.0), (4.01, 8.0), (8.0, 8.0)] {
        let state = at(&steps, moment);
        assert_eq!(state.fitness, CareFitness::Usable, "{moment} h");
        assert_eq!(ml(&state), Some(hydrogen), "{moment} h");
        assert_eq!(state.usable_until, Some(hours(8.0)), "{moment} h");
        let keeps = if moment <= 4.0 { 4.0 } else { 8.0 };
        assert_eq!(state.hydrogen_until, Some(hours(keeps)), "{moment} h");
    }
    let lost = at(&steps, 8.01);
    assert_eq!(lost.fitness, CareFitness::Bake(CareLoss::ExposedTooLong));
    assert_eq!((lost.hydrogen, lost.usable_until, lost.left), (None, None, None));
}

/// 2 h, a night in the oven, 1.5 h, the oven again, then out: 0.5 h of the first 4 are left.
#[test]
fn the_oven_stops_the_count_and_gives_nothing_back() {
    let steps = [opened(0.0), held(2.0, "120 °C"), out(14.0), held(15.5, "120 °C"), out(20.0)];
    let state = at(&steps, 20.0);
    assert!((state.exposed.seconds() - 3.5 * 3600.0).abs() < 1e-6);
    assert_eq!(state.hydrogen_until, Some(hours(20.5)));
    assert_eq!(state.usable_until, Some(hours(24.5)));
    assert!((state.left.unwrap().seconds() - 4.5 * 3600.0).abs() < 1e-6);
    assert_eq!(ml(&at(&steps, 20.6)), Some(8.0));
    assert_eq!(at(&steps, 15.6).place, CarePlace::InOven);
    assert_eq!(at(&steps, 15.6).usable_until, None);
}

#[test]
fn an_oven_outside_its_span_is_air() {
    for temperature in ["99 °C", "151 °C"] {
        let steps = [opened(0.0), held(1.0, temperature), out(9.0)];
        let state = at(&steps, 9.0);
        assert_eq!(state.fitness, CareFitness::Bake(CareLoss::ExposedTooLong), "{temperature}");
    }
    for temperature in ["100 °C", "150 °C", "212 °F"] {
        let state = at(&[opened(0.0), held(1.0, temperature), out(9.0)], 9.0);
        assert_eq!(state.fitness, CareFitness::Usable, "{temperature}");
    }
}

/// Where the data says so, a hold of 4 h makes it fresh again, but not once the first limit is passed.
#[test]
fn a_hold_restores_only_what_was_still_fresh() {
    let rules = CareRules { holding_restores_after: Some(q("4 h")), ..rules() };
    let fresh = Some(q("4 mL/100g"));
    let exposed = |first: f64, hold: f64| {
        let steps = [opened(0.0), held(first, "120 °C"), out(first + hold)];
        care_state(&rules, fresh, &steps, hours(first + hold)).exposed.seconds() / 3600.0
    };
    assert!(exposed(3.0, 4.0).abs() < 1e-9);
    assert!((exposed(3.0, 3.9) - 3.0).abs() < 1e-9);
    assert!((exposed(5.0, 4.0) - 5.0).abs() < 1e-9);
}

#[test]
fn a_bake_restores_and_is_counted() {
    let steps = [opened(0.0), baked(9.0, 11.0, "320 °C"), held(11.0, "120 °C"), out(20.0)];
    let state = at(&steps, 21.0);
    assert_eq!((state.fitness, ml(&state)), (CareFitness::Usable, Some(4.0)));
    assert_eq!((state.bakes, state.bakes_left), (1, 1));
    assert_eq!(state.last_bake, Some(BakeResult::Restored));
    assert_eq!(state.usable_until, Some(hours(28.0)));
    let during = at(&steps, 10.0);
    assert_eq!((during.place, during.bakes), (CarePlace::InBake, 0));
    assert_eq!(during.fitness, CareFitness::Bake(CareLoss::BeingBaked));
    // Left lying after the bake, the air counts from its end.
    let lying = at(&[opened(0.0), baked(9.0, 11.0, "320 °C")], 16.0);
    assert_eq!((ml(&lying), lying.place), (Some(8.0), CarePlace::InAir));
}

#[test]
fn a_bake_outside_its_rule_restores_nothing_or_spoils() {
    let after = |bake: CareStep| at(&[opened(0.0), bake], hours_of(&bake));
    for (bake, result) in [
        (baked(9.0, 10.0, "299 °C"), BakeResult::TooCold),
        (baked(9.0, 9.9, "300 °C"), BakeResult::TooShort),
    ] {
        let state = after(bake);
        assert_eq!(state.fitness, CareFitness::Bake(CareLoss::ExposedTooLong));
        assert_eq!((state.last_bake, state.bakes_left), (Some(result), 1));
    }
    for (bake, loss) in [
        (baked(9.0, 10.0, "351 °C"), CareLoss::BakedTooHot),
        (baked(9.0, 12.1, "300 °C"), CareLoss::BakedTooLong),
    ] {
        assert_eq!(after(bake).fitness, CareFitness::Scrap(loss));
    }
    let no_baking = CareRules { baking: None, ..rules() };
    let steps = [opened(0.0), baked(1.0, 2.0, "300 °C")];
    let state = care_state(&no_baking, None, &steps, hours(2.0));
    assert_eq!(state.fitness, CareFitness::Scrap(CareLoss::BakedAtAll));
}

/// Hours since the start when a step is over.
fn hours_of(step: &CareStep) -> f64 {
    (step.end() - START).as_seconds_f64() / 3600.0
}

#[test]
fn past_the_last_bake_it_is_scrap() {
    let twice = [opened(0.0), baked(9.0, 10.0, "300 °C"), baked(19.0, 20.0, "300 °C")];
    assert_eq!(at(&twice, 21.0).fitness, CareFitness::Usable);
    assert_eq!(at(&twice, 29.0).fitness, CareFitness::Scrap(CareLoss::ExposedTooLong));
    let thrice = [twice.as_slice(), &[baked(29.0, 30.0, "300 °C")]].concat();
    assert_eq!(at(&thrice, 30.0).fitness, CareFitness::Scrap(CareLoss::BakedTooOften));
    let gone = CareStep { at: hours(30.0), action: CareAction::Scrapped };
    let gone = at(&[twice.as_slice(), &[gone]].concat(), 31.0);
    assert_eq!(
        (gone.place, gone.fitness),
        (CarePlace::Gone, CareFitness::Scrap(CareLoss::Scrapped))
    );
}

#[test]
fn a_packet_that_is_not_airtight_is_baked_first() {
    let rules = CareRules { bake_before_first_use: true, ..rules() };
    let state = |steps: &[CareStep], at: f64| care_state(&rules, None, steps, hours(at));
    assert_eq!(state(&[], 0.0).fitness, CareFitness::Bake(CareLoss::NeverBaked));
    assert_eq!(state(&[opened(0.0)], 0.1).fitness, CareFitness::Bake(CareLoss::NeverBaked));
    let baked = state(&[baked(0.0, 1.0, "300 °C"), held(1.0, "120 °C")], 2.0);
    assert_eq!((baked.fitness, baked.bakes_left), (CareFitness::Usable, 1));
}

/// 4 h up to 60 % humidity, 2 h up to 90 %. Damper air makes the shorter limit count for all of the time;
/// beyond 90 % no time is allowed; where nobody knows the humidity nobody knows the limit.
#[test]
fn the_dampest_air_decides() {
    let exposure = vec![limit("4 h", "60 %", None), limit("2 h", "90 %", None)];
    let rules = CareRules { exposure, ..rules() };
    let fitness = |stays: &[(f64, &str)]| {
        let mut clock = 0.0;
        let mut steps = Vec::new();
        for (length, humidity) in stays {
            let humidity = (!humidity.is_empty()).then(|| q(humidity));
            let action = if steps.is_empty() {
                CareAction::Opened { humidity }
            } else {
                CareAction::OutOfOven { humidity }
            };
            steps.push(CareStep { at: hours(clock), action });
            clock += length;
            steps.push(held(clock, "120 °C"));
        }
        care_state(&rules, None, &steps, hours(clock)).fitness
    };
    let lost = CareFitness::Bake(CareLoss::ExposedTooLong);
    assert_eq!(fitness(&[(4.0, "60 %")]), CareFitness::Usable);
    assert_eq!(fitness(&[(2.0, "61 %")]), CareFitness::Usable);
    assert_eq!(fitness(&[(2.1, "61 %")]), lost);
    assert_eq!(fitness(&[(1.5, "50 %"), (0.5, "80 %")]), CareFitness::Usable);
    assert_eq!(fitness(&[(2.0, "50 %"), (0.5, "80 %")]), lost);
    assert_eq!(fitness(&[(0.1, "91 %")]), lost);
    assert_eq!(fitness(&[(1.0, "")]), CareFitness::HumidityUnknown);
    assert_eq!(fitness(&[(4.1, "")]), lost);
}

#[test]
fn what_nobody_states_is_no_class() {
    let unknown = CareRules { exposure: vec![limit("4 h", "", None)], ..rules() };
    let state = care_state(&unknown, None, &[opened(0.0)], hours(1.0));
    assert_eq!((state.fitness, state.hydrogen), (CareFitness::Usable, None));
    // A class that is kept for 8 h was there before.
    let state = care_state(&rules(), None, &[opened(0.0)], hours(1.0));
    assert_eq!(ml(&state), Some(8.0));
    // A batch tested worse than its class stays worse.
    let state = care_state(&rules(), Some(q("9 mL/100g")), &[opened(0.0)], hours(5.0));
    assert_eq!(ml(&state), Some(9.0));
    let none = CareRules { exposure: Vec::new(), ..rules() };
    let state = care_state(&none, Some(q("4 mL/100g")), &[opened(0.0)], hours(0.1));
    assert_eq!(state.fitness, CareFitness::Bake(CareLoss::ExposedTooLong));
}

#[test]
fn steps_come_in_their_order() {
    let next = |earlier: &[CareStep], step: CareStep| may_follow(earlier, &step);
    assert_eq!(next(&[], opened(0.0)), Ok(()));
    assert_eq!(next(&[], held(0.0, "120 °C")), Ok(()));
    assert_eq!(next(&[], out(0.0)), Err(CareOrderError::NotInOven));
    assert_eq!(next(&[opened(1.0)], held(0.9, "120 °C")), Err(CareOrderError::TooEarly));
    assert_eq!(next(&[opened(1.0)], opened(2.0)), Err(CareOrderError::OpenAlready));
    assert_eq!(next(&[opened(1.0)], out(2.0)), Err(CareOrderError::NotInOven));
    assert_eq!(
        next(&[held(1.0, "120 °C")], held(2.0, "120 °C")),
        Err(CareOrderError::InOvenAlready)
    );
    assert_eq!(next(&[held(1.0, "120 °C")], out(2.0)), Ok(()));
    assert_eq!(next(&[], baked(2.0, 2.0, "300 °C")), Err(CareOrderError::NoTime));
    let bake = baked(2.0, 4.0, "300 °C");
    assert_eq!(next(&[bake], held(3.9, "120 °C")), Err(CareOrderError::TooEarly));
    assert_eq!(next(&[bake], held(4.0, "120 °C")), Ok(()));
    let scrapped = CareStep { at: hours(5.0), action: CareAction::Scrapped };
    assert_eq!(next(&[scrapped], opened(6.0)), Err(CareOrderError::Scrapped));
}

/// AWS D1.1/D1.1M:2020, Table 7.1, column A, and 7.3.2 (from memory; to be compared with print).
#[test]
fn the_structural_code_by_class() {
    for (text, hours) in [
        ("AWS A5.1: E7018", 4.0),
        ("AWS A5.1: E7016", 4.0),
        ("AWS A5.1: E7018-1 H4R", 9.0),
        ("AWS A5.1: E7018M", 9.0),
        ("AWS A5.1M: E4918 H4", 4.0),
        ("AWS A5.5: E7018-C3L", 4.0),
        ("AWS A5.5: E8018-C3 H4R", 2.0),
        ("AWS A5.5: E9018-D1", 1.0),
        ("AWS A5.5: E11018-M", 0.5),
    ] {
        let designation =
            Designation::parse(text).unwrap_or_else(|error| panic!("{text}: {error}"));
        let rules = d11_care(&designation).unwrap_or_else(|| panic!("{text}"));
        assert!((rules.exposure[0].longest.seconds() / 3600.0 - hours).abs() < 1e-9, "{text}");
        assert_eq!(rules.baking.unwrap().times, 1);
    }
    for text in ["AWS A5.1: E6010", "AWS A5.1: E6013", "AWS A5.1: E7024", "AWS A5.20: E71T-1C H4"] {
        assert_eq!(d11_care(&Designation::parse(text).unwrap()), None, "{text}");
    }
}

fn course() -> impl Strategy<Value = Vec<CareStep>> {
    let stay = (0.1..6.0_f64, 0.0..12.0_f64, 80.0..170.0_f64, any::<bool>());
    proptest::collection::vec(stay, 1..6).prop_map(|stays| {
        let mut steps = vec![opened(0.0)];
        let mut clock = 0.0;
        for (air, oven, degrees, bake) in stays {
            clock += air;
            if bake {
                steps.push(baked(clock, clock + 1.5, "320 °C"));
                clock += 1.5;
            }
            steps.push(held(clock, &format!("{degrees:.0} °C")));
            clock += oven;
            steps.push(out(clock));
        }
        steps
    })
}

proptest! {
    /// Time alone never makes a filler drier, and what expired stays expired until it is baked.
    #[test]
    fn waiting_never_helps(steps in course(), later in 0.0..20.0_f64) {
        let last = hours_of(steps.last().unwrap());
        let (now, then) = (at(&steps, last), at(&steps, last + later));
        prop_assert!(then.exposed.seconds() >= now.exposed.seconds() - 1e-6);
        let worse = match (now.hydrogen, then.hydrogen) {
            (Some(now), Some(then)) => then.at_least(now),
            (None, then) => then.is_none(),
            (Some(_), None) => true,
        };
        prop_assert!(worse, "{now:?} {then:?}");
        if now.fitness != CareFitness::Usable {
            prop_assert_eq!(then.fitness, now.fitness);
        }
    }

    /// Every history that is noted step by step is one that can be.
    #[test]
    fn a_course_is_in_order(steps in course()) {
        for end in 1..steps.len() {
            prop_assert_eq!(may_follow(&steps[..end], &steps[end]), Ok(()));
        }
    }

    /// What happens later says nothing about now.
    #[test]
    fn the_future_does_not_count(steps in course(), moment in 0.0..30.0_f64) {
        let past: Vec<_> = steps.iter().copied().filter(|step| step.at <= hours(moment)).collect();
        prop_assert_eq!(at(&steps, moment), at(&past, moment));
    }
}
