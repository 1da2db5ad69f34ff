//! Limits by a size that only the proposal has: which rows hold for it, and what they leave together.

use std::{borrow::Cow, cmp::Ordering};

use crate::{
    qualify::{
        Limit, Proposal, SizeOf,
        facts::proposed_parts,
        range::{Allowed, Bound, Interval, Missing, SizedLimits, Whose},
    },
    quantity::{Amount, AmountRange},
};

/// The limit as it holds for this proposal: the strictest of every row that its sizes reach. Any other limit is
/// as it is.
pub(super) fn for_proposal<'a>(limit: &'a Limit, proposal: &Proposal) -> Cow<'a, Limit> {
    let Allowed::BySize(sized) = &limit.allowed else { return Cow::Borrowed(limit) };
    let mut own = limit.clone();
    match size(sized.by, proposal).and_then(|size| Ok((size, rows(sized, size, &own.clause)?))) {
        Ok((size, rows)) => {
            let allowed = rows.iter().map(|row| row.allowed).reduce(strictest);
            own.confidence = rows.iter().map(|row| row.confidence).max().unwrap_or(own.confidence);
            if let Some(allowed) = allowed {
                own.working = format!("{} {size}: {allowed}", sized.by);
                own.allowed = Allowed::Interval(allowed);
            }
        }
        Err(missing) => {
            own.working = missing.to_string();
            own.allowed = Allowed::Unknown(missing);
        }
    }
    Cow::Owned(own)
}

/// The size over everything that is proposed. Of two parts with ranges the thicker one is at least as thick as
/// the thicker lower end, and at most as thick as the thicker upper end; the thinner one likewise.
fn size(by: SizeOf, proposal: &Proposal) -> Result<AmountRange, Missing> {
    let parts = proposed_parts(proposal)
        .ok_or_else(|| Missing::new(Whose::Proposal, "the thickness of each part"))?;
    let wanted = match by {
        SizeOf::ThickerPart => Ordering::Greater,
        SizeOf::ThinnerPart => Ordering::Less,
    };
    let pick = |a: Amount, b: Amount| if b.compare(a) == Some(wanted) { b } else { a };
    let lowest: Vec<_> = parts.iter().map(|part| part.min).collect();
    let highest: Vec<_> = parts.iter().map(|part| part.max).collect();
    // An open lower end is below, an open upper end above every other one.
    let open_low = by == SizeOf::ThinnerPart && lowest.contains(&None);
    let open_high = by == SizeOf::ThickerPart && highest.contains(&None);
    Ok(AmountRange {
        min: lowest.into_iter().flatten().reduce(pick).filter(|_| !open_low),
        max: highest.into_iter().flatten().reduce(pick).filter(|_| !open_high),
    })
}

/// Every row that the sizes reach; an error where a size has no row.
fn rows<'a>(
    sized: &'a SizedLimits,
    size: AmountRange,
    clause: &str,
) -> Result<Vec<&'a crate::qualify::SizedLimit>, Missing> {
    let missing = || {
        let fact = format!("{clause}: a limit for each {} of {size}", sized.by);
        Missing::new(Whose::Pack, fact)
    };
    let reached: Vec<_> = sized.rows.iter().filter(|row| meets(&row.band, size)).collect();
    let (Some(first), Some(last)) = (sized.rows.first(), sized.rows.last()) else {
        return Err(missing());
    };
    let below = first
        .band
        .min
        .is_some_and(|low| size.min.is_none_or(|given| beyond(given, low, Ordering::Less)));
    let above = last
        .band
        .max
        .is_some_and(|high| size.max.is_none_or(|given| beyond(given, high, Ordering::Greater)));
    if below || above || reached.is_empty() { Err(missing()) } else { Ok(reached) }
}

/// Whether a value lies outside an end of a band.
fn beyond(given: Amount, end: Bound, side: Ordering) -> bool {
    match given.compare(end.amount) {
        Some(Ordering::Equal) => !end.included,
        order => order == Some(side),
    }
}

/// Whether a band and the sizes have a value in common.
fn meets(band: &Interval, size: AmountRange) -> bool {
    let too_small = band
        .min
        .is_some_and(|low| size.max.is_some_and(|given| beyond(given, low, Ordering::Less)));
    let too_large = band
        .max
        .is_some_and(|high| size.min.is_some_and(|given| beyond(given, high, Ordering::Greater)));
    !too_small && !too_large
}

/// What two intervals leave together.
fn strictest(a: Interval, b: Interval) -> Interval {
    let end = |a: Option<Bound>, b: Option<Bound>, stricter: Ordering| match (a, b) {
        (Some(a), Some(b)) => Some(match b.amount.compare(a.amount) {
            Some(order) if order == stricter => b,
            Some(Ordering::Equal) if a.included => b,
            _ => a,
        }),
        (a, b) => a.or(b),
    };
    Interval {
        min: end(a.min, b.min, Ordering::Greater),
        max: end(a.max, b.max, Ordering::Less),
        ..a
    }
}
