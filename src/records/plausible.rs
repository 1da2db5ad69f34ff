//! What a record cannot say, since nothing is so. It is asked where a record is written; one that was written before
//! is read as it stands.

use std::collections::HashSet;

use time::{Date, OffsetDateTime};

use crate::{
    http::problem::FieldError,
    quantity::{Kind, Quantity, Share},
    trade::{Position, Progression},
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
