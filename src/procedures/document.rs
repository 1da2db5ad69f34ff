//! The canonical document of a procedure revision.

use time::Date;

use super::{
    content::{ExecutionDocument, ParentMetalDocument},
    support::{JudgedAtRelease, SupportDocument},
};
use crate::{
    check::{
        carry_over,
        record::{FilletSizes, GasRule, Procedure, RunLimits},
    },
    qualifications::{
        FillerAdditionDocument, FluxDocument, HeatTreatmentDocument, JointDocument,
        PostHeatingDocument, TungstenDocument,
    },
    qualify::record::{CurrentForm, Layering, Mechanisation, OutputCharacteristic, Transfer},
    quantity::{
        Diameter, ElectricalStickOutKind, FaceWidthKind, GasFlowKind, LayerThicknessKind, LegKind,
        OutsideDiameterKind, Range, RunLengthKind, Share, Temperature, ThicknessKind, ThroatKind,
    },
    trade::{
        BeadPattern, Gas, GasGroup, GasMixture, HydrogenClass, JointKind, MetalGroup, Polarity,
        Position, Process, Progression, RunClass, Waveform,
    },
    wire::{Code, CodeEditionDocument, Limits, wire_object},
};

wire_object! {
    /// Shielding gas that the procedure allows.
    pub struct GasRuleDocument {
        /// ISO 14175 groups; left out where only the mixture counts.
        pub groups: Vec<GasGroup>,
        /// The mixture, where the procedure fixes one.
        pub mixture: Option<GasMixture>,
    }
}

wire_object! {
    /// Limits for one or more run classes.
    pub struct RunDocument {
        /// Run classes these limits are for.
        pub classes: Vec<RunClass>,
        /// Beads allowed; left out where the procedure does not say.
        pub beads: Vec<BeadPattern>,
        /// Degree of mechanisation: a check asks the setup for it.
        pub mechanisation: Option<Mechanisation>,
        /// Direction of vertical runs, of those that the positions allow.
        pub progression: Option<Progression>,
        /// Metal transfer: a check asks the setup for it.
        pub transfer: Option<Transfer>,
        /// Steady or pulsed current: a check asks the setup for it.
        pub current_form: Option<CurrentForm>,
        /// Pulse settings or name of the waveform programme, in words.
        pub programme: Option<String>,
        /// Constant voltage or constant current.
        pub characteristic: Option<OutputCharacteristic>,
        /// Thermal efficiency factor of the heat input. With a limit on heat input it has to be the one that checks
        /// compute with, EN 1011-1's of the process.
        pub thermal_efficiency: Option<Share>,
        /// Number of electrodes that burn together: a check asks the setup for it. Limits on current, voltage and
        /// wire feed are those of each, limits on power and energy those of all.
        pub electrodes: Option<u8>,
        /// Spacing and angles of several electrodes, in words.
        pub arrangement: Option<String>,
        /// Filler beside the electrode, or powder.
        pub additions: Vec<FillerAdditionDocument>,
        /// Flux of a submerged arc: a check asks the setup for each fact of it that stands here.
        pub flux: Option<FluxDocument>,
        /// Tungsten electrode.
        pub tungsten: Option<TungstenDocument>,
        /// Inside diameter of the gas nozzle.
        pub nozzle: Option<Range<OutsideDiameterKind>>,
        /// Gas behind the root; `none` states that there is none. A check of a root, hot or single run asks the
        /// setup for it; of a fill or cap run where these limits are for such runs alone and name a gas.
        pub backing_gas: Option<Gas>,
        /// Plasma gas.
        pub plasma_gas: Option<Gas>,
        /// Flow of the plasma gas.
        pub plasma_flow: Option<Range<GasFlowKind>>,
        /// Distance from a plasma nozzle to the work.
        pub stand_off: Option<Range<ElectricalStickOutKind>>,
        /// Length of weld that one covered electrode gives.
        pub run_out_length: Option<Range<RunLengthKind>>,
        /// Thickness of one layer.
        pub layer_thickness: Option<Range<LayerThicknessKind>>,
        /// Widest run.
        pub run_width: Option<Range<FaceWidthKind>>,
        /// Frequency and dwell of a weave, in words.
        pub weaving: Option<String>,
        /// Allowed ranges.
        pub limits: Limits,
    }
}

wire_object! {
    /// One revision of a welding procedure specification (WPS): what is needed for checks, and the rest of
    /// the content that ISO 15609-1 lists. Temperatures of preheat and between runs, speeds and heat input
    /// are limits of the runs.
    pub struct ProcedureDocument {
        /// Number of the procedure.
        pub number: Code,
        /// Title in words.
        pub title: String,
        /// Manufacturer who holds it.
        pub manufacturer: Option<String>,
        /// Codes and editions it is written for.
        pub codes: Vec<CodeEditionDocument>,
        /// What stands behind it.
        pub support: SupportDocument,
        /// Whether the printed data ranges of its consumables are required; advice where left out.
        pub calls_up_data: Option<bool>,
        /// Welding process: ISO 4063 number, or AWS letters that mean one process only.
        pub process: Process,
        /// Joints it covers.
        pub joints: Vec<JointKind>,
        /// ISO 6947 positions it covers.
        pub positions: Vec<Position>,
        /// Base-metal groups of ISO/TR 15608 it covers, in any pairing.
        pub base_metals: Vec<MetalGroup>,
        /// Thickness range it covers.
        pub thickness: Option<Range<ThicknessKind>>,
        /// Parent metal, beside its groups and thickness.
        pub parent_metal: Option<ParentMetalDocument>,
        /// Joint design, preparation, backing and root removal.
        pub joint_design: Option<JointDocument>,
        /// Tolerances, sketch and sequence of runs, back gouging.
        pub execution: Option<ExecutionDocument>,
        /// One run per side or several. Runs of the class `single` are those of the former, all others of the latter.
        pub layering: Option<Layering>,
        /// Throat of a fillet.
        pub throat: Option<Range<ThroatKind>>,
        /// Leg of a fillet.
        pub leg: Option<Range<LegKind>>,
        /// Thickness that is deposited: a check asks the setup for it.
        pub deposited_thickness: Option<Range<ThicknessKind>>,
        /// Codes of the consumables it names.
        pub consumables: Vec<Code>,
        /// Baking, holding, exposure and drying again of consumables, in words.
        pub consumable_handling: Option<String>,
        /// Worst hydrogen class of the filler as it is used, such as `H8`: a check then asks for the batch, and
        /// whether it still has that class.
        pub hydrogen: Option<HydrogenClass>,
        /// Diameters it allows.
        pub diameters: Vec<Diameter>,
        /// Shielding gas.
        pub gas: Option<GasRuleDocument>,
        /// Polarities it allows.
        pub polarities: Vec<Polarity>,
        /// Output it was qualified with.
        pub waveform: Option<Waveform>,
        /// Limits per run class.
        pub runs: Vec<RunDocument>,
        /// Lowest temperature that is held when welding is interrupted.
        pub preheat_maintenance: Option<Temperature>,
        /// Heating after welding that lets hydrogen out. `"done": false` states that there is none.
        pub post_heating: Option<PostHeatingDocument>,
        /// Heat treatment after welding. The class `none` states that there is none.
        pub heat_treatment: Option<HeatTreatmentDocument>,
        /// Anything else worth knowing.
        pub note: Option<String>,
    }
}

/// Where one revision stands, beside its document.
#[derive(Debug, Clone)]
pub struct Standing {
    /// Revision, counted from 1.
    pub revision: u32,
    /// First day in force.
    pub effective_from: Option<Date>,
    /// Last day in force.
    pub effective_until: Option<Date>,
    /// Name of the person who signed the support.
    pub signed_by: Option<String>,
    /// How its qualification records were judged when it was released.
    pub judged: Option<JudgedAtRelease>,
}

impl ProcedureDocument {
    /// As the check reads it.
    #[must_use]
    pub fn compile(&self, number: &str, standing: Standing) -> Procedure {
        let metal = self.parent_metal.as_ref();
        Procedure {
            number: number.to_owned(),
            revision: standing.revision,
            effective_from: standing.effective_from,
            effective_until: standing.effective_until,
            codes: self.codes.iter().map(CodeEditionDocument::compile).collect(),
            support: self.support.compile(standing.judged, standing.signed_by),
            calls_up_data: self.calls_up_data.unwrap_or(false),
            process: self.process,
            joints: self.joints.clone(),
            positions: self.positions.clone(),
            base_metals: self.base_metals.clone(),
            forms: metal.map(|metal| metal.forms.clone()).unwrap_or_default(),
            thickness: self.thickness,
            outside_diameter: metal.and_then(|metal| metal.outside_diameter).map(Box::new),
            deposited_thickness: self.deposited_thickness.map(Box::new),
            layering: self.layering,
            fillet: self.fillet_sizes().map(Box::new),
            consumables: self.consumables.iter().map(ToString::to_string).collect(),
            diameters: self.diameters.clone(),
            gas: self.gas.as_ref().map(GasRuleDocument::compile),
            polarities: self.polarities.clone(),
            waveform: self.waveform,
            hydrogen: self.hydrogen,
            runs: self.compiled_runs(),
        }
    }

    const fn fillet_sizes(&self) -> Option<FilletSizes> {
        let Self { leg, throat, .. } = *self;
        if leg.is_none() && throat.is_none() { None } else { Some(FilletSizes { leg, throat }) }
    }

    /// Limits of its runs, with what they carry over to each other.
    #[must_use]
    pub fn compiled_runs(&self) -> Vec<RunLimits> {
        let mut runs: Vec<_> = self.runs.iter().map(RunDocument::compile).collect();
        carry_over(&mut runs);
        runs
    }
}

impl GasRuleDocument {
    fn compile(&self) -> GasRule {
        GasRule { groups: self.groups.clone(), mixture: self.mixture }
    }
}

impl RunDocument {
    fn compile(&self) -> RunLimits {
        RunLimits {
            classes: self.classes.clone(),
            beads: self.beads.clone(),
            transfer: self.transfer,
            mechanisation: self.mechanisation,
            progression: self.progression,
            current_form: self.current_form,
            electrodes: self.electrodes,
            flux: self.flux.as_ref().map(|flux| Box::new(flux.compile())),
            backing_gas: self.backing_gas,
            ranges: self.limits.compile(),
        }
    }
}
