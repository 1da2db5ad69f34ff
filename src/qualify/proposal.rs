//! What somebody wants to weld, or what a procedure allows: held against the range of a qualification.

use std::collections::BTreeMap;

use super::record::{
    CurrentForm, Filler, HeatTreatment, Joint, Layering, Mechanisation, OutputCharacteristic,
    PostHeating, ProductForm, Transfer,
};
use crate::{
    quantity::{
        ArcEnergyKind, CurrentKind, FaceWidthKind, GasFlowKind, HeatInputKind, LayerThicknessKind,
        LegKind, OutsideDiameterKind, Range, Share, Stress, Temperature, ThicknessKind, ThroatKind,
        TravelSpeedKind, VoltageKind, WireFeedKind,
    },
    trade::{
        BeadPattern, Gas, MetalGroup, Polarity, Position, PreheatCategory, Process, Progression,
        RunClass, Waveform,
    },
};

use super::record::{D11Group, PNumber};

/// What the job demands beyond the code: the switches of the rules. `None` is unknown, and stays so.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct JobFacts {
    /// Whether impact tests are required.
    pub impact_required: Option<bool>,
    /// Test temperature of the required impact tests.
    pub impact_temperature: Option<Temperature>,
    /// Whether hardness tests are required.
    pub hardness_required: Option<bool>,
    /// What a person stated, by the id of the rule that asks.
    pub stated: BTreeMap<String, bool>,
}

/// One part of the joint to be welded.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct ProposedPart {
    /// Form.
    pub form: Option<ProductForm>,
    /// Thicknesses.
    pub thickness: Option<Range<ThicknessKind>>,
    /// Outside diameters.
    pub outside_diameter: Option<Range<OutsideDiameterKind>>,
    /// Group or sub-group of ISO/TR 15608.
    pub group: Option<MetalGroup>,
    /// P-Number of ASME IX, with its group number.
    pub p_number: Option<PNumber>,
    /// Group of AWS D1.1.
    pub d11_group: Option<D11Group>,
    /// Highest specified minimum yield strength.
    pub specified_yield: Option<Stress>,
}

/// Energy per length of run, on the basis it is stated on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum ProposedEnergy {
    /// Arc energy; the heat input of US codes.
    Arc(Range<ArcEnergyKind>),
    /// Heat input with the thermal efficiency factor.
    HeatInput(Range<HeatInputKind>),
}

/// Runs of one kind.
#[derive(Debug, Clone, PartialEq)]
pub struct ProposedRun {
    /// Process.
    pub process: Process,
    /// Run class.
    pub class: Option<RunClass>,
    /// Degree of mechanisation.
    pub mechanisation: Option<Mechanisation>,
    /// Direction of vertical runs.
    pub progression: Option<Progression>,
    /// Filler metal.
    pub filler: Option<Filler>,
    /// Flux: designation, maker and trade name.
    pub flux: Option<super::record::Flux>,
    /// Number of electrodes.
    pub electrodes: Option<u8>,
    /// Shielding gas.
    pub gas: Option<Gas>,
    /// Gas behind the root.
    pub backing_gas: Option<Gas>,
    /// Type of current and polarity.
    pub polarity: Option<Polarity>,
    /// Steady or pulsed.
    pub form: Option<CurrentForm>,
    /// Output of the power source.
    pub waveform: Option<Waveform>,
    /// Constant voltage or constant current.
    pub characteristic: Option<OutputCharacteristic>,
    /// Metal transfer.
    pub transfer: Option<Transfer>,
    /// Stringer or weave.
    pub bead: Option<BeadPattern>,
    /// Current.
    pub current: Option<Range<CurrentKind>>,
    /// Voltage.
    pub voltage: Option<Range<VoltageKind>>,
    /// Wire feed speed.
    pub wire_feed: Option<Range<WireFeedKind>>,
    /// Travel speed.
    pub travel_speed: Option<Range<TravelSpeedKind>>,
    /// Thickness of one layer.
    pub layer_thickness: Option<Range<LayerThicknessKind>>,
    /// Width of one run.
    pub width: Option<Range<FaceWidthKind>>,
    /// Shielding gas flow.
    pub gas_flow: Option<Range<GasFlowKind>>,
    /// Energy per length.
    pub energy: Option<ProposedEnergy>,
    /// Thermal efficiency factor, for heat input implied by volts, amperes and travel.
    pub efficiency: Option<Share>,
}

impl ProposedRun {
    /// Runs of which only the process is known.
    #[must_use]
    pub const fn new(process: Process) -> Self {
        Self {
            process,
            class: None,
            mechanisation: None,
            progression: None,
            filler: None,
            flux: None,
            electrodes: None,
            gas: None,
            backing_gas: None,
            polarity: None,
            form: None,
            waveform: None,
            characteristic: None,
            transfer: None,
            bead: None,
            current: None,
            voltage: None,
            wire_feed: None,
            travel_speed: None,
            layer_thickness: None,
            width: None,
            gas_flow: None,
            energy: None,
            efficiency: None,
        }
    }
}

/// A setup to be welded, or the ranges of a procedure. A range with one end only is open at the other;
/// what is missing is unknown.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Proposal {
    /// Weld, sides, backing, groove.
    pub joint: Joint,
    /// Parts.
    pub parts: Vec<ProposedPart>,
    /// Positions; each one may be covered by another record.
    pub positions: Vec<Position>,
    /// One run per side or several.
    pub layering: Option<Layering>,
    /// Throat of a fillet.
    pub throat: Option<Range<ThroatKind>>,
    /// Leg of a fillet.
    pub leg: Option<Range<LegKind>>,
    /// Thickness each process deposits, in the order of welding.
    pub deposits: Vec<(Process, Option<Range<ThicknessKind>>)>,
    /// Runs.
    pub runs: Vec<ProposedRun>,
    /// Category of base metal and process in the preheat table of AWS D1.1.
    pub preheat_category: Option<PreheatCategory>,
    /// Lowest preheat temperature.
    pub preheat: Option<Temperature>,
    /// Highest interpass temperature.
    pub interpass_max: Option<Temperature>,
    /// Lowest interpass temperature.
    pub interpass_min: Option<Temperature>,
    /// Post-heating.
    pub post_heating: Option<PostHeating>,
    /// Heat treatment.
    pub heat_treatment: Option<HeatTreatment>,
}
