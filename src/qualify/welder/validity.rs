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
    let count = u32::from(u8::from(day.month())) - 1 + months;
    let year = day.year().checked_add(i32::try_from(count / 12).ok()?)?;
    let month = Month::try_from(u8::try_from(count % 12 + 1).ok()?).ok()?;
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
    /// when it is issued (ISO 9606-1, 9.3; from memory).
    #[must_use]
    pub fn validity(&self, dates: &QualificationDates, day: Date) -> Validity {
        if day < dates.welded_on {
            return Validity::NotYet { from: dates.welded_on };
        }
        let unknown = |fact: &str| Validity::Unknown(Missing::new(Whose::Record, fact));
        let months = self.confirming.every_months;
        let (Some(mut confirmed), Some(mut term)) =
            (months_after(dates.welded_on, months), self.first_term(dates))
        else {
            return unknown("a date within the calendar, and an option of this code");
        };
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
                    match option.way {
                        RevalidationWay::TwoWelds
                            if in_time
                                && dates.option.as_ref() == Some(&one.option)
                                && two_recent_welds(one) =>
                        {
                            let years = option.every_years.unwrap_or_default();
                            term = months_after(one.on, 12 * years).map_or(term, Term::Until);
                        }
                        RevalidationWay::OneCoupon => {
                            confirmed = months_after(one.on, months).unwrap_or(confirmed);
                        }
                        _ => {}
                    }
                }
            }
        }
        standing(dates, day, confirmed, term).unwrap_or_else(|| unknown("the revalidation option"))
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

/// Two welds of the six months before.
fn two_recent_welds(one: &Revalidation) -> bool {
    let recent = |weld: &&Date| {
        **weld <= one.on && months_after(**weld, 6).is_some_and(|until| one.on <= until)
    };
    one.welds.iter().filter(recent).count() >= 2
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
