//! What a welder is to do, as far as a setup does not say it elsewhere.

use super::wire_object;
use crate::{
    qualify::{
        record::{Mechanisation, ProductForm, Transfer},
        welder::{FillerGroup, FillerType, Layers, Sensing, ViewOfArc, WelderBacking, WelderJob},
    },
    quantity::{OutsideDiameter, Thickness},
};

wire_object! {
    /// What a welder's range is about, beyond process, joint, position and thickness. What is left out is
    /// unknown, and nothing is allowed on it.
    pub struct WelderWorkIn {
        /// Degree of mechanisation; manual by itself where the process is 111.
        pub mechanisation: Option<Mechanisation>,
        /// Metal transfer.
        pub transfer: Option<Transfer>,
        /// Plate or pipe.
        pub product: Option<ProductForm>,
        /// Whether a pipe is turned while it is welded.
        pub rotating: Option<bool>,
        /// Filler group, ISO 9606-1.
        pub filler_group: Option<FillerGroup>,
        /// Filler type, ISO 9606-1; an AWS class of a low-hydrogen electrode goes before it.
        pub filler_type: Option<FillerType>,
        /// F-Number.
        pub f_number: Option<u32>,
        /// Thickness that the welder deposits in a butt weld; less than the job's where others weld the rest, and the
        /// job's where left out.
        pub deposit: Option<Thickness>,
        /// Outside diameter of a pipe.
        pub outside_diameter: Option<OutsideDiameter>,
        /// Backing of the root.
        pub backing: Option<WelderBacking>,
        /// Single layer or several; a hot, a fill and a cap run are of several.
        pub layers: Option<Layers>,
        /// Type of welding unit, in the words of the operator's record.
        pub welding_unit: Option<String>,
        /// Arc or joint sensor.
        pub sensing: Option<Sensing>,
        /// How the operator sees the arc.
        pub view_of_arc: Option<ViewOfArc>,
    }
}

impl WelderWorkIn {
    /// As the core reads it; the rest of the job is left open.
    #[must_use]
    pub fn job(&self) -> WelderJob {
        WelderJob {
            mechanisation: self.mechanisation,
            transfer: self.transfer,
            product: self.product,
            rotating: self.rotating,
            filler_group: self.filler_group,
            filler_type: self.filler_type,
            f_number: self.f_number,
            deposit: self.deposit,
            outside_diameter: self.outside_diameter,
            backing: self.backing,
            layers: self.layers,
            welding_unit: self.welding_unit.clone(),
            sensing: self.sensing,
            view: self.view_of_arc,
            ..WelderJob::default()
        }
    }
}
