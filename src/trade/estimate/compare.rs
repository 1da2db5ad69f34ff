//! Options for one joint side by side, on an equal basis.

use std::cmp::Ordering;

use time::Date;

use super::{
    Cost, Costs, EstimateError, JointEstimate, JointPrices, JointWork, Price, estimate_joint,
    joint_costs,
};
use crate::{
    quantity::{Area, Density, DurationKind, EnergyKind, RunLength},
    trade::coded,
};

/// The most options that one comparison takes.
pub const MOST_OPTIONS: usize = 10;

coded! {
    /// What options are ranked by; the least is first.
    pub enum RankBy: "what options are ranked by" {
        /// Total cost.
        Cost = "cost",
        /// Time with all pauses.
        ElapsedTime = "elapsed-time",
        /// Time that the arc burns.
        ArcTime = "arc-time",
        /// Filler to buy.
        Filler = "filler",
    }
}

/// What is the same for every option.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct EqualBasis {
    /// Cross-section of the joint.
    pub section: Area,
    /// Density of the weld metal.
    pub density: Density,
    /// Length of the joint.
    pub length: RunLength,
    /// Day of the prices.
    pub day: Date,
    /// Price of labour and overhead.
    pub labour: Option<Price<DurationKind>>,
    /// Price of electric energy.
    pub energy: Option<Price<EnergyKind>>,
}

/// Whether the option may be welded, as the check of its setup found.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Permission {
    /// It may.
    Allowed,
    /// It may not, or that is not known; with the reason.
    NotAllowed(String),
}

/// One way to weld the joint. Its labour and energy prices are those of the basis.
#[derive(Debug, Clone, PartialEq)]
pub struct EstimateOption {
    /// What the caller calls it.
    pub name: String,
    /// How it is welded.
    pub work: JointWork,
    /// Prices of filler, flux and gas; labour and energy here are not looked at.
    pub prices: JointPrices,
    /// Whether it may be welded.
    pub permission: Permission,
}

/// An option with its place.
#[derive(Debug, Clone, PartialEq)]
pub struct Ranked {
    /// Place, from 1; equal options share one.
    pub place: usize,
    /// What the caller calls it.
    pub name: String,
    /// Its figures, with the operating factor they rest on.
    pub estimate: JointEstimate,
    /// What it costs in total.
    pub costs: Costs,
}

/// An option without a place, and why.
#[derive(Debug, Clone, PartialEq)]
pub struct Unranked {
    /// What the caller calls it.
    pub name: String,
    /// Why it has no place.
    pub reason: String,
    /// Its figures; `None` where it may not be welded.
    pub estimate: Option<JointEstimate>,
}

/// All options: those with a place in its order, then the others in the order given.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Comparison {
    /// With a place.
    pub ranked: Vec<Ranked>,
    /// Without one.
    pub unranked: Vec<Unranked>,
}

/// Compares options for one joint. Options that are not allowed, or that lack the figure to rank
/// by, carry their reason and get no place.
///
/// # Errors
/// [`EstimateError::TooManyOptions`] above [`MOST_OPTIONS`], [`EstimateError::TwoCurrencies`]
/// where costs of different currencies would be ranked, and the errors of each estimate.
pub fn compare_options(
    basis: &EqualBasis,
    options: &[EstimateOption],
    by: RankBy,
) -> Result<Comparison, EstimateError> {
    if options.len() > MOST_OPTIONS {
        let given = options.len();
        return Err(EstimateError::TooManyOptions { given, most: MOST_OPTIONS });
    }
    let mut comparison = Comparison::default();
    for option in options {
        let name = option.name.clone();
        if let Permission::NotAllowed(reason) = &option.permission {
            let reason = reason.clone();
            comparison.unranked.push(Unranked { name, reason, estimate: None });
            continue;
        }
        let estimate = estimate_joint(basis.section, basis.density, basis.length, &option.work)?;
        let prices = JointPrices { labour: basis.labour, energy: basis.energy, ..option.prices };
        let costs = joint_costs(&estimate.total, &prices, basis.day)?;
        match lacking(&costs, by) {
            Some(reason) => {
                let reason = reason.to_owned();
                comparison.unranked.push(Unranked { name, reason, estimate: Some(estimate) });
            }
            None => comparison.ranked.push(Ranked { place: 1, name, estimate, costs }),
        }
    }
    place(&mut comparison.ranked, by)?;
    Ok(comparison)
}

/// Why an option cannot be ranked; `None` where it can.
const fn lacking(costs: &Costs, by: RankBy) -> Option<&'static str> {
    match (by, costs.total) {
        (RankBy::Cost, Cost::Unknown(reason)) => Some(reason),
        (RankBy::Cost, Cost::NotUsed) => Some("nothing to pay for"),
        _ => None,
    }
}

/// Gives every option its place: one more than the number of better ones.
fn place(ranked: &mut [Ranked], by: RankBy) -> Result<(), EstimateError> {
    let mut places = Vec::with_capacity(ranked.len());
    for option in ranked.iter() {
        let mut better = 0;
        for other in ranked.iter() {
            better += usize::from(order(other, option, by)?.is_lt());
        }
        places.push(better + 1);
    }
    for (option, place) in ranked.iter_mut().zip(places) {
        option.place = place;
    }
    ranked.sort_by_key(|option| option.place);
    Ok(())
}

fn order(one: &Ranked, other: &Ranked, by: RankBy) -> Result<Ordering, EstimateError> {
    let (a, b) = (&one.estimate.total, &other.estimate.total);
    match by {
        RankBy::ElapsedTime => Ok(a.elapsed.compare(b.elapsed)),
        RankBy::ArcTime => Ok(a.arc.compare(b.arc)),
        RankBy::Filler => Ok(a.filler.compare(b.filler)),
        RankBy::Cost => match (one.costs.total, other.costs.total) {
            (Cost::Known(a), Cost::Known(b)) if a.currency() == b.currency() => {
                Ok(a.amount().cmp(&b.amount()))
            }
            (Cost::Known(a), Cost::Known(b)) => {
                Err(EstimateError::TwoCurrencies { one: a.currency(), other: b.currency() })
            }
            // Options without a cost were left out before.
            _ => Ok(Ordering::Equal),
        },
    }
}
