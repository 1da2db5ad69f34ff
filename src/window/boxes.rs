//! The box of each variable in one case.

use super::region::Region;
use crate::{
    check::{
        Authority, Case, Force, HOTTEST_SOURCE, NUMERIC, Owner, Role, Variable, hottest, role,
    },
    quantity::{AmountRange, Quantity},
    trade::{Advice, AdvisedRange},
};

/// What is left of one variable.
#[derive(Debug, Clone, PartialEq)]
pub struct Window {
    /// The variable.
    pub variable: Variable,
    /// How far the person at the arc rules it.
    pub role: Role,
    /// Whether a permission bounds it: the procedure, or data it calls up. Where not, the required
    /// region is only what station and customer leave.
    pub permitted: bool,
    /// What all required limits allow together.
    pub required: Region,
    /// What advised limits allow inside the required ones; `NoLimit` where nobody advises, or where
    /// the required ones already contradict each other. A conflict here is advice that no permitted
    /// value meets.
    pub advised: Region,
    /// What each source of common practice leaves of the required values. Sources differ, and one
    /// that is met is enough: they are alternatives.
    pub practice: Vec<Region>,
}

/// One limit on one variable.
#[derive(Clone)]
pub(super) struct Bound {
    pub(super) range: AmountRange,
    pub(super) owner: Owner,
    pub(super) force: Force,
}

impl Bound {
    const fn parts(&self) -> (&AmountRange, &Owner) {
        (&self.range, &self.owner)
    }
}

/// The box of every variable that the case has, in a fixed order. What the setup states of one
/// variable narrows no other one here.
#[must_use]
pub fn boxes(case: &Case<'_>) -> Vec<Window> {
    let of_case = |variable: &&Variable| case.lacks(**variable).is_none();
    NUMERIC.iter().filter(of_case).filter_map(|variable| window(case, *variable)).collect()
}

fn window(case: &Case<'_>, variable: Variable) -> Option<Window> {
    let bounds = bounds(case, variable);
    let required = || of_force(&bounds, Force::Required);
    let advised = || of_force(&bounds, Force::Advised);
    let region = Region::of(required());
    let contradictory = region.conflict().is_some();
    let practice = if contradictory { Vec::new() } else { practice(case, variable) };
    Some(Window {
        variable,
        role: role(case.procedure.process, variable)?,
        permitted: case.bounded().contains(variable),
        required: region,
        advised: if contradictory || advised().next().is_none() {
            Region::NoLimit
        } else {
            Region::of(required().chain(advised()))
        },
        practice: practice
            .iter()
            .map(|advice| Region::of(required().chain([advice.parts()])))
            .collect(),
    })
}

fn of_force(bounds: &[Bound], force: Force) -> impl Iterator<Item = (&AmountRange, &Owner)> {
    bounds.iter().filter(move |bound| bound.force == force).map(Bound::parts)
}

/// Every limit on the variable, recorded or carried over, the ratings of the station among them.
pub(super) fn bounds(case: &Case<'_>, variable: Variable) -> Vec<Bound> {
    let recorded = case.authorities().flat_map(|authority| {
        let ranges = authority.ranges();
        let all = ranges.amounts(variable).into_iter().chain(ranges.carried().amounts(variable));
        let bound =
            move |range| Bound { range, owner: authority.owner(), force: authority.force() };
        all.map(bound)
    });
    let hottest = heat_ceiling(case, variable).into_iter();
    recorded.chain(ratings(case, variable)).chain(hottest).collect()
}

/// What is advised of preheat and interpass temperature where no record ends them.
fn heat_ceiling(case: &Case<'_>, variable: Variable) -> Option<Bound> {
    let heat = matches!(variable, Variable::Preheat | Variable::Interpass);
    let range = heat.then(|| hottest(case, variable)).flatten()?.amounts();
    Some(Bound { range, owner: Owner::practice(HOTTEST_SOURCE), force: Force::Advised })
}

/// Upper ends from the rating plate and the gun, as the check `station-output` holds them.
fn ratings(case: &Case<'_>, variable: Variable) -> Vec<Bound> {
    let Some(station) = case.station else { return Vec::new() };
    let owner = Authority::Station(station).owner();
    let highest = match variable {
        Variable::Current => vec![
            (station.rated_current().map(Quantity::amount), Force::Required),
            (station.gun.map(|gun| gun.current.amount()), Force::Required),
            (
                station.lasting_current(case.setup.job.arc_on_share).map(Quantity::amount),
                Force::Advised,
            ),
        ],
        Variable::Voltage => {
            vec![(station.rated_voltage().map(Quantity::amount), Force::Advised)]
        }
        _ => Vec::new(),
    };
    let bound = |(max, force)| {
        let range = AmountRange { min: None, max: Some(max?) };
        Some(Bound { range, owner: owner.clone(), force })
    };
    highest.into_iter().filter_map(bound).collect()
}

/// Ranges of common practice on the variable, one per source.
pub(super) fn practice(case: &Case<'_>, variable: Variable) -> Vec<Bound> {
    let bound = |advice: Advice| {
        let (of, range) = advised(&advice.range)?;
        let owner = Owner::practice(advice.source);
        (of == variable).then_some(Bound { range, owner, force: Force::Advised })
    };
    case.practice().advice().filter_map(bound).collect()
}

/// Variable and range of a piece of practice; `None` for the bead, which is no number.
fn advised(range: &AdvisedRange) -> Option<(Variable, AmountRange)> {
    match range {
        AdvisedRange::TravelAngle(range) => Some((Variable::TravelAngle, range.amounts())),
        AdvisedRange::WorkAngle(range) => Some((Variable::WorkAngle, range.amounts())),
        AdvisedRange::ElectricalStickOut(range) => Some((Variable::StickOut, range.amounts())),
        AdvisedRange::Current(range) => Some((Variable::Current, range.amounts())),
        AdvisedRange::Voltage(range) => Some((Variable::Voltage, range.amounts())),
        AdvisedRange::WeaveWidth(range) => Some((Variable::WeaveWidth, range.amounts())),
        AdvisedRange::BeadPattern(_) => None,
    }
}
