//! A procedure revision as the floor is held to it.

use time::Date;

use crate::{
    check::{CodeEdition, Demands, OwnedRanges},
    qualify::record::{CurrentForm, Flux, Layering, Mechanisation, ProductForm, Transfer},
    quantity::{Diameter, LegKind, OutsideDiameterKind, Range, ThicknessKind, ThroatKind},
    trade::{
        BeadPattern, Gas, GasGroup, GasMixture, HydrogenClass, JointKind, MetalGroup, Polarity,
        Position, Process, Progression, RunClass, Waveform,
    },
};

/// What stands behind a procedure.
#[derive(Debug, Clone, PartialEq)]
pub enum Support {
    /// Somebody declares that the procedure is qualified; the service has not judged it.
    Declared {
        /// Name of the person with the right who signed the declaration; `None` while unsigned.
        signed_by: Option<String>,
    },
    /// Qualification records, or fixed limits of a code, by which its limits were judged when it was released.
    Judged(Box<JudgedSupport>),
}

/// The judgement of a procedure by its qualification records or by fixed limits, made when it was released.
#[derive(Debug, Clone, PartialEq)]
pub struct JudgedSupport {
    /// The rules: code, edition and level.
    pub rules: String,
    /// Whether the rules are fixed limits of the code, without a test.
    pub prequalified: bool,
    /// The test pieces that qualify it, with their records.
    pub pieces: Vec<String>,
    /// Clauses that its limits were found inside of.
    pub clauses: Vec<String>,
    /// What could not be judged; empty where everything was.
    pub unjudged: Vec<UnjudgedClause>,
    /// Whether a limit it is inside of was only remembered, and nobody had signed it.
    pub rests_on_memory: bool,
    /// Clauses of these limits, as far as they were kept.
    pub remembered: Vec<String>,
    /// Tests of the jobs that it was judged for.
    pub demands: Demands,
    /// Name of the person with the right who vouches for what could not be judged or was remembered.
    pub signed_by: Option<String>,
}

/// A clause by which something could not be judged.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct UnjudgedClause {
    /// The clause.
    pub clause: String,
    /// The fact that is missing, and whose it is.
    pub missing: String,
}

/// Which shielding gas the procedure allows.
#[derive(Debug, Clone, PartialEq)]
pub struct GasRule {
    /// ISO 14175 groups; empty where only the mixture counts.
    pub groups: Vec<GasGroup>,
    /// The mixture welded with, where the procedure fixes one.
    pub mixture: Option<GasMixture>,
}

/// Limits for one or more run classes.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct RunLimits {
    /// Run classes these limits are for; never empty.
    pub classes: Vec<RunClass>,
    /// Beads allowed; empty where the procedure does not say.
    pub beads: Vec<BeadPattern>,
    /// Metal transfer; `None` where the procedure does not say.
    pub transfer: Option<Transfer>,
    /// Degree of mechanisation; `None` where the procedure does not say.
    pub mechanisation: Option<Mechanisation>,
    /// Direction of vertical runs; `None` where only the positions of the procedure say it.
    pub progression: Option<Progression>,
    /// Steady or pulsed current; `None` where the procedure does not say.
    pub current_form: Option<CurrentForm>,
    /// Number of electrodes that burn together; `None` where the procedure does not say.
    pub electrodes: Option<u8>,
    /// Flux of a submerged arc; `None` where the procedure does not say.
    pub flux: Option<Box<Flux>>,
    /// Gas behind the root, [`Gas::None`] for none; `None` where the procedure does not say.
    pub backing_gas: Option<Gas>,
    /// Allowed ranges.
    pub ranges: OwnedRanges,
}

/// Sizes of fillets that a procedure covers.
#[derive(Debug, Clone, PartialEq)]
pub struct FilletSizes {
    /// Legs.
    pub leg: Option<Range<LegKind>>,
    /// Throats.
    pub throat: Option<Range<ThroatKind>>,
}

/// One revision, released and in force between two dates.
#[derive(Debug, Clone, PartialEq)]
pub struct Procedure {
    /// Number of the procedure.
    pub number: String,
    /// Revision, counted from 1.
    pub revision: u32,
    /// First day in force.
    pub effective_from: Option<Date>,
    /// Last day in force.
    pub effective_until: Option<Date>,
    /// Codes and editions the procedure is written for.
    pub codes: Vec<CodeEdition>,
    /// What stands behind it.
    pub support: Support,
    /// Whether its consumable's data ranges are required, not advised.
    pub calls_up_data: bool,
    /// Welding process.
    pub process: Process,
    /// Joints it covers.
    pub joints: Vec<JointKind>,
    /// ISO 6947 positions it covers.
    pub positions: Vec<Position>,
    /// Base-metal groups it covers, in any pairing.
    pub base_metals: Vec<MetalGroup>,
    /// Forms of the parts it covers; empty where the procedure does not say.
    pub forms: Vec<ProductForm>,
    /// Thickness range it covers.
    pub thickness: Option<Range<ThicknessKind>>,
    /// Outside diameters of pipes and hollow sections that it covers; `None` where the procedure sets no limit.
    pub outside_diameter: Option<Box<Range<OutsideDiameterKind>>>,
    /// Thickness that it may deposit; `None` where the procedure sets no limit.
    pub deposited_thickness: Option<Box<Range<ThicknessKind>>>,
    /// One run per side or several; `None` where the procedure does not say.
    pub layering: Option<Layering>,
    /// Sizes of fillets; `None` where the procedure sets none.
    pub fillet: Option<Box<FilletSizes>>,
    /// Codes of the consumables it names.
    pub consumables: Vec<String>,
    /// Diameters it allows.
    pub diameters: Vec<Diameter>,
    /// Shielding gas; `None` where the procedure says nothing about gas.
    pub gas: Option<GasRule>,
    /// Polarities it allows.
    pub polarities: Vec<Polarity>,
    /// Output it was qualified with; `None` where it does not say.
    pub waveform: Option<Waveform>,
    /// Worst hydrogen class of the filler as it is used; `None` where the procedure does not say.
    pub hydrogen: Option<HydrogenClass>,
    /// Limits per run class.
    pub runs: Vec<RunLimits>,
}

impl Procedure {
    /// Whether the revision is in force on this day.
    #[must_use]
    pub fn in_force_on(&self, day: Date) -> bool {
        self.effective_from.is_none_or(|from| from <= day)
            && self.effective_until.is_none_or(|until| day <= until)
    }

    /// Whether one of its base-metal groups includes this group.
    #[must_use]
    pub fn covers_metal(&self, group: MetalGroup) -> bool {
        self.base_metals.iter().any(|own| own.includes(group))
    }
}
