//! Filler metals, fluxes and gases of a run, on the wire.

use crate::{
    qualify::record::{Filler, FillerAddition, Flux, FluxKind, Gases, HotOrCold, Measured},
    quantity::{Diameter, GasFlowKind, OutsideDiameter, Share},
    trade::{Designation, FillerKind, Gas, HydrogenClass},
    wire::wire_object,
};

wire_object! {
    /// Filler metal that made a run.
    pub struct FillerDocument {
        /// Designation as printed, such as `AWS A5.20: E71T-1M`. One that cannot be read is kept as text.
        pub designation: Option<String>,
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
        /// F-Number of ASME IX.
        pub f_number: Option<String>,
        /// A-Number of ASME IX.
        pub a_number: Option<String>,
        /// Baking, holding, time exposed, in words.
        pub handling: Option<String>,
    }
}

wire_object! {
    /// Filler beside the electrode, or metal powder.
    pub struct FillerAdditionDocument {
        /// Wire or powder, in words or by designation.
        pub designation: Option<String>,
        /// Hot or cold.
        pub heating: Option<HotOrCold>,
        /// Volume of the addition, as a share of the deposited metal.
        pub share: Option<Share>,
    }
}

wire_object! {
    /// Flux of a submerged arc.
    pub struct FluxDocument {
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
}

wire_object! {
    /// Gases around the arc and behind the root; `none` states that there was none.
    pub struct GasesDocument {
        /// Shielding gas.
        pub shielding: Option<Gas>,
        /// Trade name of the shielding gas.
        pub shielding_name: Option<String>,
        /// Shielding gas flow.
        pub flow: Option<Measured<GasFlowKind>>,
        /// Inside diameter of the nozzle.
        pub nozzle: Option<OutsideDiameter>,
        /// Gas behind the root.
        pub backing: Option<Gas>,
        /// Flow of the gas behind the root.
        pub backing_flow: Option<Measured<GasFlowKind>>,
        /// Trailing gas.
        pub trailing: Option<Gas>,
        /// Plasma gas.
        pub plasma: Option<Gas>,
    }
}

impl FillerDocument {
    /// As the rules read it.
    pub(crate) fn compile(&self) -> Filler {
        let printed = self.designation.as_deref();
        let designation = printed.and_then(|text| Designation::parse(text).ok());
        let unread = printed.filter(|_| designation.is_none());
        Filler {
            designation_text: unread.map(str::to_owned),
            designation,
            kind: self.kind,
            maker: self.maker.clone(),
            trade_name: self.trade_name.clone(),
            batch: self.batch.clone(),
            diameter: self.diameter,
            hydrogen: self.hydrogen,
            f_number: self.f_number.clone(),
            a_number: self.a_number.clone(),
            handling: self.handling.clone(),
        }
    }
}

impl FillerAdditionDocument {
    pub(super) fn compile(&self) -> FillerAddition {
        FillerAddition {
            designation: self.designation.clone(),
            heating: self.heating,
            share: self.share,
        }
    }
}

impl FluxDocument {
    /// As the rules read it.
    pub(crate) fn compile(&self) -> Flux {
        Flux {
            designation: self.designation.clone(),
            maker: self.maker.clone(),
            trade_name: self.trade_name.clone(),
            batch: self.batch.clone(),
            kind: self.kind,
            recrushed_slag: self.recrushed_slag,
        }
    }
}

impl GasesDocument {
    pub(super) fn compile(&self) -> Gases {
        Gases {
            shielding: self.shielding,
            shielding_name: self.shielding_name.clone(),
            flow: self.flow.clone(),
            nozzle: self.nozzle,
            backing: self.backing,
            backing_flow: self.backing_flow.clone(),
            trailing: self.trailing,
            plasma: self.plasma,
        }
    }
}
