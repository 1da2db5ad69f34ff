//! Welding computations and tables, one file per family; pure, with the source beside each.

mod arc_time;
mod bead;
mod coded;
mod composition;
mod cooling;
mod corners;
mod deposition;
pub mod designation;
mod filter_shade;
mod formula;
mod gas;
mod heat;
mod job;
mod metal_group;
mod position;
mod power_source;
mod preheat;
mod process;
mod rounding;
mod scope;
mod steel_family;
mod stick_out;
mod technique;
mod travel_speed;
mod wire;

pub use arc_time::{
    ARC_TIME, ELAPSED_TIME, FILLER_BOUGHT, GAS_USED, Manner, RUN_TIME, arc_time, elapsed_time,
    filler_bought, gas_used, run_time, usual_operating_factor,
};
pub use bead::{
    FILLET_AREA, RUN_AREA, RunMetal, TRAVEL_SPEED_FOR_LEG, fillet_area, joint_mass, leg_band,
    run_area, travel_speed_for_leg, usual_shape_factors, weld_metal_mass,
};
pub use coded::Coded;
pub(crate) use coded::coded;
pub use composition::*;
pub use cooling::*;
pub use deposition::{
    DEPOSITION_RATE, HANDBOOK_MELT_RATE, MELT_RATE, STUB_LOSS, TypicalEfficiency, deposition_rate,
    efficiency_with_stub, handbook_melt_rate, melt_rate, typical_deposition_efficiencies,
};
pub use designation::{
    Agreement, Designation, DesignationError, FillerKind, GasFit, GasRequirement, PolarityRule,
    VerticalRule,
};
pub use filter_shade::{ShadeAnswer, ShadeBasis, minimum_shade};
pub use formula::{Confidence, Formula};
pub use gas::{Gas, GasComponent, GasError, GasGroup, GasMixture};
pub use heat::*;
pub use job::{BeadPattern, JointKind, Polarity, Progression, RunClass};
pub use metal_group::{MetalGroup, UnknownMetalGroup};
pub use position::{Position, PositionClaim, UnknownPosition};
pub use power_source::*;
pub use preheat::*;
pub use process::{Process, UnknownProcess};
pub use rounding::rounded_inward;
pub use scope::OutOfRange;
pub use steel_family::{OutsideScope, SteelFamily};
pub use stick_out::{
    ELECTRICAL_STICK_OUT, electrical_stick_out, electrical_stick_out_span, visible_stick_out,
};
pub use technique::{
    Advice, AdvisedRange, AdvisedVariable, SprayMetal, TechniqueCase, advice, spray_transition,
};
pub use travel_speed::{TRAVEL_SPEED, travel_speed, travel_speed_span};
pub use wire::{
    SOLID_WIRE_MASS, TUBULAR_WIRE_DENSITY, WireMass, WireMassBasis, cylinder_mass, steel_density,
    tubular_wire_density,
};
