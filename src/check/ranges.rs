//! The numeric variables of a weld, and one allowed range for each.

use crate::{
    quantity::{
        ArcEnergyKind, CurrentKind, ElectricalStickOutKind, GasFlowKind, HeatInputKind, PowerKind,
        Range, TemperatureKind, TravelAngleKind, TravelSpeedKind, VoltageKind, WeaveWidthKind,
        WireFeedKind, WorkAngleKind,
    },
    trade::coded,
};

coded! {
    /// A variable that a limit or a finding speaks about.
    pub enum Variable: "variable" {
        /// Governing code and edition.
        GoverningCode = "governing-code",
        /// The procedure itself: in force, supported, accepted.
        Procedure = "procedure",
        /// Work order.
        WorkOrder = "work-order",
        /// Station.
        Station = "station",
        /// Welder or operator.
        Welder = "welder",
        /// Welding process.
        Process = "process",
        /// Butt or fillet.
        Joint = "joint",
        /// Welding position.
        Position = "position",
        /// Vertical up or down.
        Progression = "progression",
        /// Base-metal group.
        BaseMetal = "base-metal",
        /// Form of the parts: plate, pipe and so on.
        ProductForm = "product-form",
        /// Thickness of the parts.
        Thickness = "thickness",
        /// Outside diameter of pipes and hollow sections.
        OutsideDiameter = "outside-diameter",
        /// Thickness that is deposited.
        DepositedThickness = "deposited-thickness",
        /// Root, hot, fill, cap or single run.
        RunClass = "run-class",
        /// Stringer or weave.
        Bead = "bead",
        /// Filler metal.
        Consumable = "consumable",
        /// Batch of the filler metal, and how it was kept dry.
        Batch = "batch",
        /// Nominal wire or electrode diameter.
        Diameter = "diameter",
        /// Mass of the spool on the feeder.
        Spool = "spool",
        /// Shielding gas.
        Gas = "gas",
        /// Gas behind the root.
        BackingGas = "backing-gas",
        /// Flux of a submerged arc.
        Flux = "flux",
        /// Polarity.
        Polarity = "polarity",
        /// Waveform-controlled output or not.
        Waveform = "waveform",
        /// Metal transfer through the arc.
        Transfer = "transfer",
        /// Degree of mechanisation.
        Mechanisation = "mechanisation",
        /// Steady or pulsed current.
        CurrentForm = "current-form",
        /// Number of electrodes that burn together.
        Electrodes = "electrodes",
        /// Welding current.
        Current = "current",
        /// Arc voltage.
        Voltage = "voltage",
        /// Wire feed speed.
        WireFeed = "wire-feed",
        /// Travel speed.
        TravelSpeed = "travel-speed",
        /// Electrical stick-out.
        StickOut = "electrical-stick-out",
        /// Travel angle.
        TravelAngle = "travel-angle",
        /// Work angle.
        WorkAngle = "work-angle",
        /// Weave width.
        WeaveWidth = "weave-width",
        /// Preheat temperature.
        Preheat = "preheat",
        /// Interpass temperature.
        Interpass = "interpass",
        /// Shielding gas flow.
        GasFlow = "gas-flow",
        /// Arc energy.
        ArcEnergy = "arc-energy",
        /// Heat input.
        HeatInput = "heat-input",
        /// Mean instantaneous arc power.
        ArcPower = "arc-power",
        /// Leg of a fillet, per run.
        Leg = "leg",
        /// Impact and hardness tests that the job demands.
        Demands = "demands",
        /// Measured energy of the run.
        RunEnergy = "run-energy",
    }
}

/// Allowed ranges of one owner; a variable without a range is not limited by this owner.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct Ranges {
    /// Welding current.
    pub current: Option<Range<CurrentKind>>,
    /// Arc voltage.
    pub voltage: Option<Range<VoltageKind>>,
    /// Wire feed speed.
    pub wire_feed: Option<Range<WireFeedKind>>,
    /// Travel speed.
    pub travel_speed: Option<Range<TravelSpeedKind>>,
    /// Electrical stick-out, recess of the tip counted.
    pub stick_out: Option<Range<ElectricalStickOutKind>>,
    /// Travel angle; drag positive, push negative.
    pub travel_angle: Option<Range<TravelAngleKind>>,
    /// Work angle.
    pub work_angle: Option<Range<WorkAngleKind>>,
    /// Weave width.
    pub weave_width: Option<Range<WeaveWidthKind>>,
    /// Preheat temperature; usually a minimum.
    pub preheat: Option<Range<TemperatureKind>>,
    /// Interpass temperature; usually a maximum.
    pub interpass: Option<Range<TemperatureKind>>,
    /// Shielding gas flow.
    pub gas_flow: Option<Range<GasFlowKind>>,
    /// Arc energy, without thermal efficiency.
    pub arc_energy: Option<Range<ArcEnergyKind>>,
    /// Heat input, with thermal efficiency.
    pub heat_input: Option<Range<HeatInputKind>>,
    /// Mean instantaneous arc power.
    pub arc_power: Option<Range<PowerKind>>,
}
