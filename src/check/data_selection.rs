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
            claim.positions().all(|position| condition.positions.contains(&position))
        })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{
        check::fixture::{Scene, quantity},
        trade::{GasGroup, Polarity, Position, PositionClaim},
    };

    /// Edition of the data the scene selects, after a change.
    fn selected(change: impl FnOnce(&mut Scene)) -> Option<String> {
        let scene = Scene::allowed().with(change);
        let (edition, _) = matching_data(scene.consumable.as_ref()?, &scene.setup)?;
        Some(edition.edition.clone())
    }

    fn conditions(scene: &mut Scene) -> &mut Vec<Condition> {
        &mut scene.consumable.as_mut().unwrap().data[0].conditions
    }

    #[test]
    fn all_four_facts_must_match() {
        let here = Some("2024".to_owned());
        assert_eq!(selected(|_| ()), here);
        assert_eq!(selected(|s| s.setup.filler.diameter = Some(quantity("0.045 in"))), None);
        assert_eq!(selected(|s| s.setup.filler.diameter = None), None);
        assert_eq!(selected(|s| s.setup.filler.gas = Some(Gas::Group(GasGroup::M21))), here);
        assert_eq!(selected(|s| s.setup.filler.gas = Some(Gas::Group(GasGroup::C1))), None);
        assert_eq!(selected(|s| s.setup.filler.gas = None), None);
        assert_eq!(selected(|s| s.setup.filler.polarity = Some(Polarity::Dcen)), None);
        assert_eq!(selected(|s| conditions(s)[0].positions = vec![Position::Pb]), here);
        assert_eq!(selected(|s| conditions(s)[0].positions = vec![Position::Pa]), None);
    }

    #[test]
    fn every_position_that_may_be_meant_must_be_covered() {
        let with = |positions: &[Position]| {
            selected(|s| {
                s.setup.job.position = Some(PositionClaim::parse("3G", None).unwrap());
                conditions(s)[0].positions = positions.to_vec();
            })
        };
        assert_eq!(with(&[Position::Pf]), None);
        assert_eq!(with(&[Position::Pf, Position::Pg]), Some("2024".to_owned()));
    }

    #[test]
    fn the_newest_edition_with_a_match_counts() {
        let newer = |scene: &mut Scene, diameter: &str| {
            let data = &mut scene.consumable.as_mut().unwrap().data;
            let mut edition = data[0].clone();
            edition.edition = "2025".to_owned();
            edition.conditions[0].diameter = quantity(diameter);
            data.push(edition);
        };
        assert_eq!(selected(|s| newer(s, "1.2 mm")), Some("2025".to_owned()));
        assert_eq!(selected(|s| newer(s, "1.6 mm")), Some("2024".to_owned()));
    }

    #[test]
    fn data_without_gas_is_for_setups_without_gas() {
        let with = |gas| {
            selected(|s| {
                conditions(s)[0].gas = None;
                s.setup.filler.gas = gas;
            })
        };
        assert_eq!(with(None), Some("2024".to_owned()));
        assert_eq!(with(Some(Gas::None)), Some("2024".to_owned()));
        assert_eq!(with(Some(Gas::Group(GasGroup::C1))), None);
    }
}
