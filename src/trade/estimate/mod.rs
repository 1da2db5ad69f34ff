//! What a joint takes: time, wire, flux, gas, power, labour, money; and a comparison of options.
//!
//! What has no price or no reading is unknown and leaves the sum unknown; it is never zero.

mod compare;
mod cost;
mod error;
mod figures;
mod money;
mod price;

pub use compare::{
    Comparison, EqualBasis, EstimateOption, MOST_OPTIONS, Permission, RankBy, Ranked, Unranked,
    compare_options,
};
pub use cost::{Cost, Costs, JOINT_COST, JointPrices, joint_costs};
pub use error::EstimateError;
pub use figures::{
    FLUX_USED, Figures, Fluxing, Gassing, JointEstimate, JointWork, Powering, SUPPLY_ENERGY, Use,
    estimate_joint, flux_used, supply_energy,
};
pub use money::{Currency, Money};
pub use price::{Price, PriceValidity};
