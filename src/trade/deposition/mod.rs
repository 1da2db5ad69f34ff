//! Metal melted and deposited per hour of arc, and the share of wire that becomes weld metal.

mod efficiency;
mod rate;

pub use efficiency::{
    STUB_LOSS, TypicalEfficiency, efficiency_with_stub, typical_deposition_efficiencies,
};
pub use rate::{
    DEPOSITION_RATE, HANDBOOK_MELT_RATE, MELT_RATE, deposition_rate, handbook_melt_rate, melt_rate,
};
