//! What a joint takes: time, wire, flux, gas, power, labour, money; and a comparison of options.
//!
//! What has no price or no reading is unknown and leaves the sum unknown; it is never zero.
//!
//! Options are compared on an equal basis: one joint, length, position and day, one price of labour and energy, each
//! with its own operating factor. One that is not allowed carries its reason and no place. Money is decimal, each
//! price has its currency and its days; two currencies are never added.
//!
//! Worked: 42/h at 3.5 kg/h and 35 %, wire 2.90/kg at 86 %, gas 18 L/min at 9.00/m³, 6.21 kW at 85 % and 0.18/kWh: a
//! kilogram costs 34.29 + 3.372 + 2.777 + 0.3757 = 40.81.

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
