//! Filler metal and flux of a run.

use crate::{
    quantity::{Diameter, Share},
    trade::{Designation, FillerKind, HydrogenClass, coded},
};

coded! {
    /// How filler beside the electrode enters the pool.
    pub enum HotOrCold: "hot or cold filler" {
        /// Without current of its own.
        Cold = "cold",
        /// Heated by current of its own.
        Hot = "hot",
    }
}

coded! {
    /// How a flux acts on the alloy of the weld metal.
    pub enum FluxKind: "flux kind" {
        /// Neutral.
        Neutral = "neutral",
        /// Active.
        Active = "active",
        /// Alloying.
        Alloying = "alloying",
    }
}

/// Filler added to the pool beside the electrode, or metal powder.
#[derive(Debug, Clone, PartialEq)]
pub struct FillerAddition {
    /// Wire or powder, in words or by designation.
    pub designation: Option<String>,
    /// Hot or cold.
    pub heating: Option<HotOrCold>,
    /// Volume of the addition, as a share of the deposited metal.
    pub share: Option<Share>,
}

/// Flux of a submerged arc.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Flux {
    /// Designation.
    pub designation: Option<String>,
    /// Maker.
    pub maker: Option<String>,
    /// Trade name.
    pub trade_name: Option<String>,
    /// Batch.
    pub batch: Option<String>,
    /// Neutral, active or alloying.
    pub kind: Option<FluxKind>,
    /// Whether crushed slag was in it.
    pub recrushed_slag: Option<bool>,
}

/// Filler metal that made a run.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Filler {
    /// Designation as read.
    pub designation: Option<Designation>,
    /// Designation as written, where it could not be read or names no standard.
    pub designation_text: Option<String>,
    /// Product form, where the designation does not state it.
    pub kind: Option<FillerKind>,
    /// Maker.
    pub maker: Option<String>,
    /// Trade name.
    pub trade_name: Option<String>,
    /// Batch or lot.
    pub batch: Option<String>,
    /// Nominal diameter of electrode, wire or rod.
    pub diameter: Option<Diameter>,
    /// Hydrogen class, where the designation does not state it.
    pub hydrogen: Option<HydrogenClass>,
    /// F-Number of ASME IX, table QW-432; ISO 15614-1 table A.1.
    pub f_number: Option<String>,
    /// A-Number of ASME IX, table QW-442; ISO 15614-1 table A.2.
    pub a_number: Option<String>,
    /// Handling: baking, holding, time exposed, in words.
    pub handling: Option<String>,
}
