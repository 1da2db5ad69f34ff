//! One run as measured.

use super::{Filler, FillerAddition, Flux};
use crate::{
    quantity::{
        ArcEnergyKind, CurrentKind, Diameter, DurationKind, ElectricalStickOutKind, GasFlowKind,
        HeatInputKind, Kind, PowerKind, Quantity, RunLengthKind, Share, Span, TemperatureKind,
        TravelAngleKind, TravelSpeedKind, VoltageKind, WeaveWidthKind, WireFeedKind, WorkAngleKind,
    },
    trade::{
        BeadPattern, Gas, Polarity, Position, Process, Progression, RunClass, Waveform, coded,
    },
};

/// A measured value with the span it moved in.
#[derive(Debug, Clone, PartialEq)]
pub struct Measured<K: Kind> {
    /// The value the record states; the mean, where it moved.
    pub value: Quantity<K>,
    /// Lowest and highest reading; `None` where only one value is stated.
    pub span: Option<Span<K>>,
    /// Code of the instrument; `None` where not stated.
    pub instrument: Option<String>,
}

impl<K: Kind> Measured<K> {
    /// One value without its instrument.
    #[must_use]
    pub const fn of(value: Quantity<K>) -> Self {
        Self { value, span: None, instrument: None }
    }

    /// Lowest value recorded.
    #[must_use]
    pub fn lowest(&self) -> Quantity<K> {
        self.span.map_or(self.value, |span| span.low())
    }

    /// Highest value recorded.
    #[must_use]
    pub fn highest(&self) -> Quantity<K> {
        self.span.map_or(self.value, |span| span.high())
    }
}

coded! {
    /// Degree of mechanisation, as ISO 15614-1:2017 8.4.1 lists them.
    pub enum Mechanisation: "mechanisation" {
        /// Manual.
        Manual = "manual",
        /// Partly mechanised: the wire is fed, the torch is guided by hand.
        Partly = "partly-mechanised",
        /// Fully mechanised.
        Fully = "fully-mechanised",
        /// Automatic.
        Automatic = "automatic",
    }
}

coded! {
    /// Metal transfer through the arc.
    pub enum Transfer: "metal transfer" {
        /// Short circuit.
        ShortCircuit = "short-circuit",
        /// Globular.
        Globular = "globular",
        /// Spray.
        Spray = "spray",
        /// Pulsed.
        Pulsed = "pulsed",
    }
}

coded! {
    /// Static characteristic of the power source.
    pub enum OutputCharacteristic: "output characteristic" {
        /// Constant voltage.
        ConstantVoltage = "constant-voltage",
        /// Constant current.
        ConstantCurrent = "constant-current",
    }
}

coded! {
    /// Whether the current is steady or pulsed.
    pub enum CurrentForm: "form of the current" {
        /// Steady.
        Steady = "steady",
        /// Pulsed.
        Pulsed = "pulsed",
    }
}

coded! {
    /// Side of the joint a run was laid from.
    pub enum WeldSide: "side" {
        /// First side.
        First = "first",
        /// Second side.
        Second = "second",
    }
}

/// Energy per length of run, on the basis the record states. The two are never compared.
#[derive(Debug, Clone, PartialEq)]
pub enum RunEnergy {
    /// Electrical energy, no thermal efficiency; the heat input of US codes.
    Arc(Measured<ArcEnergyKind>),
    /// With the thermal efficiency factor k.
    HeatInput {
        /// The heat input.
        value: Measured<HeatInputKind>,
        /// The factor used.
        efficiency: Option<Share>,
    },
}

/// Gases around the arc and behind the root. What is not used is [`Gas::None`].
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Gases {
    /// Shielding gas.
    pub shielding: Option<Gas>,
    /// Trade name of the shielding gas, where the record has one.
    pub shielding_name: Option<String>,
    /// Shielding gas flow.
    pub flow: Option<Measured<GasFlowKind>>,
    /// Inside diameter of the nozzle.
    pub nozzle: Option<crate::quantity::OutsideDiameter>,
    /// Gas behind the root.
    pub backing: Option<Gas>,
    /// Flow of the gas behind the root.
    pub backing_flow: Option<Measured<GasFlowKind>>,
    /// Trailing gas.
    pub trailing: Option<Gas>,
    /// Plasma gas.
    pub plasma: Option<Gas>,
}

/// Electrodes that burn together.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Arcs {
    /// Number of electrodes.
    pub electrodes: Option<u8>,
    /// Spacing and angles, in words.
    pub arrangement: Option<String>,
}

/// Tungsten electrode.
#[derive(Debug, Clone, PartialEq)]
pub struct Tungsten {
    /// Diameter.
    pub diameter: Option<Diameter>,
    /// ISO 6848 code.
    pub code: Option<String>,
}

/// What the machine gave.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Electrical {
    /// Type of current and polarity.
    pub polarity: Option<Polarity>,
    /// Steady or pulsed.
    pub form: Option<CurrentForm>,
    /// Whether the power source shapes the waveform.
    pub waveform: Option<Waveform>,
    /// Name or number of the waveform programme.
    pub programme: Option<String>,
    /// Constant voltage or constant current.
    pub characteristic: Option<OutputCharacteristic>,
    /// Metal transfer.
    pub transfer: Option<Transfer>,
    /// Wire feed speed.
    pub wire_feed: Option<Measured<WireFeedKind>>,
    /// Current.
    pub current: Option<Measured<CurrentKind>>,
    /// Voltage.
    pub voltage: Option<Measured<VoltageKind>>,
    /// Mean instantaneous power.
    pub power: Option<Measured<PowerKind>>,
    /// Energy per length of run, with its basis.
    pub energy: Option<RunEnergy>,
}

/// One run as measured.
#[derive(Debug, Clone, PartialEq)]
pub struct Run {
    /// Number in the order of welding.
    pub number: u16,
    /// Layer.
    pub layer: Option<u16>,
    /// Side of the joint.
    pub side: Option<WeldSide>,
    /// What the run does in the joint.
    pub class: Option<RunClass>,
    /// Process.
    pub process: Process,
    /// Degree of mechanisation.
    pub mechanisation: Option<Mechanisation>,
    /// Position, where the piece has several or none is stated for the whole.
    pub position: Option<Position>,
    /// Direction of a vertical run.
    pub progression: Option<Progression>,
    /// Filler metal; `None` where nothing is known. Welding without filler is a process of its own.
    pub filler: Option<Filler>,
    /// Filler beside the electrode, or powder; empty where none is stated.
    pub additions: Vec<FillerAddition>,
    /// Flux of a submerged arc.
    pub flux: Option<Flux>,
    /// Gases.
    pub gases: Gases,
    /// Electrodes that burn together.
    pub arcs: Arcs,
    /// Tungsten electrode.
    pub tungsten: Option<Tungsten>,
    /// Current, voltage and energy.
    pub electrical: Electrical,
    /// Travel speed.
    pub travel_speed: Option<Measured<TravelSpeedKind>>,
    /// Length of the run.
    pub length: Option<Measured<RunLengthKind>>,
    /// Arc time.
    pub arc_time: Option<Measured<DurationKind>>,
    /// Electrical stick-out, tip recess counted.
    pub stick_out: Option<Measured<ElectricalStickOutKind>>,
    /// Travel angle; drag positive.
    pub travel_angle: Option<Measured<TravelAngleKind>>,
    /// Work angle.
    pub work_angle: Option<Measured<WorkAngleKind>>,
    /// Stringer or weave.
    pub bead: Option<BeadPattern>,
    /// Width of the weave.
    pub weave_width: Option<Measured<WeaveWidthKind>>,
    /// Thickness of the run.
    pub thickness: Option<crate::quantity::LayerThickness>,
    /// Preheat temperature before the run, for runs laid on preheated metal without earlier runs.
    pub preheat: Option<Measured<TemperatureKind>>,
    /// Temperature of the earlier runs before this one.
    pub interpass: Option<Measured<TemperatureKind>>,
}

impl Run {
    /// A run of which only number and process are known.
    #[must_use]
    pub fn new(number: u16, process: Process) -> Self {
        Self {
            number,
            layer: None,
            side: None,
            class: None,
            process,
            mechanisation: None,
            position: None,
            progression: None,
            filler: None,
            additions: Vec::new(),
            flux: None,
            gases: Gases::default(),
            arcs: Arcs::default(),
            tungsten: None,
            electrical: Electrical::default(),
            travel_speed: None,
            length: None,
            arc_time: None,
            stick_out: None,
            travel_angle: None,
            work_angle: None,
            bead: None,
            weave_width: None,
            thickness: None,
            preheat: None,
            interpass: None,
        }
    }
}
