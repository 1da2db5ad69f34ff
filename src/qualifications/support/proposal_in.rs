//! What is to be welded, or what a procedure is to allow, as sent.

use crate::{
    http::problem::FieldError,
    qualifications::document::{
        FillerDocument, FluxDocument, HeatTreatmentDocument, JointDocument, PNumberDocument,
        PostHeatingDocument,
    },
    qualify::{
        Proposal, ProposedEnergy, ProposedPart, ProposedRun,
        record::{
            CurrentForm, D11Group, Layering, Mechanisation, OutputCharacteristic, ProductForm,
            Transfer,
        },
    },
    quantity::{
        ArcEnergyKind, CurrentKind, GasFlowKind, HeatInputKind, LegKind, OutsideDiameterKind,
        Range, Stress, Temperature, ThicknessKind, ThroatKind, TravelSpeedKind, VoltageKind,
        WireFeedKind,
    },
    records::plausible,
    trade::{
        BeadPattern, Gas, MetalGroup, Polarity, Position, Process, Progression, RunClass, Waveform,
    },
    wire::{Part, wire_object},
};

wire_object! {
    /// One part of the joint to be welded.
    pub struct ProposedPartIn {
        /// Form of the part.
        pub form: Option<ProductForm>,
        /// Thickness, or the thicknesses a procedure is for.
        pub thickness: Option<Range<ThicknessKind>>,
        /// Outside diameter.
        pub outside_diameter: Option<Range<OutsideDiameterKind>>,
        /// Group or sub-group of ISO/TR 15608.
        pub group: Option<MetalGroup>,
        /// P-Number of ASME IX, with its group number.
        pub p_number: Option<PNumberDocument>,
        /// Base-metal group of AWS D1.1.
        pub d11_group: Option<D11Group>,
        /// Highest specified minimum yield strength.
        pub specified_yield: Option<Stress>,
    }
}

wire_object! {
    /// Thickness that one process deposits.
    pub struct ProposedDepositIn {
        /// Process.
        pub process: Process,
        /// Deposited thickness.
        pub thickness: Option<Range<ThicknessKind>>,
    }
}

wire_object! {
    /// Runs of one kind, each quantity as one value or a range.
    pub struct ProposedRunIn {
        /// Process.
        pub process: Process,
        /// What the runs do in the joint.
        pub class: Option<RunClass>,
        /// Degree of mechanisation.
        pub mechanisation: Option<Mechanisation>,
        /// Direction of vertical runs.
        pub progression: Option<Progression>,
        /// Filler metal.
        pub filler: Option<FillerDocument>,
        /// Flux.
        pub flux: Option<FluxDocument>,
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
        /// Shielding gas flow.
        pub gas_flow: Option<Range<GasFlowKind>>,
        /// Arc energy, without thermal efficiency; the heat input of US codes.
        pub arc_energy: Option<Range<ArcEnergyKind>>,
        /// Heat input with the thermal efficiency factor. State one energy only.
        pub heat_input: Option<Range<HeatInputKind>>,
        /// Thermal efficiency factor, more than 0 % and at most 100 %.
        pub thermal_efficiency: Option<Part>,
    }
}

wire_object! {
    /// A setup to be welded, or what a procedure is to allow. What is left out is unknown.
    pub struct ProposalIn {
        /// Weld, sides, backing, groove.
        pub joint: Option<JointDocument>,
        /// Parts joined.
        pub parts: Vec<ProposedPartIn>,
        /// ISO 6947 positions; each may be covered by another record.
        pub positions: Vec<Position>,
        /// One run per side or several.
        pub layering: Option<Layering>,
        /// Throat of a fillet.
        pub throat: Option<Range<ThroatKind>>,
        /// Leg of a fillet.
        pub leg: Option<Range<LegKind>>,
        /// What each process deposits, in the order of welding.
        pub deposits: Vec<ProposedDepositIn>,
        /// Runs.
        pub runs: Vec<ProposedRunIn>,
        /// Lowest preheat temperature.
        pub preheat: Option<Temperature>,
        /// Highest interpass temperature.
        pub interpass_max: Option<Temperature>,
        /// Lowest interpass temperature.
        pub interpass_min: Option<Temperature>,
        /// Heating after welding that lets hydrogen out.
        pub post_heating: Option<PostHeatingDocument>,
        /// Heat treatment after welding.
        pub heat_treatment: Option<HeatTreatmentDocument>,
    }
}

impl ProposalIn {
    /// What is wrong across fields.
    pub(super) fn faults(&self) -> Vec<FieldError> {
        let both = |run: &ProposedRunIn| run.arc_energy.is_some() && run.heat_input.is_some();
        let runs = self.runs.iter().enumerate().filter(|(_, run)| both(run));
        let fault = |(index, _): (usize, &ProposedRunIn)| FieldError {
            pointer: format!("/proposal/runs/{index}/heat_input"),
            detail: "state the arc energy or the heat input, not both".to_owned(),
        };
        let none = self.runs.is_empty().then(|| FieldError {
            pointer: "/proposal/runs".to_owned(),
            detail: "state at least one kind of run with its process".to_owned(),
        });
        let parts = self.parts.iter().enumerate();
        let metals =
            parts.flat_map(|(index, part)| part.faults(&format!("/proposal/parts/{index}")));
        runs.map(fault).chain(none).chain(metals).collect()
    }

    /// As the rules read it.
    pub(super) fn compile(&self) -> Proposal {
        let deposit = |one: &ProposedDepositIn| (one.process, one.thickness);
        Proposal {
            preheat_category: None,
            joint: self.joint.as_ref().map(JointDocument::compile).unwrap_or_default(),
            parts: self.parts.iter().map(ProposedPartIn::compile).collect(),
            positions: self.positions.clone(),
            layering: self.layering,
            throat: self.throat,
            leg: self.leg,
            deposits: self.deposits.iter().map(deposit).collect(),
            runs: self.runs.iter().map(ProposedRunIn::compile).collect(),
            preheat: self.preheat,
            interpass_max: self.interpass_max,
            interpass_min: self.interpass_min,
            post_heating: self.post_heating.as_ref().map(PostHeatingDocument::compile),
            heat_treatment: self.heat_treatment.as_ref().map(HeatTreatmentDocument::compile),
        }
    }
}

impl ProposedPartIn {
    fn faults(&self, at: &str) -> Vec<FieldError> {
        let p_number = self.p_number.as_ref().map(PNumberDocument::compile);
        plausible::other_metal(
            [format!("{at}/d11_group"), format!("{at}/p_number/number")],
            (self.d11_group, p_number.as_ref()),
            self.group.as_slice(),
        )
    }

    fn compile(&self) -> ProposedPart {
        ProposedPart {
            form: self.form,
            thickness: self.thickness,
            outside_diameter: self.outside_diameter,
            group: self.group,
            p_number: self.p_number.as_ref().map(PNumberDocument::compile),
            d11_group: self.d11_group,
            specified_yield: self.specified_yield,
        }
    }
}

impl ProposedRunIn {
    fn compile(&self) -> ProposedRun {
        let heat = self.heat_input.map(ProposedEnergy::HeatInput);
        ProposedRun {
            layer_thickness: None,
            width: None,
            process: self.process,
            class: self.class,
            mechanisation: self.mechanisation,
            progression: self.progression,
            filler: self.filler.as_ref().map(FillerDocument::compile),
            flux: self.flux.as_ref().map(FluxDocument::compile),
            electrodes: self.electrodes,
            gas: self.gas,
            backing_gas: self.backing_gas,
            polarity: self.polarity,
            form: self.form,
            waveform: self.waveform,
            characteristic: self.characteristic,
            transfer: self.transfer,
            bead: self.bead,
            current: self.current,
            voltage: self.voltage,
            wire_feed: self.wire_feed,
            travel_speed: self.travel_speed,
            gas_flow: self.gas_flow,
            energy: self.arc_energy.map(ProposedEnergy::Arc).or(heat),
            efficiency: self.thermal_efficiency.map(Part::share),
        }
    }
}
