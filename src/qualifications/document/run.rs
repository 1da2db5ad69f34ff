//! Runs as measured, on the wire.

use super::{FillerAdditionDocument, FillerDocument, FluxDocument, GasesDocument};
use crate::{
    qualify::record::{
        Arcs, CurrentForm, Electrical, Measured, Mechanisation, OutputCharacteristic, Run,
        RunEnergy, Transfer, Tungsten, WeldSide,
    },
    quantity::{
        ArcEnergyKind, CurrentKind, Diameter, DurationKind, ElectricalStickOutKind, HeatInputKind,
        LayerThickness, PowerKind, RunLengthKind, Share, TemperatureKind, TravelAngleKind,
        TravelSpeedKind, VoltageKind, WeaveWidthKind, WireFeedKind, WorkAngleKind,
    },
    trade::{BeadPattern, Polarity, Position, Process, Progression, RunClass, Waveform},
    wire::wire_object,
};

wire_object! {
    /// Tungsten electrode.
    pub struct TungstenDocument {
        /// Diameter.
        pub diameter: Option<Diameter>,
        /// ISO 6848 code.
        pub code: Option<String>,
    }
}

wire_object! {
    /// What the machine gave.
    pub struct ElectricalDocument {
        /// Type of current and polarity.
        pub polarity: Option<Polarity>,
        /// Steady or pulsed.
        pub form: Option<CurrentForm>,
        /// Output of the power source.
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
        /// Arc energy, without thermal efficiency; the heat input of US codes.
        pub arc_energy: Option<Measured<ArcEnergyKind>>,
        /// Heat input with the thermal efficiency factor. State one energy only: the basis of the record.
        pub heat_input: Option<Measured<HeatInputKind>>,
        /// Thermal efficiency factor of the heat input.
        pub thermal_efficiency: Option<Share>,
    }
}

wire_object! {
    /// One run as measured.
    pub struct RecordedRunDocument {
        /// Number in the order of welding.
        pub number: u16,
        /// Layer.
        pub layer: Option<u16>,
        /// Side of the joint.
        pub side: Option<WeldSide>,
        /// What the run does in the joint.
        pub class: Option<RunClass>,
        /// Process: ISO 4063 number, or AWS letters that mean one process only.
        pub process: Process,
        /// Degree of mechanisation.
        pub mechanisation: Option<Mechanisation>,
        /// ISO 6947 position, where it is not that of the whole piece.
        pub position: Option<Position>,
        /// Direction of a vertical run.
        pub progression: Option<Progression>,
        /// Filler metal.
        pub filler: Option<FillerDocument>,
        /// Filler beside the electrode, or powder.
        pub additions: Vec<FillerAdditionDocument>,
        /// Flux of a submerged arc.
        pub flux: Option<FluxDocument>,
        /// Gases.
        pub gases: Option<GasesDocument>,
        /// Number of electrodes that burn together.
        pub electrodes: Option<u8>,
        /// Spacing and angles of several electrodes, in words.
        pub arrangement: Option<String>,
        /// Tungsten electrode.
        pub tungsten: Option<TungstenDocument>,
        /// Current, voltage and energy.
        pub electrical: Option<ElectricalDocument>,
        /// Travel speed.
        pub travel_speed: Option<Measured<TravelSpeedKind>>,
        /// Length of the run.
        pub length: Option<Measured<RunLengthKind>>,
        /// Arc time.
        pub arc_time: Option<Measured<DurationKind>>,
        /// Electrical stick-out, tip recess counted.
        pub electrical_stick_out: Option<Measured<ElectricalStickOutKind>>,
        /// Travel angle; drag is positive.
        pub travel_angle: Option<Measured<TravelAngleKind>>,
        /// Work angle.
        pub work_angle: Option<Measured<WorkAngleKind>>,
        /// Stringer or weave.
        pub bead: Option<BeadPattern>,
        /// Width of the weave.
        pub weave_width: Option<Measured<WeaveWidthKind>>,
        /// Thickness of the run.
        pub thickness: Option<LayerThickness>,
        /// Preheat temperature, for runs laid on metal without earlier runs.
        pub preheat: Option<Measured<TemperatureKind>>,
        /// Temperature of the earlier runs before this one.
        pub interpass: Option<Measured<TemperatureKind>>,
    }
}

impl RecordedRunDocument {
    pub(super) fn compile(&self) -> Run {
        Run {
            number: self.number,
            layer: self.layer,
            side: self.side,
            class: self.class,
            process: self.process,
            mechanisation: self.mechanisation,
            position: self.position,
            progression: self.progression,
            filler: self.filler.as_ref().map(FillerDocument::compile),
            additions: self.additions.iter().map(FillerAdditionDocument::compile).collect(),
            flux: self.flux.as_ref().map(FluxDocument::compile),
            gases: self.gases.as_ref().map(GasesDocument::compile).unwrap_or_default(),
            arcs: Arcs { electrodes: self.electrodes, arrangement: self.arrangement.clone() },
            tungsten: self.tungsten.as_ref().map(|tungsten| Tungsten {
                diameter: tungsten.diameter,
                code: tungsten.code.clone(),
            }),
            electrical: self
                .electrical
                .as_ref()
                .map(ElectricalDocument::compile)
                .unwrap_or_default(),
            travel_speed: self.travel_speed.clone(),
            length: self.length.clone(),
            arc_time: self.arc_time.clone(),
            stick_out: self.electrical_stick_out.clone(),
            travel_angle: self.travel_angle.clone(),
            work_angle: self.work_angle.clone(),
            bead: self.bead,
            weave_width: self.weave_width.clone(),
            thickness: self.thickness,
            preheat: self.preheat.clone(),
            interpass: self.interpass.clone(),
        }
    }
}

impl ElectricalDocument {
    fn compile(&self) -> Electrical {
        Electrical {
            polarity: self.polarity,
            form: self.form,
            waveform: self.waveform,
            programme: self.programme.clone(),
            characteristic: self.characteristic,
            transfer: self.transfer,
            wire_feed: self.wire_feed.clone(),
            current: self.current.clone(),
            voltage: self.voltage.clone(),
            power: self.power.clone(),
            energy: self.energy(),
        }
    }

    /// The energy on the basis it is stated on; a document with both is refused.
    fn energy(&self) -> Option<RunEnergy> {
        let heat = self.heat_input.clone();
        let heat =
            heat.map(|value| RunEnergy::HeatInput { value, efficiency: self.thermal_efficiency });
        self.arc_energy.clone().map(RunEnergy::Arc).or(heat)
    }
}
