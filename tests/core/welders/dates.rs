//! Confirmation, term, revalidation, withdrawal. Rules: ISO 9606-1 9.2 and 9.3 (secondary), ISO 14732 6.2 and
//! 6.3 (read), ASME IX QW-322 (secondary). That the day of the same number still belongs to the period is
//! common practice, no source. Days are own arithmetic.

use arcbounds::qualify::welder::{
    Confirmation,
    ConfirmedBy::{self, Signature, Use},
    Ending, QualificationDates, Revalidation, Validity, WeldFault, WelderPack, months_after,
};
use time::{Date, macros::date};

use super::fixture::{asme, iso, pack};

fn dates(option: Option<&str>) -> QualificationDates {
    QualificationDates {
        welded_on: date!(2023 - 01 - 15),
        option: option.map(str::to_owned),
        confirmations: Vec::new(),
        revalidations: Vec::new(),
        withdrawn_on: None,
    }
}

fn confirmed(mut dates: QualificationDates, by: ConfirmedBy, days: &[Date]) -> QualificationDates {
    dates.confirmations.extend(days.iter().map(|on| Confirmation { on: *on, by }));
    dates
}

/// Confirmed every five months to the end of 2026.
fn kept(option: Option<&str>) -> QualificationDates {
    let mut day = date!(2023 - 01 - 15);
    let mut days = Vec::new();
    while day < date!(2026 - 12 - 01) {
        day = months_after(day, 5).unwrap();
        days.push(day);
    }
    confirmed(dates(option), Signature, &days)
}

fn in_force(until: Date, ending: Ending) -> Validity {
    Validity::InForce { until, ending }
}

fn lapsed(last_day: Date, ending: Ending) -> Validity {
    Validity::Lapsed { last_day, ending }
}

#[test]
fn months_end_on_the_same_day_or_the_last_of_the_month() {
    for (from, months, expected) in [
        (date!(2025 - 01 - 15), 6, date!(2025 - 07 - 15)),
        (date!(2025 - 08 - 31), 6, date!(2026 - 02 - 28)),
        (date!(2023 - 08 - 31), 6, date!(2024 - 02 - 29)),
        (date!(2024 - 02 - 29), 36, date!(2027 - 02 - 28)),
        (date!(2025 - 12 - 01), 1, date!(2026 - 01 - 01)),
    ] {
        assert_eq!(months_after(from, months), Some(expected), "{from} + {months}");
    }
    assert_eq!(months_after(Date::MAX, 1), None);
}

#[test]
fn nothing_holds_before_the_test_and_six_months_after_it_without_a_signature() {
    let new = dates(Some("a"));
    let on = |day| iso().validity(&new, day);
    assert_eq!(on(date!(2023 - 01 - 14)), Validity::NotYet { from: date!(2023 - 01 - 15) });
    let end = date!(2023 - 07 - 15);
    assert_eq!(on(date!(2023 - 01 - 15)), in_force(end, Ending::Confirmation));
    assert_eq!(on(end), in_force(end, Ending::Confirmation));
    assert_eq!(on(date!(2023 - 07 - 16)), lapsed(end, Ending::Confirmation));
}

#[test]
fn a_signature_in_time_prolongs_and_a_late_one_brings_nothing_back() {
    let day = date!(2023 - 09 - 01);
    let on_the_last_day = confirmed(dates(Some("a")), Signature, &[date!(2023 - 07 - 15)]);
    let expected = in_force(date!(2024 - 01 - 15), Ending::Confirmation);
    assert_eq!(iso().validity(&on_the_last_day, day), expected);
    let late = confirmed(dates(Some("a")), Signature, &[date!(2023 - 07 - 16)]);
    let expected = lapsed(date!(2023 - 07 - 15), Ending::Confirmation);
    assert_eq!(iso().validity(&late, day), expected);
    // One for a day to come counts for nothing yet.
    let early = confirmed(dates(Some("a")), Signature, &[date!(2023 - 07 - 10)]);
    let expected = in_force(date!(2023 - 07 - 15), Ending::Confirmation);
    assert_eq!(iso().validity(&early, date!(2023 - 07 - 01)), expected);
}

#[test]
fn use_alone_is_enough_where_the_code_says_so_only() {
    let used = confirmed(dates(None), Use, &[date!(2023 - 06 - 01)]);
    let day = date!(2023 - 09 - 01);
    let expected = in_force(date!(2023 - 12 - 01), Ending::Confirmation);
    assert_eq!(asme().validity(&used, day), expected);
    let expected = lapsed(date!(2023 - 07 - 15), Ending::Confirmation);
    assert_eq!(iso().validity(&used, day), expected);
}

#[test]
fn the_term_is_that_of_the_option() {
    let term = |pack: &WelderPack, option, last: Date| {
        let dates = kept(Some(option));
        let after = last.next_day().unwrap();
        assert_eq!(pack.validity(&dates, last), in_force(last, Ending::Term), "{option}");
        assert_eq!(pack.validity(&dates, after), lapsed(last, Ending::Term), "{option}");
    };
    term(iso(), "a", date!(2026 - 01 - 15));
    term(iso(), "b", date!(2025 - 01 - 15));
    term(pack("iso-14732-2013"), "b", date!(2026 - 01 - 15));
    let open = iso().validity(&kept(Some("c")), date!(2026 - 12 - 01));
    assert!(matches!(open, Validity::InForce { ending: Ending::Confirmation, .. }), "{open:?}");
    // ISO 14732: six years.
    let six = pack("iso-14732-2013").validity(&kept(Some("a")), date!(2026 - 12 - 01));
    assert!(matches!(six, Validity::InForce { ending: Ending::Confirmation, .. }), "{six:?}");
}

#[test]
fn without_an_option_it_holds_for_the_shortest_term_and_then_nobody_can_tell() {
    let dates = kept(None);
    let last = date!(2025 - 01 - 15);
    assert_eq!(iso().validity(&dates, last), in_force(last, Ending::Term));
    let after = iso().validity(&dates, date!(2025 - 01 - 16));
    assert!(matches!(after, Validity::Unknown(_)), "{after:?}");
    let of_another_code = iso().validity(&kept(Some("z")), last);
    assert!(matches!(of_another_code, Validity::Unknown(_)), "{of_another_code:?}");
}

#[test]
fn two_welds_of_the_last_six_months_prolong_option_b() {
    let after = |on, welds: &[Date]| {
        let mut dates = kept(Some("b"));
        let (option, welds) = ("b".to_owned(), welds.to_vec());
        dates.revalidations.push(Revalidation { on, option, welds });
        iso().validity(&dates, date!(2025 - 02 - 01))
    };
    let on = date!(2025 - 01 - 10);
    let two = [date!(2024 - 07 - 15), date!(2024 - 12 - 01)];
    assert!(matches!(after(on, &two), Validity::InForce { .. }));
    let gone = lapsed(date!(2025 - 01 - 15), Ending::Term);
    assert_eq!(after(on, &two[1..]), gone, "one weld only");
    assert_eq!(after(on, &[date!(2024 - 07 - 14), two[1]]), gone, "one is too old");
    assert_eq!(
        after(on, &[date!(2025 - 01 - 11), two[1]]),
        gone,
        "one is younger than the signature"
    );
    assert_eq!(after(date!(2025 - 01 - 16), &two), gone, "after the term");
    // Two years from the revalidation.
    let mut dates = kept(Some("b"));
    dates.revalidations.push(Revalidation { on, option: "b".to_owned(), welds: two.to_vec() });
    let last = date!(2027 - 01 - 10);
    let days = [date!(2026 - 12 - 20)];
    let dates = confirmed(dates, Signature, &days);
    assert_eq!(iso().validity(&dates, last), in_force(last, Ending::Term));
}

/// ISO 9606-1:2012, 9.3 b, and ISO 14732:2013, 6.3 b (from memory): two welds made during the last six months of the
/// validity period. Neither those before the test, nor those of a term that just began, nor one that is told twice.
#[test]
fn welds_of_another_time_and_one_told_twice_prolong_nothing() {
    let term = |pack: &WelderPack, on, welds: [Date; 2], last: Date| {
        let mut dates = kept(Some("b"));
        let (option, welds) = ("b".to_owned(), welds.to_vec());
        dates.revalidations.push(Revalidation { on, option, welds });
        assert_eq!(pack.validity(&dates, last), in_force(last, Ending::Term), "{on}");
        let after = last.next_day().unwrap();
        assert_eq!(pack.validity(&dates, after), lapsed(last, Ending::Term), "{on}");
    };
    // The test piece is of 2023-01-15: two years end on 2025-01-15, three on 2026-01-15.
    let (two_years, three_years) = (date!(2025 - 01 - 15), date!(2026 - 01 - 15));
    let before_the_test = [date!(2022 - 12 - 20), date!(2022 - 12 - 21)];
    term(iso(), date!(2023 - 06 - 15), before_the_test, two_years);
    let fifth_month = [date!(2023 - 06 - 01), date!(2023 - 06 - 02)];
    term(iso(), date!(2023 - 06 - 15), fifth_month, two_years);
    term(pack("iso-14732-2013"), date!(2023 - 06 - 15), fifth_month, three_years);
    let twice = [date!(2024 - 12 - 01); 2];
    term(iso(), date!(2024 - 12 - 10), twice, two_years);
    let second_year = [date!(2024 - 12 - 01), date!(2024 - 12 - 02)];
    term(pack("iso-14732-2013"), date!(2024 - 12 - 10), second_year, three_years);
    let of_the_end = [date!(2025 - 08 - 01), date!(2025 - 12 - 02)];
    let prolonged = date!(2026 - 11 - 01);
    let mut dates = kept(Some("b"));
    let (on, option, welds) = (date!(2025 - 12 - 10), "b".to_owned(), of_the_end.to_vec());
    dates.revalidations.push(Revalidation { on, option, welds });
    let held = pack("iso-14732-2013").validity(&dates, prolonged);
    assert!(matches!(held, Validity::InForce { .. }), "{held:?}");
}

/// Own arithmetic: six months before 31 August 2025 there is no 31 February, and a weld of 28 February is as old as one
/// of 28 August.
#[test]
fn what_keeps_a_weld_from_counting_is_told_of_each() {
    let mut dates = dates(Some("b"));
    dates.welded_on = date!(2023 - 08 - 31);
    let faults = |on, welds: &[Date]| {
        let one = Revalidation { on, option: "b".to_owned(), welds: welds.to_vec() };
        iso().weld_faults(&dates, &one)
    };
    let on = date!(2025 - 03 - 10);
    let (first, last) = (date!(2025 - 03 - 01), date!(2025 - 08 - 31));
    let early = WeldFault::NotOfLastMonths { first, last };
    assert_eq!(faults(on, &[first, date!(2025 - 03 - 02)]), []);
    let all = [date!(2025 - 02 - 28), first, first, date!(2023 - 08 - 30), date!(2025 - 03 - 11)];
    let expected = [
        (0, early),
        (2, WeldFault::SameDay),
        (3, WeldFault::BeforeTest),
        (4, WeldFault::AfterSignature),
    ];
    assert_eq!(faults(on, &all), expected);
    let late = date!(2025 - 09 - 02);
    assert_eq!(faults(late, &[date!(2025 - 09 - 01)]), [(0, early)]);
}

/// The way is chosen when the certificate is issued (ISO 9606-1, 9.3; ISO 14732, 6.3; from memory): welds that were
/// tested prolong no certificate of another option, nor one whose option nobody states.
#[test]
fn welds_prolong_no_certificate_of_another_option() {
    let revalidated = |option| {
        let mut dates = kept(option);
        let welds = vec![date!(2024 - 12 - 01), date!(2024 - 12 - 15)];
        let (on, option) = (date!(2025 - 01 - 10), "b".to_owned());
        dates.revalidations.push(Revalidation { on, option, welds });
        dates
    };
    let by = |pack: &WelderPack, option, day| pack.validity(&revalidated(option), day);
    // Three years from the test, not two from the revalidation.
    let (last, after) = (date!(2026 - 01 - 15), date!(2026 - 01 - 16));
    assert_eq!(by(iso(), Some("a"), last), in_force(last, Ending::Term));
    assert_eq!(by(iso(), Some("a"), after), lapsed(last, Ending::Term));
    let unknown = by(iso(), None, date!(2025 - 01 - 16));
    assert!(matches!(unknown, Validity::Unknown(_)), "{unknown:?}");
    // An operator's certificate of option c has no end, and the welds of option b give it none.
    let operator = by(pack("iso-14732-2013"), Some("c"), after);
    assert!(
        matches!(operator, Validity::InForce { ending: Ending::Confirmation, .. }),
        "{operator:?}"
    );
    assert!(matches!(by(iso(), Some("b"), after), Validity::InForce { .. }));
}

/// ASME IX QW-322.2(a): one coupon brings all back.
#[test]
fn a_coupon_brings_back_what_lapsed_by_asme_ix_only() {
    let mut dates = dates(None);
    let on = date!(2025 - 03 - 01);
    let option = "renewal".to_owned();
    dates.revalidations.push(Revalidation { on, option, welds: Vec::new() });
    let lapse = lapsed(date!(2023 - 07 - 15), Ending::Confirmation);
    assert_eq!(asme().validity(&dates, date!(2025 - 02 - 28)), lapse);
    let back = in_force(date!(2025 - 09 - 01), Ending::Confirmation);
    assert_eq!(asme().validity(&dates, on), back);
    assert_eq!(iso().validity(&dates, on), lapse);
}

#[test]
fn what_was_withdrawn_has_ended_the_day_before() {
    let mut dates = kept(Some("a"));
    dates.withdrawn_on = Some(date!(2024 - 05 - 02));
    let last = date!(2024 - 05 - 01);
    assert!(matches!(iso().validity(&dates, last), Validity::InForce { .. }));
    let gone = iso().validity(&dates, date!(2024 - 05 - 02));
    assert_eq!(gone, lapsed(last, Ending::Withdrawn));
}
