//! Welding computations and tables: a handbook of shop arithmetic that runs.
//!
//! Every formula is a constant of type [`Formula`] whose page gives the equation in the trade's symbols, where
//! it is printed, where it holds and how well it was confirmed; the function beside it takes and gives typed
//! quantities ([`crate::quantity`]), so that no unit is ever guessed. Outside its validity a formula answers with
//! an error that says so, never with a clipped number. What is not known stays unknown: it is never taken as
//! zero. A number from memory, or of common practice without a source, says that of itself ([`Confidence`]).
//!
//! # Where to look
//!
//! | question | family |
//! |---|---|
//! | How much heat does this run bring in? | [`heat`]: from averages, energy, power or a record; several arcs; run-out length; leads; uncertainty |
//! | How fast does it cool, how wide is the heated zone? | [`cooling`]: t8/5 and the heat inputs that keep one, peak temperature, cooling rate |
//! | How hard may the steel get? | [`composition`]: CE, CET, Pcm, CEN with bounds for what nobody analysed; [`steel_limits`] |
//! | How much preheat? | [`preheat`]: four methods side by side, combined thickness, where to measure |
//! | Is this electrode still dry? | [`filler_care`]: exposure, holding, baking, and what is left of the class |
//! | How much metal goes into the joint? | [`joint`]: every usual preparation, caps, gouges |
//! | How big is one run, how many are needed? | [`bead`], [`run_plan`] |
//! | How fast does the wire melt, what is laid down? | [`wire`], [`deposition`], [`melting`] |
//! | Which current follows from feed and stick-out? | [`burn_off`], [`stick_out`] |
//! | How long does it take, what does it cost? | [`mod@arc_time`], [`estimate`]; [`mod@travel_speed`], [`hand_pace`] |
//! | What can source and gun carry? | [`power_source`], [`gun_rating`] |
//! | What does this designation or gas say? | [`designation`], [`gas`] |
//! | What is usual, and what is wrong with this bead? | [`technique`], [`symptom`] |
//! | How likely is a reading good? | [`mod@conformity`] |
//! | What protects the eyes? | [`filter_shade`] |
//! | What do the words mean? | [`process`], [`position`], [`job`], [`metal_group`], [`steel_family`] |
//!
//! # From a drawing to a weld
//!
//! 1. The drawing asks for a leg or a groove: [`joint::Joint::area`] says how much metal that is.
//! 2. Wire, feed and travel speed give the area of one run, [`bead::run_area`]; the limits on one run give their
//!    number, [`run_plan`].
//! 3. Volts, amps and travel speed give the arc energy, [`heat::arc_energy_from_averages`]; times the efficiency of the
//!    process it is the heat input, [`heat::heat_input`]. The two are types of their own and cannot be mixed up.
//! 4. Heat input, thickness and preheat give the cooling time, [`cooling::cooling_time`]; composition, hydrogen and
//!    thickness the preheat, [`preheat`]. Where methods differ all are shown; the code that governs chooses.
//! 5. Metal over deposition rate is arc time, over the operating factor elapsed time; with prices that is a
//!    [`estimate::JointEstimate`], and several of them a [`estimate::Comparison`].
//!
//! Limits are rounded inward and preheat up ([`rounded_inward`]), so that a printed number never allows more than
//! the exact one.

pub mod arc_time;
pub mod bead;
pub mod burn_off;
mod code_edition;
mod coded;
pub mod composition;
pub mod conformity;
pub mod cooling;
mod corners;
pub mod deposition;
pub mod designation;
pub mod estimate;
pub mod filler_care;
pub mod filter_shade;
mod formula;
pub mod gas;
pub mod gun_rating;
pub mod hand_pace;
pub mod heat;
pub mod job;
pub mod joint;
pub mod melting;
pub mod metal_group;
pub mod position;
pub mod power_source;
pub mod preheat;
pub mod process;
mod rounding;
pub mod run_plan;
mod scope;
pub mod steel_family;
pub mod steel_limits;
pub mod stick_out;
pub mod symptom;
pub mod technique;
pub mod travel_speed;
pub mod wire;

#[doc(hidden)]
pub use arc_time::{
    ARC_TIME, ELAPSED_TIME, FILLER_BOUGHT, GAS_USED, Manner, RUN_TIME, arc_time, elapsed_time,
    filler_bought, gas_used, run_time, usual_operating_factor,
};
#[doc(hidden)]
pub use bead::{
    FILLET_AREA, RUN_AREA, RunMetal, TRAVEL_SPEED_FOR_LEG, fillet_area, joint_mass, leg_band,
    run_area, run_area_at, travel_speed_for_leg, usual_shape_factors, weld_metal_mass,
};
#[doc(hidden)]
pub use burn_off::{
    BURN_OFF, BURN_OFF_FIT, BurnOff, BurnOffBasis, BurnOffError, BurnOffFit, BurnOffForm,
    BurnOffPoint, BurnOffSpan, CURRENT_FOR_FEED, CurrentBand, DEFAULT_STICK_OUT_EFFECT,
    GENERIC_BURN_OFF, SPECIFIC_MELT_RATE, StickOutEffect, generic_burn_off, generic_current_band,
    specific_melt_rate,
};
pub use code_edition::CodeEdition;
pub use coded::Coded;
pub(crate) use coded::coded;
#[doc(hidden)]
pub use composition::*;
pub(crate) use conformity::probability;
#[doc(hidden)]
pub use conformity::{CONFORMITY_NORMAL, CONFORMITY_RECTANGULAR, Conformity};
#[doc(hidden)]
pub use cooling::*;
#[doc(hidden)]
pub use deposition::{
    DEPOSITION_RATE, HANDBOOK_MELT_RATE, MELT_RATE, PRINTED_DEPOSITION_RATE, PrintedRates,
    STUB_LOSS, TypicalEfficiency, deposition_rate, efficiency_with_stub, handbook_melt_rate,
    melt_rate, typical_deposition_efficiencies,
};
#[doc(hidden)]
pub use designation::{
    Agreement, Designation, DesignationError, FillerKind, GasFit, GasRequirement, PolarityRule,
    VerticalRule,
};
#[doc(hidden)]
pub use estimate::{
    Comparison, Cost, Costs, Currency, EqualBasis, EstimateError, EstimateOption, FLUX_USED,
    Figures, Fluxing, Gassing, JOINT_COST, JointEstimate, JointPrices, JointWork, MOST_OPTIONS,
    Money, Permission, Powering, Price, PriceValidity, RankBy, Ranked, SUPPLY_ENERGY, Unranked,
    Use, compare_options, estimate_joint, flux_used, joint_costs, supply_energy,
};
#[doc(hidden)]
pub use filler_care::{
    BakeResult, BakingRule, CareAction, CareFitness, CareLoss, CareOrderError, CarePlace,
    CareRules, CareState, CareStep, ExposureLimit, care_state, d11_care, may_follow,
};
#[doc(hidden)]
pub use filter_shade::{ShadeAnswer, ShadeBasis, minimum_shade};
pub(crate) use formula::formula;
pub use formula::{Confidence, Formula};
#[doc(hidden)]
pub use gas::{Gas, GasComponent, GasError, GasGroup, GasMixture};
#[doc(hidden)]
pub use gun_rating::{
    GUN_DERATING_SOURCE, GunCooling, GunLimit, GunLimitBasis, GunRating, gun_limit,
};
#[doc(hidden)]
pub use hand_pace::{HandPace, whole_seconds};
pub(crate) use heat::ErrorAt;
#[doc(hidden)]
pub use heat::*;
#[doc(hidden)]
pub use job::{BeadPattern, JointKind, Polarity, Progression, RunClass};
#[doc(hidden)]
pub use joint::{
    BEVEL_GROOVE, BackGouge, BevelSide, CAP_SECTION, Cap, DOUBLE_BEVEL_GROOVE, DOUBLE_U_GROOVE,
    DOUBLE_VEE_GROOVE, DoubleBevel, DoubleJ, DoubleU, DoubleVee, FACE_PARABOLA, FACE_SEGMENT,
    FILLET_SECTION, FILLET_THROAT, Fillet, FilletFace, GOUGE_SECTION, Joint, JointError,
    RootReinforcement, RoundSide, SIDES_OF_A_JOINT, SQUARE_GROOVE, SideSection, SingleBevel,
    SingleJ, SingleU, SingleVee, Square, U_GROOVE, VEE_GROOVE, VeeOnBacking, VeeSide, WeldSection,
    WeldSide, WeldSides, face_parabola, face_segment, leg_for_throat,
};
#[doc(hidden)]
pub use melting::{MELTED_AREA, arc_energy_to_melt, melted_area, melting_efficiency};
#[doc(hidden)]
pub use metal_group::{MetalGroup, UnknownMetalGroup};
#[doc(hidden)]
pub use position::{Position, PositionClaim, UnknownPosition};
#[doc(hidden)]
pub use power_source::*;
#[doc(hidden)]
pub use preheat::*;
#[doc(hidden)]
pub use process::{Process, UnknownProcess};
pub use rounding::rounded_inward;
#[doc(hidden)]
pub use run_plan::{
    NUMBER_OF_RUNS, PREQUALIFIED_SOURCE, PrequalifiedColumn, PrequalifiedLimits, RunPlan,
    RunPlanError, RunsSetBy, SizeLimit, fillet_runs, groove_runs, prequalified_column,
    prequalified_limits, runs_for_area,
};
pub use scope::OutOfRange;
#[doc(hidden)]
pub use steel_family::{OutsideScope, SteelFamily};
#[doc(hidden)]
pub use steel_limits::{
    GREATEST_CEV, INTERPASS_AWS, INTERPASS_PRACTICE, INTERPASS_US_NAVY, SteelCondition,
    SteelLimitError, StructuralGrade, greatest_cev, interpass_by_aws, interpass_by_practice,
    interpass_by_us_navy,
};
#[doc(hidden)]
pub use stick_out::{
    ELECTRICAL_STICK_OUT, electrical_stick_out, electrical_stick_out_span, visible_stick_out,
};
#[doc(hidden)]
pub use symptom::{
    Cause, Change, Direction, Remedy, SettingChange, SettingVariable, Step, Symptom, Upkeep,
    symptom_advice,
};
#[doc(hidden)]
pub use technique::{
    Advice, AdvisedRange, AdvisedVariable, Practice, SprayMetal, TechniqueCase, advice,
    spray_transition,
};
#[doc(hidden)]
pub use travel_speed::{TRAVEL_SPEED, travel_speed, travel_speed_span};
#[doc(hidden)]
pub use wire::{
    SOLID_WIRE_MASS, TUBULAR_WIRE_DENSITY, WireMass, WireMassBasis, cylinder_mass, steel_density,
    tubular_wire_density,
};
