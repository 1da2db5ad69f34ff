//! Conflicts in words: every figure is own arithmetic, shown beside it.

use arcbounds::{
    check::{Force, GuardFactor, Owner, OwnerKind, Variable, record::InstrumentAccuracy},
    quantity::{Area, Range, Share, Span, TravelSpeed, UnitSystem, VoltageKind},
    trade::{BurnOffPoint, Process, Waveform},
    window::{ConflictSet, Contradiction, Guard, HandSpread, Holder, Response, RunSize, Space},
};

use super::windows::{amount_range, conflict, quantity, space, wps};

fn data() -> Holder {
    Holder::Record(data_owner())
}

fn data_owner() -> Owner {
    Owner { kind: OwnerKind::ConsumableData, name: "data of consumable FCW-1 (sheet 7)".into() }
}

fn member(conflict: &ConflictSet, variable: &str) -> Contradiction {
    let named = |member: &&Contradiction| member.limit.subject.to_string() == variable;
    conflict.members.iter().find(named).unwrap_or_else(|| panic!("{}", conflict.words)).clone()
}

/// 28 V and 300 A at 1.2 kJ/mm or less need 0.06 · 28 · 300 / 1.2 = 420 mm/min, where the procedure allows 400
/// and the data 410. At 400 mm/min the volts may be 1.2 · 400 / (0.06 · 300) = 26.67.
fn hurried(energy: &str) -> Space {
    let mut space = space(&[
        (Variable::Voltage, "28 V", "30 V"),
        (Variable::Current, "300 A", "320 A"),
        (Variable::TravelSpeed, "300 mm/min", "400 mm/min"),
        (Variable::ArcEnergy, "", energy),
    ]);
    let range = amount_range(Variable::TravelSpeed, "", "410 mm/min");
    space.limit(Variable::TravelSpeed, &range, &data(), Force::Required);
    space
}

#[test]
fn every_holder_of_one_end_is_named_where_one_alone_does_not_help() {
    let conflict = conflict(&hurried("1.2 kJ/mm"));
    let speed = member(&conflict, "travel speed");
    assert!(!speed.enough && speed.with.len() == 1, "{}", conflict.words);
    for part in [
        "These cannot hold together: ",
        ", where 420 mm/min would be needed, in place of the 4",
        " too",
        &wps().to_string(),
        &data().to_string(),
        "voltage at least 28 V (procedure WPS-1 revision 1), where 26.6 V would be needed",
    ] {
        assert!(conflict.words.contains(part), "{part}: {}", conflict.words);
    }
    assert!(member(&conflict, "voltage").enough);
    assert!(!conflict.words.contains("not enough"), "{}", conflict.words);
}

/// The same with a second conflict beside it: no end of the first can mend both.
#[test]
fn a_change_that_is_not_enough_alone_says_so() {
    let mut space = hurried("1.2 kJ/mm");
    for (min, max) in [("10 m/min", ""), ("", "8 m/min")] {
        let range = amount_range(Variable::WireFeed, min, max);
        space.limit(Variable::WireFeed, &range, &wps(), Force::Required);
    }
    let conflict = conflict(&space);
    assert!(conflict.members.iter().all(|member| !member.enough && member.with.is_empty()));
    let said = conflict.words.matches("would be needed, which alone is not enough").count();
    assert_eq!(said, conflict.members.len(), "{}", conflict.words);
}

/// 1.2 kJ/mm is 30.48 kJ/in; at 28 V, 300 A and 400 mm/min the energy is 0.06 · 28 · 300 / 400 = 1.26 kJ/mm,
/// 32.004 kJ/in: up to three digits 32.1. The end that was typed in inches is answered in inches.
#[test]
fn what_would_be_needed_stands_in_the_unit_of_its_limit() {
    let conflict = conflict(&hurried("30.48 kJ/in"));
    let needed =
        "arc energy at most 30.48 kJ/in (procedure WPS-1 revision 1), where 32.1 kJ/in would";
    assert!(conflict.words.contains(needed), "{}", conflict.words);
}

/// With an error of 50 V no reading shows that the volts are 30 V at most.
#[test]
fn an_error_that_leaves_no_limit_to_be_kept_is_named() {
    let mut space = space(&[(Variable::Voltage, "", "30 V")]);
    let accuracy = InstrumentAccuracy::Absolute(quantity::<VoltageKind>("50 V").amount());
    space.guard(&Guard { variable: Variable::Voltage, accuracy }, GuardFactor::ONE);
    let words = conflict(&space).words;
    let expected = "This cannot hold: voltage at most 30 V (procedure WPS-1 revision 1). Without the error of \
                    the instrument that reads the voltage, which limits are kept for, it would.";
    assert_eq!(words, expected);
}

/// 3 V to either side of 26 to 30 V: 26 + 3 is above 30 - 3.
#[test]
fn an_error_between_two_limits_is_named() {
    let mut space = space(&[(Variable::Voltage, "26 V", "30 V")]);
    let accuracy = InstrumentAccuracy::Absolute(quantity::<VoltageKind>("3 V").amount());
    space.guard(&Guard { variable: Variable::Voltage, accuracy }, GuardFactor::ONE);
    let words = conflict(&space).words;
    assert!(words.starts_with("These cannot hold together: "), "{words}");
    assert!(
        words.ends_with("reads the voltage, which limits are kept for, they could."),
        "{words}"
    );
}

/// I = 30 w · (20 / L)^½: at most 8 m/min give 600 A from L = 20 · (240 / 600)² = 3.2 mm on, nearer than a tip
/// is held; the 240 A of 20 mm would do for the current.
#[test]
fn a_value_at_which_no_arc_is_seen_is_not_proposed() {
    let limits = [
        (Variable::Current, "600 A", "700 A"),
        (Variable::WireFeed, "4 m/min", "8 m/min"),
        (Variable::StickOut, "20 mm", "25 mm"),
    ];
    let reach = [["2 m/min", "30 m/min"], ["2 mm", "40 mm"]];
    let space = known_within(&limits, reach, UnitSystem::Us);
    let conflict = conflict(&space);
    assert_eq!(member(&conflict, "electrical stick out").needed, None, "{}", conflict.words);
    let current =
        "current at least 600 A (procedure WPS-1 revision 1), where 240 A would be needed";
    assert!(conflict.words.contains(current), "{}", conflict.words);
}

/// Nothing is printed of feed, current and travel speed here: no end of them is named that no arc is seen at (own choice of
/// 30 m/min, 2000 A and 5 m/min). The other end of each is.
#[test]
fn where_nothing_is_printed_no_end_is_named_beyond_what_arcs_are_seen_at() {
    for (variable, least, most) in [
        (Variable::WireFeed, "31 m/min", "10 m/min"),
        (Variable::Current, "2100 A", "250 A"),
        (Variable::TravelSpeed, "6 m/min", "0.5 m/min"),
    ] {
        let conflict = conflict(&space(&[(variable, least, ""), (variable, "", most)]));
        let needed: Vec<_> = conflict.members.iter().map(|member| member.needed).collect();
        let named: Vec<_> = needed.iter().flatten().map(ToString::to_string).collect();
        assert_eq!(named, [most], "{}", conflict.words);
        assert!(!conflict.words.contains(&format!("where {least}")), "{}", conflict.words);
    }
}

/// Nobody limits the volts: up to 60 V arcs are seen, and 0.06 · 60 · 200 / 400 are 1.8 kJ/mm. The 4.5 kJ/mm of 150 V,
/// where a typed value stops being plausible, are none to be had.
#[test]
fn a_setting_that_nobody_limits_mends_nothing_where_no_arc_is_seen() {
    let conflict = conflict(&space(&[
        (Variable::Current, "150 A", "200 A"),
        (Variable::TravelSpeed, "400 mm/min", "500 mm/min"),
        (Variable::ArcEnergy, "6 kJ/mm", ""),
    ]));
    let energy = member(&conflict, "arc energy");
    assert_eq!(energy.needed.map(|needed| needed.to_string()).as_deref(), Some("1.8 kJ/mm"));
    assert!(energy.enough, "{}", conflict.words);
}

/// A current that follows as below, known between 6 and 10 m/min.
fn following(limits: &[(Variable, &str, &str)]) -> Space {
    known_within(limits, [["6 m/min", "10 m/min"], ["20 mm", "20 mm"]], UnitSystem::Metric)
}

/// A current that follows as 240 A at 8 m/min and 20 mm, I = 30 w · (20 / L)^½, known between these feeds and stick-outs.
fn known_within(
    limits: &[(Variable, &str, &str)],
    [feeds, stick_outs]: [[&str; 2]; 2],
    units: UnitSystem,
) -> Space {
    let mut space = space(limits);
    space.write_in(units);
    let share = |ratio: f64| Share::computed(ratio).unwrap();
    let through = BurnOffPoint {
        feed: quantity("8 m/min"),
        current: quantity("240 A"),
        stick_out: quantity("20 mm"),
    };
    let reach = (
        Span::new(quantity(feeds[0]), quantity(feeds[1])).unwrap(),
        Span::new(quantity(stick_outs[0]), quantity(stick_outs[1])).unwrap(),
    );
    let exponents = (share(1.0), share(-0.5));
    space.follow(Response::power_law(
        &through,
        exponents,
        (share(0.0), share(0.0)),
        reach,
        data_owner(),
    ));
    space
}

/// 330 A need 330 / 30 = 11 m/min, where the data end at 10: no feed is named that nothing is known of, and nobody
/// else's limit is spare because of one. 10 m/min give 300 A.
#[test]
fn nothing_is_needed_beyond_the_reach_of_the_data() {
    let steady = [(Variable::StickOut, "20 mm", "20 mm"), (Variable::Current, "330 A", "350 A")];
    let wide = conflict(&following(
        &[&steady[..], &[(Variable::WireFeed, "7 m/min", "12 m/min")]].concat(),
    ));
    let feed = member(&wide, "wire feed");
    assert_eq!((feed.limit.holder, feed.needed), (Holder::ResponseData(data_owner()), None));
    let current =
        "current at least 330 A (procedure WPS-1 revision 1), where 300 A would be needed";
    assert!(wide.words.contains(current), "{}", wide.words);
    // Where the procedure allows no more than the data reach, its limit is the one that is named.
    let own = conflict(&following(
        &[&steady[..], &[(Variable::WireFeed, "7 m/min", "10 m/min")]].concat(),
    ));
    let feed = member(&own, "wire feed");
    assert_eq!((feed.limit.holder, feed.needed), (wps(), None), "{}", own.words);
}

/// A hand that strays 10 % keeps within 20 and 24 mm between 20 / 0.9 = 22.2 and 24 / 1.1 = 21.8 mm: nowhere. Without
/// it something is left, but not where volts of at least 28 and at most 25 are asked for too.
#[test]
fn the_hand_is_the_cause_only_where_something_is_left_without_it() {
    let words = |limits: &[(Variable, &str, &str)]| {
        let spread =
            HandSpread { stick_out: "10 %".parse().unwrap(), ..HandSpread::none().unwrap() };
        let mut space = Space::new(Process::MagFluxCored, Some(Waveform::NotControlled), &spread);
        for (variable, min, max) in limits {
            let range = amount_range(*variable, min, max);
            space.limit(*variable, &range, &wps(), Force::Required);
        }
        conflict(&space).words
    };
    let stick_out = (Variable::StickOut, "20 mm", "24 mm");
    let hand = "Without what the hand strays in electrical stick out, which limits are kept for, they could.";
    let alone = words(&[stick_out]);
    assert!(alone.ends_with(hand), "{alone}");
    let beside =
        words(&[stick_out, (Variable::Voltage, "28 V", ""), (Variable::Voltage, "", "25 V")]);
    assert!(!beside.contains("the hand"), "{beside}");
}

/// What may be kept room for below: the error of the instrument that reads the travel speed, the hand on travel speed
/// and on stick-out.
const STRAYS: [&str; 3] = [
    "the error of the instrument that reads the travel speed",
    "what the hand strays in travel speed",
    "what the hand strays in electrical stick out",
];

/// A cross-section asked of one run, by a wire that lays 17 to 25 mm² at 10 m/min and 300 mm/min, with room kept for some
/// of the [`STRAYS`].
fn one_run(least: f64, most: f64, [error, speed, stick_out]: [bool; 3]) -> Space {
    let share = |is_kept: bool, share: f64| Share::computed(if is_kept { share } else { 0.0 });
    let spread = HandSpread {
        travel_speed: share(speed, 0.05).unwrap(),
        stick_out: share(stick_out, 0.1).unwrap(),
    };
    let mut space = Space::new(Process::MagFluxCored, Some(Waveform::NotControlled), &spread);
    for (variable, min, max) in [
        (Variable::WireFeed, "7 m/min", "9 m/min"),
        (Variable::TravelSpeed, "300 mm/min", "400 mm/min"),
        (Variable::StickOut, "15 mm", "25 mm"),
    ] {
        space.limit(variable, &amount_range(variable, min, max), &wps(), Force::Required);
    }
    let area = |mm2: f64| Area::computed(mm2).unwrap();
    let laid = Span::new(area(17.0), area(25.0)).unwrap();
    let size = RunSize { feed: quantity("10 m/min"), speed: quantity("300 mm/min"), area: laid };
    space.run_area(&Range::new(Some(area(least)), Some(area(most))).unwrap(), &size);
    if error {
        let accuracy =
            InstrumentAccuracy::Absolute(TravelSpeed::difference("10 mm/min").unwrap().amount());
        space.guard(&Guard { variable: Variable::TravelSpeed, accuracy }, GuardFactor::ONE);
    }
    space
}

/// Held against windows that keep no room for what is named: any one that is named alone opens them, or all that are
/// named together and no fewer.
#[test]
fn what_a_cross_section_is_said_to_be_owed_to_is_what_it_is_owed_to() {
    let (mut alone, mut together) = (0, 0);
    for (least, ratio) in
        (10..32).flat_map(|least| [(f64::from(least), 1.6), (f64::from(least), 1.7)])
    {
        let with = |kept| one_run(least, least * ratio, kept);
        let opens = |without: &[usize]| {
            let kept = [0, 1, 2].map(|stray| !without.contains(&stray));
            with(kept).open(Force::Required).is_ok()
        };
        let Err(conflict) = with([true; 3]).open(Force::Required) else { continue };
        let words = conflict.words;
        let named: Vec<_> = (0..3).filter(|stray| words.contains(STRAYS[*stray])).collect();
        let fewer = |stray: &usize| -> Vec<usize> {
            named.iter().copied().filter(|own| own != stray).collect()
        };
        if words.contains(&format!("{} and ", STRAYS[named.first().copied().unwrap_or_default()])) {
            together += 1;
            let needed = |stray: &usize| !opens(&fewer(stray));
            assert!(opens(&named) && named.iter().all(needed), "{least} {ratio}: {words}");
        } else {
            alone += named.len();
            assert!(named.iter().all(|stray| opens(&[*stray])), "{least} {ratio}: {words}");
            assert!(!named.is_empty() || !opens(&[0, 1, 2]), "{least} {ratio}: {words}");
        }
    }
    assert!(alone > 5 && together > 1, "{alone} alone, {together} together");
}

/// A stick-out of 23 mm is one of up to 23 · 1.1 = 25.3 mm for a hand that strays 10 %; an interval that is chosen is
/// all that is meant.
#[test]
fn of_one_value_that_is_chosen_the_hand_strays_too() {
    let chosen = |min: &str, max: &str| {
        let spread =
            HandSpread { stick_out: "10 %".parse().unwrap(), ..HandSpread::none().unwrap() };
        let mut space = Space::new(Process::MagFluxCored, Some(Waveform::NotControlled), &spread);
        let range = amount_range(Variable::StickOut, "15 mm", "25 mm");
        space.limit(Variable::StickOut, &range, &wps(), Force::Required);
        space.choose(Variable::StickOut, &amount_range(Variable::StickOut, min, max));
        conflict(&space).words
    };
    let hand = "Without what the hand strays in electrical stick out, which limits are kept for, they could.";
    let one = chosen("23 mm", "23 mm");
    assert!(one.ends_with(hand), "{one}");
    let interval = chosen("23 mm", "26 mm");
    assert!(!interval.contains("the hand"), "{interval}");
}
