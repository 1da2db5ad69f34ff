//! Minimum preheat against hydrogen cracking, by four methods that stand side by side and are never
//! averaged: they can differ by more than 50 °C (ISO/TR 17844:2004 compares them).
//!
//! `method_b` and `method_a` are EN 1011-2; `category` and `hydrogen_control` are AWS D1.1.
//!
//! Method A needs charts beyond its printed table; they are curves under copyright, so an organisation keeps points it
//! read itself ([`ChartReading`]), each with who read it and when. Without one the answer is "chart required".
//!
//! Worked: CET 0.33 %, 20 mm, H5 and 1.0 kJ/mm ask for 79.03 °C by Method B, rounded up to 80 °C.

mod category;
mod combined_thickness;
mod error;
mod hydrogen;
mod hydrogen_control;
mod hydrogen_control_table;
mod measuring;
mod method_a;
mod method_b;
mod method_b_parts;

pub use category::{CATEGORY_PREHEAT, CategoryPreheat, PreheatCategory, category_preheat};
pub use combined_thickness::{
    COMBINED_THICKNESS, HeatPaths, PlateStrip, combined_thickness, mean_thickness_near_weld,
};
pub use error::PreheatError;
pub use hydrogen::{HydrogenClass, HydrogenLevel, HydrogenScale, LevelOfClass};
pub use hydrogen_control::{
    HYDROGEN_CONTROL, HydrogenControl, HydrogenControlPreheat, Restraint, SUSCEPTIBILITY_INDEX,
    SusceptibilityGroup, SusceptibilityPath, hydrogen_control_preheat, susceptibility_index,
};
pub use measuring::{
    HEATED_WIDTH, MEASURING_POINT, MeasuringPoint, PreheatExtent, heated_width, measuring_point,
};
pub use method_a::{ChartReading, METHOD_A_TABLE, MethodA, MethodAAnswer, method_a_preheat};
pub use method_b::{
    HEAT_INPUT_FOR_PREHEAT, HeatInputNeed, METHOD_B, MethodB, MethodBConstants, MethodBPreheat,
    NotChecked, PreheatNeed, governing_cet, heat_input_for_preheat, method_b_preheat,
};
pub use method_b_parts::{METHOD_B_PARTS, PreheatParts, method_b_parts};
