//! Welding computations and tables, one file per family; pure, with the source beside each.

mod arc_time;
mod bead;
mod burn_off;
mod coded;
mod composition;
mod cooling;
mod corners;
mod deposition;
pub mod designation;
mod estimate;
mod filter_shade;
mod formula;
mod gas;
mod gun_rating;
mod hand_pace;
mod heat;
mod job;
mod joint;
mod melting;
mod metal_group;
mod position;
mod power_source;
mod preheat;
mod process;
mod rounding;
mod run_plan;
mod scope;
mod steel_family;
mod steel_limits;
mod stick_out;
mod symptom;
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
pub use burn_off::{
    BURN_OFF, BURN_OFF_FIT, BurnOff, BurnOffBasis, BurnOffError, BurnOffFit, BurnOffForm,
    BurnOffPoint, BurnOffSpan, CURRENT_FOR_FEED, CurrentBand, DEFAULT_STICK_OUT_EFFECT,
    GENERIC_BURN_OFF, SPECIFIC_MELT_RATE, StickOutEffect, generic_burn_off, generic_current_band,
    specific_melt_rate,
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
pub use estimate::{
    Comparison, Cost, Costs, Currency, EqualBasis, EstimateError, EstimateOption, FLUX_USED,
    Figures, Fluxing, Gassing, JOINT_COST, JointEstimate, JointPrices, JointWork, MOST_OPTIONS,
    Money, Permission, Powering, Price, PriceValidity, RankBy, Ranked, SUPPLY_ENERGY, Unranked,
    Use, compare_options, estimate_joint, flux_used, joint_costs, supply_energy,
};
pub use filter_shade::{ShadeAnswer, ShadeBasis, minimum_shade};
pub use formula::{Confidence, Formula};
pub use gas::{Gas, GasComponent, GasError, GasGroup, GasMixture};
pub use gun_rating::{
    GUN_DERATING_SOURCE, GunCooling, GunLimit, GunLimitBasis, GunRating, gun_limit,
};
pub use hand_pace::HandPace;
pub use heat::*;
pub use job::{BeadPattern, JointKind, Polarity, Progression, RunClass};
pub use joint::{
    BEVEL_GROOVE, BackGouge, BevelSide, CAP_SECTION, Cap, DOUBLE_BEVEL_GROOVE, DOUBLE_U_GROOVE,
    DOUBLE_VEE_GROOVE, DoubleBevel, DoubleJ, DoubleU, DoubleVee, FACE_PARABOLA, FACE_SEGMENT,
    FILLET_SECTION, FILLET_THROAT, Fillet, FilletFace, GOUGE_SECTION, Joint, JointError,
    RootReinforcement, RoundSide, SQUARE_GROOVE, SingleBevel, SingleJ, SingleU, SingleVee, Square,
    U_GROOVE, VEE_GROOVE, VeeOnBacking, VeeSide, WeldSection, face_parabola, face_segment,
    leg_for_throat,
};
pub use melting::{MELTED_AREA, arc_energy_to_melt, melted_area, melting_efficiency};
pub use metal_group::{MetalGroup, UnknownMetalGroup};
pub use position::{Position, PositionClaim, UnknownPosition};
pub use power_source::*;
pub use preheat::*;
pub use process::{Process, UnknownProcess};
pub use rounding::rounded_inward;
pub use run_plan::{
    NUMBER_OF_RUNS, PREQUALIFIED_SOURCE, PrequalifiedColumn, PrequalifiedLimits, RunPlan,
    RunPlanError, RunsSetBy, SizeLimit, fillet_runs, groove_runs, prequalified_column,
    prequalified_limits, runs_for_area,
};
pub use scope::OutOfRange;
pub use steel_family::{OutsideScope, SteelFamily};
pub use steel_limits::{
    GREATEST_CEV, INTERPASS_AWS, INTERPASS_PRACTICE, INTERPASS_US_NAVY, SteelCondition,
    SteelLimitError, StructuralGrade, greatest_cev, interpass_by_aws, interpass_by_practice,
    interpass_by_us_navy,
};
pub use stick_out::{
    ELECTRICAL_STICK_OUT, electrical_stick_out, electrical_stick_out_span, visible_stick_out,
};
pub use symptom::{
    Cause, Change, Direction, Remedy, SettingChange, SettingVariable, Step, Symptom, Upkeep,
    symptom_advice,
};
pub use technique::{
    Advice, AdvisedRange, AdvisedVariable, SprayMetal, TechniqueCase, advice, spray_transition,
};
pub use travel_speed::{TRAVEL_SPEED, travel_speed, travel_speed_span};
pub use wire::{
    SOLID_WIRE_MASS, TUBULAR_WIRE_DENSITY, WireMass, WireMassBasis, cylinder_mass, steel_density,
    tubular_wire_density,
};
