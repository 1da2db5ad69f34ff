//! What a person welded for the test, and what a person is to weld.

use time::Date;

use super::{
    FillerGroup, FillerType, Layers, Sensing, TestPosition, ViewOfArc, WelderBacking,
    WelderVariable,
};
use crate::{
    qualify::record::{Mechanisation, ProductForm, Transfer},
    quantity::{Amount, OutsideDiameter, Thickness, UnitSystem},
    trade::{Coded, JointKind, Position, Process, Progression},
};

/// A test piece of a welder or operator. What was not recorded is `None`; nothing is guessed.
#[derive(Debug, Clone, PartialEq)]
pub struct WelderTest {
    /// Day the test piece was welded.
    pub welded_on: Date,
    /// System of units that the certificate is written in; ranges are read in its columns.
    pub system: UnitSystem,
    /// Process.
    pub process: Process,
    /// Degree of mechanisation.
    pub mechanisation: Option<Mechanisation>,
    /// Metal transfer.
    pub transfer: Option<Transfer>,
    /// Plate or pipe.
    pub product: Option<ProductForm>,
    /// Butt or fillet.
    pub weld: Option<JointKind>,
    /// Filler group.
    pub filler_group: Option<FillerGroup>,
    /// Filler type.
    pub filler_type: Option<FillerType>,
    /// F-Number.
    pub f_number: Option<u32>,
    /// Thickness deposited with this process.
    pub deposit: Option<Thickness>,
    /// Thickness of the material.
    pub thickness: Option<Thickness>,
    /// Outside diameter of a pipe.
    pub outside_diameter: Option<OutsideDiameter>,
    /// Positions of the test pieces.
    pub positions: Vec<TestPosition>,
    /// Direction of vertical welding, where the position does not say it.
    pub progression: Option<Progression>,
    /// Backing of the root.
    pub backing: Option<WelderBacking>,
    /// Single layer or several.
    pub layers: Option<Layers>,
    /// Number of layers.
    pub layer_count: Option<u32>,
    /// Type of welding unit, in the shop's own words.
    pub welding_unit: Option<String>,
    /// Arc or joint sensor.
    pub sensing: Option<Sensing>,
    /// How the operator sees the arc.
    pub view: Option<ViewOfArc>,
}

/// What a person is to weld. What is not stated is `None` or empty.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct WelderJob {
    /// Process.
    pub process: Option<Process>,
    /// Degree of mechanisation.
    pub mechanisation: Option<Mechanisation>,
    /// Metal transfer.
    pub transfer: Option<Transfer>,
    /// Plate or pipe.
    pub product: Option<ProductForm>,
    /// Whether a pipe is turned while it is welded.
    pub rotating: Option<bool>,
    /// Butt or fillet.
    pub weld: Option<JointKind>,
    /// Filler group.
    pub filler_group: Option<FillerGroup>,
    /// Filler type.
    pub filler_type: Option<FillerType>,
    /// F-Number.
    pub f_number: Option<u32>,
    /// Thickness deposited with this process.
    pub deposit: Option<Thickness>,
    /// Thickness of each part.
    pub thicknesses: Vec<Thickness>,
    /// Outside diameter of a pipe.
    pub outside_diameter: Option<OutsideDiameter>,
    /// Every position that the job can mean.
    pub positions: Vec<Position>,
    /// Backing of the root.
    pub backing: Option<WelderBacking>,
    /// Single layer or several.
    pub layers: Option<Layers>,
    /// Type of welding unit, in the shop's own words.
    pub welding_unit: Option<String>,
    /// Arc or joint sensor.
    pub sensing: Option<Sensing>,
    /// How the operator sees the arc.
    pub view: Option<ViewOfArc>,
}

fn word<T: Coded>(value: Option<T>) -> Vec<String> {
    value.map(|value| value.code().to_owned()).into_iter().collect()
}

impl WelderTest {
    /// Words recorded for a variable; empty where none are.
    pub(super) fn words(&self, variable: WelderVariable) -> Vec<String> {
        match variable {
            WelderVariable::Process => word(Some(self.process)),
            WelderVariable::Mechanisation => word(self.mechanisation),
            WelderVariable::Transfer => word(self.transfer),
            WelderVariable::Product => word(self.product),
            WelderVariable::Weld => word(self.weld),
            WelderVariable::FillerGroup => word(self.filler_group),
            WelderVariable::FillerType => word(self.filler_type),
            WelderVariable::FNumber => self.f_number.iter().map(ToString::to_string).collect(),
            WelderVariable::Position => {
                self.positions.iter().map(|position| position.code().to_owned()).collect()
            }
            WelderVariable::Progression => word(self.progression),
            WelderVariable::Backing => word(self.backing),
            WelderVariable::Layers => word(self.layers),
            WelderVariable::WeldingUnit => self.welding_unit.iter().cloned().collect(),
            WelderVariable::Sensing => word(self.sensing),
            WelderVariable::View => word(self.view),
            WelderVariable::Deposit
            | WelderVariable::Thickness
            | WelderVariable::OutsideDiameter => Vec::new(),
        }
    }

    /// Size recorded for a variable.
    pub(super) fn size(&self, variable: WelderVariable) -> Option<Amount> {
        match variable {
            WelderVariable::Deposit => self.deposit.map(Thickness::amount),
            WelderVariable::Thickness => self.thickness.map(Thickness::amount),
            WelderVariable::OutsideDiameter => self.outside_diameter.map(OutsideDiameter::amount),
            _ => None,
        }
    }
}

impl WelderJob {
    /// Degree of mechanisation: as stated, else the only one that the process has. Manual metal arc is manual by its
    /// name (ISO 4063, process 111); every other process can be mechanised.
    #[must_use]
    pub fn known_mechanisation(&self) -> Option<Mechanisation> {
        let by_process =
            (self.process == Some(Process::ManualMetalArc)).then_some(Mechanisation::Manual);
        self.mechanisation.or(by_process)
    }

    /// Words stated for a variable, ISO symbols for positions; empty where none are.
    pub(super) fn words(&self, variable: WelderVariable) -> Vec<String> {
        match variable {
            WelderVariable::Process => word(self.process),
            WelderVariable::Mechanisation => word(self.known_mechanisation()),
            WelderVariable::Transfer => word(self.transfer),
            WelderVariable::Product => word(self.product),
            WelderVariable::Weld => word(self.weld),
            WelderVariable::FillerGroup => word(self.filler_group),
            WelderVariable::FillerType => word(self.filler_type),
            WelderVariable::FNumber => self.f_number.iter().map(ToString::to_string).collect(),
            WelderVariable::Position => {
                self.positions.iter().map(|position| position.code().to_owned()).collect()
            }
            WelderVariable::Progression => {
                let ways = self.positions.iter().filter_map(|position| position.progression());
                ways.map(|way| way.code().to_owned()).collect()
            }
            WelderVariable::Backing => word(self.backing),
            WelderVariable::Layers => word(self.layers),
            WelderVariable::WeldingUnit => self.welding_unit.iter().cloned().collect(),
            WelderVariable::Sensing => word(self.sensing),
            WelderVariable::View => word(self.view),
            WelderVariable::Deposit
            | WelderVariable::Thickness
            | WelderVariable::OutsideDiameter => Vec::new(),
        }
    }

    /// Sizes stated for a variable; empty where none are.
    pub(super) fn sizes(&self, variable: WelderVariable) -> Vec<Amount> {
        match variable {
            WelderVariable::Deposit => self.deposit.iter().map(|size| size.amount()).collect(),
            WelderVariable::Thickness => {
                self.thicknesses.iter().map(|size| size.amount()).collect()
            }
            WelderVariable::OutsideDiameter => {
                self.outside_diameter.iter().map(|size| size.amount()).collect()
            }
            _ => Vec::new(),
        }
    }
}
