//! Which printed data condition belongs to a setup.

use super::{
    Filler, Setup,
    record::{Condition, Consumable, DataEdition},
};
use crate::trade::{Gas, Position, PositionClaim};

/// The condition for exactly this diameter, gas group, polarity and position, from the newest
/// edition that holds one. `None` where one of the four is not stated or nothing matches: the data
/// of another condition is never a substitute, nor is an older edition where the newest is not clear. A line that names
/// positions goes before one for all positions: that one is for those that no line of its edition names. `gas` is the
/// setup's as it was ordered.
#[must_use]
pub fn matching_data<'a>(
    consumable: &'a Consumable,
    setup: &Setup,
    gas: Option<Gas>,
) -> Option<(&'a DataEdition, &'a Condition)> {
    let position = setup.job.narrowed_position();
    for edition in consumable.data.iter().rev() {
        match of_edition(edition, (&setup.filler, gas), position.as_deref()) {
            Ok(condition) => return Some((edition, condition)),
            Err(Lack::NotClear) => return None,
            Err(Lack::None) => {}
        }
    }
    None
}

/// Why an edition says nothing of a setup.
enum Lack {
    /// It has no line for it.
    None,
    /// It has one, and the position does not say which.
    NotClear,
}

fn of_edition<'a>(
    edition: &'a DataEdition,
    filler: (&Filler, Option<Gas>),
    position: Option<&PositionClaim>,
) -> Result<&'a Condition, Lack> {
    let (mut named, mut for_all, mut may_be_named) = (None::<&Condition>, None, false);
    for condition in edition.conditions.iter().filter(|one| is_of_filler(one, filler)) {
        if condition.positions.is_empty() {
            for_all = for_all.or(Some(condition));
        } else {
            let lists = |place: Position| condition.positions.contains(&place);
            may_be_named |= position.is_none_or(|claim| claim.positions().any(lists));
            let fits = position.is_some_and(|claim| claim.positions().all(lists));
            let closer =
                named.is_none_or(|known| condition.positions.len() < known.positions.len());
            named = if fits && closer { Some(condition) } else { named };
        }
    }
    match named {
        Some(condition) => Ok(condition),
        None if may_be_named => Err(Lack::NotClear),
        None => for_all.ok_or(Lack::None),
    }
}

fn is_of_filler(condition: &Condition, (filler, gas): (&Filler, Option<Gas>)) -> bool {
    filler.diameter == Some(condition.diameter)
        && gas_matches(condition, gas)
        && filler.polarity == Some(condition.polarity)
}

/// A condition without gas belongs to a setup without gas, stated or not spoken of.
fn gas_matches(condition: &Condition, gas: Option<Gas>) -> bool {
    match condition.gas {
        Some(group) => gas.and_then(|gas| gas.group()) == Some(group),
        None => gas.is_none_or(|gas| gas == Gas::None),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{
        check::fixture::{Scene, quantity},
        trade::{GasGroup, Polarity},
    };

    /// Edition of the data the scene selects, after a change.
    fn selected(change: impl FnOnce(&mut Scene)) -> Option<String> {
        let scene = Scene::allowed().with(change);
        let (edition, _) =
            matching_data(scene.consumable.as_ref()?, &scene.setup, scene.setup.filler.gas)?;
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

    /// A sheet with a line for all positions and one for vertical-up: the first is not for vertical-up.
    #[test]
    fn a_line_that_names_the_position_goes_before_one_for_all() {
        let lines = |at: Option<&str>, named: &[Position]| {
            let scene = Scene::allowed().with(|s| {
                s.setup.job.position = at.map(|at| PositionClaim::parse(at, None).unwrap());
                let own = Condition { positions: named.to_vec(), ..conditions(s)[0].clone() };
                conditions(s)[0].positions.clear();
                conditions(s).push(own);
            });
            let (_, condition) =
                matching_data(scene.consumable.as_ref()?, &scene.setup, scene.setup.filler.gas)?;
            Some(condition.positions.len())
        };
        assert_eq!(lines(Some("PF"), &[Position::Pf]), Some(1));
        assert_eq!(lines(Some("PA"), &[Position::Pf]), Some(0));
        assert_eq!(lines(Some("3G"), &[Position::Pf]), None);
        assert_eq!(lines(None, &[Position::Pf]), None);
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
        // The newest has a line that may be meant: the older one is no substitute.
        let unclear = |at: &str| {
            selected(|s| {
                newer(s, "1.2 mm");
                s.consumable.as_mut().unwrap().data[1].conditions[0].positions = vec![Position::Pf];
                s.setup.job.position = Some(PositionClaim::parse(at, None).unwrap());
            })
        };
        assert_eq!(unclear("PF"), Some("2025".to_owned()));
        assert_eq!(unclear("PA"), Some("2024".to_owned()));
        assert_eq!(unclear("3G"), None);
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
