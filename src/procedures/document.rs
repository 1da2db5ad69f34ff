//! The canonical document of a procedure revision.

use time::Date;

use crate::{
    check::record::{GasRule, Procedure, RunLimits, Support},
    quantity::{Diameter, Range, ThicknessKind},
    trade::{
        BeadPattern, GasGroup, GasMixture, JointKind, MetalGroup, Polarity, Position, Process,
        RunClass, Waveform, coded,
    },
    wire::{Code, CodeEditionDocument, Limits, wire_object},
};

coded! {
    /// Kind of support of a procedure.
    pub enum SupportKind: "support kind" {
        /// Somebody declares that it is qualified; the service has not judged it.
        Declared = "declared-not-judged",
    }
}

wire_object! {
    /// What stands behind a procedure.
    pub struct SupportDocument {
        /// Kind of support.
        pub kind: SupportKind,
        /// The declaration: which tests or records, where they are kept.
        pub statement: String,
    }
}

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
        /// Allowed ranges.
        pub limits: Limits,
    }
}

wire_object! {
    /// One revision of a welding procedure specification (WPS).
    pub struct ProcedureDocument {
        /// Number of the procedure.
        pub number: Code,
        /// Title in words.
        pub title: String,
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
        /// Codes of the consumables it names.
        pub consumables: Vec<Code>,
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
        /// Anything else worth knowing.
        pub note: Option<String>,
    }
}

/// Where one revision stands, beside its document.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Standing {
    /// Revision, counted from 1.
    pub revision: u32,
    /// First day in force.
    pub effective_from: Option<Date>,
    /// Last day in force.
    pub effective_until: Option<Date>,
    /// Name of the person who signed the declared support.
    pub signed_by: Option<String>,
}

impl ProcedureDocument {
    /// As the check reads it.
    #[must_use]
    pub fn compile(&self, number: &str, standing: Standing) -> Procedure {
        Procedure {
            number: number.to_owned(),
            revision: standing.revision,
            effective_from: standing.effective_from,
            effective_until: standing.effective_until,
            codes: self.codes.iter().map(CodeEditionDocument::compile).collect(),
            support: match self.support.kind {
                SupportKind::Declared => Support::Declared { signed_by: standing.signed_by },
            },
            calls_up_data: self.calls_up_data.unwrap_or(false),
            process: self.process,
            joints: self.joints.clone(),
            positions: self.positions.clone(),
            base_metals: self.base_metals.clone(),
            thickness: self.thickness,
            consumables: self.consumables.iter().map(ToString::to_string).collect(),
            diameters: self.diameters.clone(),
            gas: self.gas.as_ref().map(GasRuleDocument::compile),
            polarities: self.polarities.clone(),
            waveform: self.waveform,
            runs: self.runs.iter().map(RunDocument::compile).collect(),
        }
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
            ranges: self.limits.compile(),
        }
    }
}
