//! Where in a setup each variable stands.

use crate::check::Variable;

/// JSON Pointer into the setup.
#[must_use]
pub const fn pointer(variable: Variable) -> &'static str {
    match variable {
        Variable::GoverningCode => "/job/code",
        Variable::Procedure => "/procedure",
        Variable::WorkOrder => "/work_order",
        Variable::Station => "/station",
        Variable::Welder => "/welder",
        Variable::Process => "/process",
        Variable::Joint => "/job/joint",
        Variable::Position => "/job/position",
        Variable::Progression => "/job/progression",
        Variable::BaseMetal
        | Variable::ProductForm
        | Variable::Thickness
        | Variable::OutsideDiameter => "/job/base_metals",
        Variable::DepositedThickness => "/job/deposited_thickness",
        Variable::RunClass => "/job/run_class",
        Variable::Bead => "/settings/bead",
        Variable::Consumable => "/filler/consumable",
        Variable::Batch => "/filler/batch",
        Variable::Diameter => "/filler/diameter",
        Variable::Spool => "/filler/spool",
        Variable::Gas => "/filler/gas",
        Variable::BackingGas => "/filler/backing_gas",
        Variable::Flux => "/filler/flux",
        Variable::Polarity => "/filler/polarity",
        Variable::Waveform => "/settings/waveform",
        Variable::Transfer => "/settings/transfer",
        Variable::Mechanisation => "/settings/mechanisation",
        Variable::CurrentForm => "/settings/current_form",
        Variable::Electrodes => "/settings/electrodes",
        Variable::Current => "/settings/current",
        Variable::Voltage => "/settings/voltage",
        Variable::WireFeed => "/settings/wire_feed",
        Variable::TravelSpeed => "/settings/travel_speed",
        Variable::StickOut => "/settings/electrical_stick_out",
        Variable::TravelAngle => "/settings/travel_angle",
        Variable::WorkAngle => "/settings/work_angle",
        Variable::WeaveWidth => "/settings/weave_width",
        Variable::Preheat => "/settings/preheat",
        Variable::Interpass => "/settings/interpass",
        Variable::GasFlow => "/settings/gas_flow",
        Variable::ArcEnergy => "/settings/arc_energy",
        Variable::HeatInput => "/settings/heat_input",
        Variable::ArcPower => "/settings/arc_power",
        Variable::RunEnergy => "/settings/run_energy",
        Variable::Leg => "/job/leg",
        Variable::Demands => "/job/demands",
    }
}
