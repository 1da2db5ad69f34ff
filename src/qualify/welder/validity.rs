//! How long a qualification holds: confirmation, term, revalidation, withdrawal.

use time::{Date, Month};

use super::{RevalidationWay, WelderPack};
use crate::{
    qualify::{Missing, Whose},
    trade::coded,
};

coded! {
    /// What a confirmation rests on.
    pub enum ConfirmedBy: "ground of a confirmation" {
        /// A responsible person signed it.
        Signature = "signature",
        /// Welding with the process, as the runs show it.
        Use = "use",
    }
}

coded! {
    /// What ends a qualification.
    pub enum Ending: "end of a qualification" {
        /// Nobody confirmed it in time.
        Confirmation = "confirmation",
        /// Its term is over.
        Term = "term",
        /// It was withdrawn for a reason.
        Withdrawn = "withdrawn",
    }
}

/// One confirmation that the welder works within the range.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Confirmation {
    /// Day it is for.
    pub on: Date,
    /// What it rests on.
    pub by: ConfirmedBy,
}

/// One revalidation.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Revalidation {
    /// Day it is for.
    pub on: Date,
    /// Sign of the pack's option.
    pub option: String,
    /// Days of the production welds that were tested and found good.
    pub welds: Vec<Date>,
}

/// Why a weld that was tested revalidates nothing.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum WeldFault {
    /// It was welded before the test that it is to prolong.
    BeforeTest,
    /// It was welded after the day of the revalidation.
    AfterSignature,
    /// The day of another one.
    SameDay,
    /// It is not of the last months of the term.
    NotOfLastMonths {
        /// First day of these months.
        first: Date,
        /// Last day of the term.
        last: Date,
    },
}

/// What decides how long a qualification holds.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct QualificationDates {
    /// Day the test piece was welded.
    pub welded_on: Date,
    /// Option of revalidation that the certificate states.
    pub option: Option<String>,
    /// Confirmations, in any order.
    pub confirmations: Vec<Confirmation>,
    /// Revalidations, in any order.
    pub revalidations: Vec<Revalidation>,
    /// Day from which it was withdrawn.
    pub withdrawn_on: Option<Date>,
}

/// How a qualification stands on a day.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Validity {
    /// The test piece was not welded yet.
    NotYet {
        /// First day.
        from: Date,
    },
    /// It holds.
    InForce {
        /// Last day, if nothing is done.
        until: Date,
        /// What ends it then.
        ending: Ending,
    },
    /// It holds no longer.
    Lapsed {
        /// Last day it held.
        last_day: Date,
        /// What ended it.
        ending: Ending,
    },
    /// Nobody can tell.
    Unknown(Missing),
}

/// The same day of the month so many months later; the last of the month where it has no such day. `None`
/// beyond the calendar. The day itself still belongs to the period (common practice, no source).
#[must_use]
pub fn months_after(day: Date, months: u32) -> Option<Date> {
    by_months(day, i32::try_from(months).ok()?)
}

fn by_months(day: Date, months: i32) -> Option<Date> {
    let count = i32::from(u8::from(day.month())).checked_add(months)? - 1;
    let year = day.year().checked_add(count.div_euclid(12))?;
    let month = Month::try_from(u8::try_from(count.rem_euclid(12) + 1).ok()?).ok()?;
    Date::from_calendar_date(year, month, day.day().min(month.length(year))).ok()
}

/// End of the term, as far as it is known.
#[derive(Clone, Copy)]
enum Term {
    /// No end.
    Open,
    Until(Date),
    /// The certificate does not state its option: until here in any case.
    AtLeast(Date),
}

impl WelderPack {
    /// How a qualification stands on a day.
    ///
    /// A confirmation or revalidation that comes after the last day brings nothing back, unless the code says
    /// so of that way. Tested welds prolong it only by the option that the certificate states: the way is chosen
    /// when it is issued (ISO 9606-1, 9.3; from memory). They are of the last six months of the term that they
    /// prolong (ISO 9606-1:2012, 9.3 b, and ISO 14732:2013, 6.3 b; from memory), and of different days.
    #[must_use]
    pub fn validity(&self, dates: &QualificationDates, day: Date) -> Validity {
        if day < dates.welded_on {
            return Validity::NotYet { from: dates.welded_on };
        }
        let unknown = |fact: &str| Validity::Unknown(Missing::new(Whose::Record, fact));
        let Some((confirmed, term)) = self.counted(dates, day) else {
            return unknown("a date within the calendar, and an option of this code");
        };
        standing(dates, day, confirmed, term).unwrap_or_else(|| unknown("the revalidation option"))
    }

    /// What keeps each weld of a revalidation from counting, with its place among the welds: as the term stands on the
    /// day of the revalidation. Empty where all count, and where the term has no end that welds could prolong.
    #[must_use]
    pub fn weld_faults(
        &self,
        dates: &QualificationDates,
        one: &Revalidation,
    ) -> Vec<(usize, WeldFault)> {
        let term = self.counted(dates, one.on).map(|(_, term)| term);
        let Some(Term::Until(end)) = term else { return Vec::new() };
        let faults = (0..one.welds.len())
            .filter_map(|index| Some((index, weld_fault(one, index, dates.welded_on, end)?)));
        faults.collect()
    }

    /// Last day by the confirmations, and the term, as what happened up to a day leaves them.
    fn counted(&self, dates: &QualificationDates, day: Date) -> Option<(Date, Term)> {
        let months = self.confirming.every_months;
        let mut confirmed = months_after(dates.welded_on, months)?;
        let mut term = self.first_term(dates)?;
        for event in events(dates, day) {
            let in_time = event.on() <= confirmed
                && match term {
                    Term::Open => true,
                    Term::Until(end) | Term::AtLeast(end) => event.on() <= end,
                };
            match event {
                Event::Confirmed(one) => {
                    if in_time && (one.by == ConfirmedBy::Signature || self.confirming.use_suffices)
                    {
                        confirmed =
                            months_after(one.on, months).unwrap_or(confirmed).max(confirmed);
                    }
                }
                Event::Revalidated(one) => {
                    let Some(option) = self.option(&one.option) else { continue };
                    match (option.way, term) {
                        (RevalidationWay::TwoWelds, Term::Until(end))
                            if in_time
                                && dates.option.as_ref() == Some(&one.option)
                                && two_welds_count(one, dates.welded_on, end) =>
                        {
                            let years = option.every_years.unwrap_or_default();
                            term = months_after(one.on, 12 * years).map_or(term, Term::Until);
                        }
                        (RevalidationWay::OneCoupon, _) => {
                            confirmed = months_after(one.on, months).unwrap_or(confirmed);
                        }
                        _ => {}
                    }
                }
            }
        }
        Some((confirmed, term))
    }

    /// The term from the test; `None` where the certificate states an option that this code does not have.
    fn first_term(&self, dates: &QualificationDates) -> Option<Term> {
        let until = |years: u32| months_after(dates.welded_on, 12 * years);
        let terms = || {
            let terms =
                self.revalidation.iter().filter(|one| one.way != RevalidationWay::OneCoupon);
            terms.map(|one| one.every_years)
        };
        match &dates.option {
            Some(sign) => match self.option(sign)?.every_years {
                Some(years) => until(years).map(Term::Until),
                None => Some(Term::Open),
            },
            None if terms().next().is_none() => Some(Term::Open),
            None => terms().flatten().min().and_then(until).map(Term::AtLeast),
        }
    }
}

/// How it stands; `None` where the missing option decides.
fn standing(
    dates: &QualificationDates,
    day: Date,
    confirmed: Date,
    term: Term,
) -> Option<Validity> {
    let (end, ending) = match term {
        Term::Until(end) | Term::AtLeast(end) if end < confirmed => (end, Ending::Term),
        _ => (confirmed, Ending::Confirmation),
    };
    if let Some(from) = dates.withdrawn_on
        && from <= day
    {
        let before = from.previous_day().unwrap_or(from);
        let (last_day, ending) =
            if end < before { (end, ending) } else { (before, Ending::Withdrawn) };
        return Some(Validity::Lapsed { last_day, ending });
    }
    if day <= end {
        return Some(Validity::InForce { until: end, ending });
    }
    if ending == Ending::Term && matches!(term, Term::AtLeast(_)) && day <= confirmed {
        return None;
    }
    Some(Validity::Lapsed { last_day: end, ending })
}

/// Months at the end of the term that the tested welds are of (ISO 9606-1:2012, 9.3 b, and ISO 14732:2013, 6.3 b; from
/// memory).
const WELDED_WITHIN: i32 = 6;

/// First day of the last months of a term: where its month has no such day, the first one of the next.
fn first_day_that_counts(end: Date) -> Option<Date> {
    let day = by_months(end, -WELDED_WITHIN)?;
    if by_months(day, WELDED_WITHIN)? < end { day.next_day() } else { Some(day) }
}

fn two_welds_count(one: &Revalidation, test: Date, end: Date) -> bool {
    let counts = |index: &usize| weld_fault(one, *index, test, end).is_none();
    (0..one.welds.len()).filter(counts).count() >= 2
}

/// What keeps the weld at a place from counting for a term that ends on a day.
fn weld_fault(one: &Revalidation, index: usize, test: Date, end: Date) -> Option<WeldFault> {
    let weld = *one.welds.get(index)?;
    // Only days are told: the same day twice may be one weld told twice.
    if one.welds.iter().take(index).any(|earlier| *earlier == weld) {
        return Some(WeldFault::SameDay);
    }
    if weld < test {
        return Some(WeldFault::BeforeTest);
    }
    if weld > one.on {
        return Some(WeldFault::AfterSignature);
    }
    let first = first_day_that_counts(end).unwrap_or(end);
    let counts = first <= weld && weld <= end;
    (!counts).then_some(WeldFault::NotOfLastMonths { first, last: end })
}

enum Event<'a> {
    Confirmed(Confirmation),
    Revalidated(&'a Revalidation),
}

impl Event<'_> {
    const fn on(&self) -> Date {
        match self {
            Self::Confirmed(one) => one.on,
            Self::Revalidated(one) => one.on,
        }
    }
}

/// What happened from the test up to the day, in order.
fn events(dates: &QualificationDates, day: Date) -> Vec<Event<'_>> {
    let confirmed = dates.confirmations.iter().copied().map(Event::Confirmed);
    let revalidated = dates.revalidations.iter().map(Event::Revalidated);
    let mut all: Vec<_> = confirmed.chain(revalidated).collect();
    all.retain(|event| dates.welded_on <= event.on() && event.on() <= day);
    all.sort_by_key(Event::on);
    all
}
