//! What a record cannot say, since nothing is so. It is asked where a record is written; one that was written before
//! is read as it stands.

use std::collections::HashSet;

use time::{Date, OffsetDateTime};

use crate::{
    http::problem::FieldError,
    qualify::record::{D11Group, PNumber},
    quantity::{Kind, Quantity, Share},
    trade::{MetalGroup, Position, Progression},
};

/// What is wrong with a share that is neither nothing nor more than the whole.
#[must_use]
pub fn no_part(pointer: String, what: &str, share: Share) -> Option<FieldError> {
    (!share.is_part()).then(|| FieldError {
        pointer,
        detail: format!("{what} is more than 0 % and at most 100 %, not {share}"),
    })
}

/// What is wrong with a list that names nothing where leaving it out means all of them, which is `all`.
#[must_use]
pub fn names_none<T>(pointer: String, list: Option<&[T]>, all: &str) -> Option<FieldError> {
    list.is_some_and(<[T]>::is_empty).then(|| FieldError {
        pointer,
        detail: format!("name at least one, or leave it out, which {all}"),
    })
}

/// What is wrong with an amount of nothing.
#[must_use]
pub fn nothing<K: Kind>(pointer: String, what: &str, amount: Quantity<K>) -> Option<FieldError> {
    (amount.canonical() <= 0.0).then(|| FieldError {
        pointer,
        detail: format!("{what} is more than nothing, not {amount}"),
    })
}

/// What is wrong with a relative humidity of the air.
#[must_use]
pub fn no_humidity(pointer: String, humidity: Option<Share>) -> Option<FieldError> {
    humidity.filter(|humidity| humidity.canonical() > 1.0).map(|humidity| FieldError {
        pointer,
        detail: format!("a relative humidity is at most 100 %, not {humidity}"),
    })
}

/// What is wrong with a day of something that was done: it is still to come. The calendar of the shop may be a day
/// ahead of that of UTC.
#[must_use]
pub fn to_come(pointer: String, day: Option<Date>) -> Option<FieldError> {
    let latest = OffsetDateTime::now_utc().date().next_day()?;
    day.filter(|day| *day > latest).map(|day| FieldError {
        pointer,
        detail: format!("it has been done, and {day} is still to come"),
    })
}

/// What is wrong with a direction of vertical runs: none of the positions, of which at least one is vertical, is
/// welded in it.
#[must_use]
pub fn other_way(
    pointer: String,
    positions: &[Position],
    way: Option<Progression>,
) -> Option<FieldError> {
    let way = way?;
    // Around an orbital pipe a run goes both ways.
    if positions.contains(&Position::Pk) {
        return None;
    }
    let vertical: Vec<_> = positions.iter().filter(|one| one.progression().is_some()).collect();
    if vertical.is_empty() || vertical.iter().any(|one| one.progression() == Some(way)) {
        return None;
    }
    let named: Vec<_> = vertical.iter().map(ToString::to_string).collect();
    let other = match way {
        Progression::Up => Progression::Down,
        Progression::Down => Progression::Up,
    };
    Some(FieldError {
        pointer,
        detail: format!(
            "{} is welded {other} (ISO 6947): state {other}, or a position that is welded {way}",
            named.join(" or ")
        ),
    })
}

/// What is wrong with the group of AWS D1.1 and the P-Number of a metal, at these places, beside its groups of ISO/TR
/// 15608: they are of another metal.
#[must_use]
pub fn other_metal(
    [of_d11, of_p_number]: [String; 2],
    (d11_group, p_number): (Option<D11Group>, Option<&PNumber>),
    groups: &[MetalGroup],
) -> Vec<FieldError> {
    let fault = |pointer: String, name: String, is_other: &dyn Fn(MetalGroup) -> bool| {
        let others: Vec<_> = groups.iter().copied().filter(|group| is_other(*group)).collect();
        let named: Vec<_> = others.iter().map(ToString::to_string).collect();
        (!others.is_empty()).then(|| FieldError {
            pointer,
            detail: format!(
                "no metal of group {} of ISO/TR 15608 is in {name}: state both groups of the same metal, or leave this \
                 one out",
                named.join(" or ")
            ),
        })
    };
    let d11 = d11_group.and_then(|own| {
        let name = format!("group {own} of AWS D1.1, which lists structural steels");
        fault(of_d11, name, &|group| !D11Group::may_list(group))
    });
    let p = p_number.and_then(|own| {
        let name = format!("P-Number {} of ASME IX", own.number);
        fault(of_p_number, name, &|group| !own.may_be(group))
    });
    d11.into_iter().chain(p).collect()
}

/// Every name that stands in a list again, at its place.
#[must_use]
pub fn named_twice<'n>(
    list: &str,
    member: &str,
    names: impl IntoIterator<Item = &'n str>,
) -> Vec<FieldError> {
    let mut seen = HashSet::new();
    let names = names.into_iter().enumerate();
    names
        .filter(|(_, name)| !seen.insert(*name))
        .map(|(index, name)| FieldError {
            pointer: format!("{list}/{index}/{member}"),
            detail: format!("\"{name}\" stands further up in the list already"),
        })
        .collect()
}
