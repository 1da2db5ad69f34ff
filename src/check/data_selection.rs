//! Which printed data condition belongs to a setup.

use super::{
    Setup,
    record::{Condition, Consumable, DataEdition},
};
use crate::trade::Gas;

/// The condition for exactly this diameter, gas group, polarity and position, from the newest
/// edition that holds one. `None` where one of the four is not stated or nothing matches: the data
/// of another condition is never a substitute.
#[must_use]
pub fn matching_data<'a>(
    consumable: &'a Consumable,
    setup: &Setup,
) -> Option<(&'a DataEdition, &'a Condition)> {
    let matching = |edition: &'a DataEdition| {
        let found = edition.conditions.iter().find(|condition| matches(condition, setup))?;
        Some((edition, found))
    };
    consumable.data.iter().rev().find_map(matching)
}

fn matches(condition: &Condition, setup: &Setup) -> bool {
    let filler = &setup.filler;
    filler.diameter == Some(condition.diameter)
        && gas_matches(condition, filler.gas)
        && filler.polarity == Some(condition.polarity)
        && position_matches(condition, setup)
}

/// A condition without gas belongs to a setup without gas, stated or not spoken of.
fn gas_matches(condition: &Condition, gas: Option<Gas>) -> bool {
    match condition.gas {
        Some(group) => gas.and_then(|gas| gas.group()) == Some(group),
        None => gas.is_none_or(|gas| gas == Gas::None),
    }
}

/// Data printed for all positions needs no stated one; data for some needs all that are meant.
fn position_matches(condition: &Condition, setup: &Setup) -> bool {
    condition.positions.is_empty()
        || setup.job.narrowed_position().is_some_and(|claim| {
            claim.positions().iter().all(|position| condition.positions.contains(position))
        })
}
