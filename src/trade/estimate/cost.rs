//! What an estimate costs.

use time::Date;

use super::{EstimateError, Figures, Money, Price, Use};
use crate::{
    quantity::{DurationKind, EnergyKind, GasVolumeKind, Kind, MassKind, Quantity},
    trade::formula,
};

formula! {
    /// Cost of a joint.
    pub const JOINT_COST {
        name: "joint-cost",
        equation: "cost = labour * T + filler * M_bought + flux * M_flux + gas * V + tariff * W",
        source: "per kilogram of weld metal as in Basic Welding Filler Metal Technology, correspondence \
                 course, Lesson 9, 2000: rate / (DR OF) + filler / eta + gas q / DR + tariff P / \
                 (eta_s DR)",
        validity: "labour for the elapsed time; overheads as far as the labour rate holds them",
        confidence: TextRead,
    }
}

/// Prices; one that is missing leaves its cost unknown.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct JointPrices {
    /// Labour and overhead.
    pub labour: Option<Price<DurationKind>>,
    /// Filler metal.
    pub filler: Option<Price<MassKind>>,
    /// Flux.
    pub flux: Option<Price<MassKind>>,
    /// Shielding gas.
    pub gas: Option<Price<GasVolumeKind>>,
    /// Electric energy.
    pub energy: Option<Price<EnergyKind>>,
}

/// The cost of one thing.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Cost {
    /// Known.
    Known(Money),
    /// The process does not use it.
    NotUsed,
    /// Unknown, and why.
    Unknown(&'static str),
}

/// Costs by what they are for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Costs {
    /// Labour and overhead.
    pub labour: Cost,
    /// Filler metal.
    pub filler: Cost,
    /// Flux.
    pub flux: Cost,
    /// Shielding gas.
    pub gas: Cost,
    /// Electric energy.
    pub energy: Cost,
    /// The sum; unknown where one part is.
    pub total: Cost,
}

/// What figures cost at these prices on a day, [`JOINT_COST`].
///
/// # Errors
/// [`EstimateError::TwoCurrencies`], [`EstimateError::TooMuch`].
pub fn joint_costs(
    figures: &Figures,
    prices: &JointPrices,
    day: Date,
) -> Result<Costs, EstimateError> {
    let labour = cost(
        prices.labour,
        Use::Amount(figures.elapsed),
        day,
        [
            "no price for labour",
            "the price of labour does not hold on this day",
            "elapsed time not known",
        ],
    )?;
    let filler = cost(
        prices.filler,
        Use::Amount(figures.filler),
        day,
        [
            "no price for the filler",
            "the price of the filler does not hold on this day",
            "use of filler not known",
        ],
    )?;
    let flux = cost(
        prices.flux,
        figures.flux,
        day,
        [
            "no price for the flux",
            "the price of the flux does not hold on this day",
            "use of flux not known",
        ],
    )?;
    let gas = cost(
        prices.gas,
        figures.gas,
        day,
        [
            "no price for the gas",
            "the price of the gas does not hold on this day",
            "use of gas not known",
        ],
    )?;
    let energy = cost(
        prices.energy,
        figures.energy,
        day,
        [
            "no price for energy",
            "the price of energy does not hold on this day",
            "use of energy not known",
        ],
    )?;
    let total = total([labour, filler, flux, gas, energy])?;
    Ok(Costs { labour, filler, flux, gas, energy, total })
}

/// Reasons: no price, price of other days, use not known.
fn cost<K: Kind>(
    price: Option<Price<K>>,
    used: Use<Quantity<K>>,
    day: Date,
    [no_price, other_days, no_use]: [&'static str; 3],
) -> Result<Cost, EstimateError> {
    let amount = match used {
        Use::Amount(amount) => amount,
        Use::NotUsed => return Ok(Cost::NotUsed),
        Use::Unknown => return Ok(Cost::Unknown(no_use)),
    };
    let Some(price) = price else { return Ok(Cost::Unknown(no_price)) };
    Ok(price.of(amount, day)?.map_or(Cost::Unknown(other_days), Cost::Known))
}

/// The sum of all parts that are used; the first unknown one makes it unknown.
fn total(parts: [Cost; 5]) -> Result<Cost, EstimateError> {
    let mut sum: Option<Money> = None;
    for part in parts {
        match part {
            Cost::Unknown(_) => return Ok(part),
            Cost::NotUsed => {}
            Cost::Known(money) => {
                sum = Some(sum.map_or(Ok(money), |sum| sum.plus(money))?);
            }
        }
    }
    Ok(sum.map_or(Cost::NotUsed, Cost::Known))
}
