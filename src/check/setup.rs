//! What somebody proposes to weld with. Every part may be missing; nothing is guessed.

use std::borrow::Cow;

use time::OffsetDateTime;

use crate::{
    qualify::{
        record::{CurrentForm, Flux, Mechanisation, ProductForm, Transfer},
        welder::WelderJob,
    },
    quantity::{
        ArcEnergyKind, Cet, CurrentKind, Diameter, DurationKind, ElectricalStickOutKind,
        EnergyKind, GasFlowKind, HeatInputKind, Leg, Mass, OutsideDiameter, PowerKind,
        RunLengthKind, Share, Temperature, TemperatureKind, Thickness, TipRecessKind,
        TravelAngleKind, TravelSpeedKind, VisibleStickOutKind, VoltageKind, WeaveWidthKind,
        WireFeedKind, WorkAngleKind,
    },
    trade::{
        BeadPattern, Fillet, Gas, JointKind, MetalGroup, Polarity, Position, PositionClaim,
        PreheatCategory, Process, Progression, RunClass, Waveform,
    },
};

pub use crate::trade::CodeEdition;

use super::Given;

/// The procedure to hold the setup to.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ProcedureReference {
    /// Number of the procedure.
    pub number: String,
    /// One revision; any revision in force where not given.
    pub revision: Option<u32>,
}

/// One part of the joint.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BaseMetal {
    /// Group by ISO/TR 15608.
    pub group: Option<MetalGroup>,
    /// Form: plate, pipe and so on.
    pub form: Option<ProductForm>,
    /// Thickness at the joint.
    pub thickness: Option<Thickness>,
    /// Outside diameter of a pipe; the smaller side of a hollow section.
    pub outside_diameter: Option<OutsideDiameter>,
    /// Carbon equivalent CET, its upper bound.
    pub cet: Option<Cet>,
    /// Preheat category of AWS D1.1 that lists the steel for low-hydrogen processes: B, C or D.
    pub preheat_category: Option<PreheatCategory>,
    /// Whether category A lists the steel too, for electrodes that are not low-hydrogen.
    pub in_category_a: Option<bool>,
}

impl BaseMetal {
    /// A part of which nothing is stated.
    pub const UNKNOWN: Self = Self {
        group: None,
        form: None,
        thickness: None,
        outside_diameter: None,
        cet: None,
        preheat_category: None,
        in_category_a: None,
    };
}

/// Tests that a job demands; what depends on them is only qualified with them. `None` is unknown.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct Demands {
    /// Whether impact tests are required.
    pub impact_required: Option<bool>,
    /// Temperature of the required impact tests.
    pub impact_temperature: Option<Temperature>,
    /// Whether hardness tests are required.
    pub hardness_required: Option<bool>,
}

impl Demands {
    /// What two who may both demand something demand together: what either requires, at the colder
    /// temperature.
    #[must_use]
    pub fn and(self, other: Self) -> Self {
        let either = |a: Option<bool>, b: Option<bool>| match (a, b) {
            (Some(a), Some(b)) => Some(a || b),
            (a, b) => a.or(b),
        };
        let colder = match (self.impact_temperature, other.impact_temperature) {
            (Some(a), Some(b)) => Some(a.min(b)),
            (a, b) => a.or(b),
        };
        Self {
            impact_required: either(self.impact_required, other.impact_required),
            impact_temperature: colder,
            hardness_required: either(self.hardness_required, other.hardness_required),
        }
    }
}

/// What is to be welded.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Job {
    /// Code that governs the work.
    pub code: Option<CodeEdition>,
    /// Butt or fillet.
    pub joint: Option<JointKind>,
    /// Position as stated; may mean several ISO positions.
    pub position: Option<PositionClaim>,
    /// Direction of a vertical run.
    pub progression: Option<Progression>,
    /// Every part joined; two alike stand here twice.
    pub base_metals: Vec<BaseMetal>,
    /// Thickness that is deposited by this process.
    pub deposited_thickness: Option<Thickness>,
    /// Which run of the joint.
    pub run_class: Option<RunClass>,
    /// Fillet asked for.
    pub fillet: Option<Fillet>,
    /// Leg that one run has to leave; `None` where the fillet is laid in several.
    pub leg: Option<Leg>,
    /// Length of weld to be made, for time and consumption.
    pub weld_length: Option<crate::quantity::RunLength>,
    /// Share of any ten minutes that the arc burns.
    pub arc_on_share: Option<Share>,
    /// Tests that the job demands.
    pub demands: Demands,
}

/// Parts of a joint: butt and fillet welds, the kinds of joints there are, join two or more. Build-up and cladding
/// have one, and are no kind of joint here.
pub const PARTS_OF_A_JOINT: usize = 2;

impl Job {
    /// Whether the fillet of a drawing may be the one it asks for: a leg that is stated is one of its legs.
    #[must_use]
    pub fn may_ask_for(&self, drawn: Option<&Fillet>) -> bool {
        let is_drawn = |leg| drawn.is_some_and(|drawn| [drawn.leg, drawn.other_leg].contains(&leg));
        self.leg.is_none_or(is_drawn)
    }

    /// Whether its parts may make a butt joint of a thickness: one of them has it, the thinner of two plates or the
    /// prepared part of a T, or one is not known.
    #[must_use]
    pub fn may_be_thick(&self, thickness: Thickness) -> bool {
        let parts = &self.base_metals;
        let is_so = |part: Thickness| part == thickness;
        parts.is_empty() || parts.iter().any(|part| part.thickness.is_none_or(is_so))
    }

    /// How many parts the joint has and how many of them are stated, in words after "the joint has"; `None` where
    /// every part can be known. One part never stands for the other.
    #[must_use]
    pub fn lacking_part(&self) -> Option<&'static str> {
        match self.base_metals.len() {
            0 => Some("two parts, and the setup states none of them"),
            stated if stated < PARTS_OF_A_JOINT => {
                Some("two parts, and the setup states one of them")
            }
            _ => None,
        }
    }

    /// Position, narrowed by the progression where one is stated and does not contradict it.
    #[must_use]
    pub fn narrowed_position(&self) -> Option<Cow<'_, PositionClaim>> {
        let claim = self.position.as_ref()?;
        let narrowed = self.progression.map(|way| claim.narrowed_by(way));
        Some(narrowed.filter(|left| !left.is_empty()).unwrap_or(Cow::Borrowed(claim)))
    }

    /// The one position that can be meant; `None` where none is stated, or where several can be.
    #[inline]
    #[must_use]
    pub fn only_position(&self) -> Option<Position> {
        match self.progression {
            None => self.position.as_ref()?.only(),
            Some(_) => self.narrowed_position()?.only(),
        }
    }
}

/// Which wire or electrode, and what protects the arc.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Filler {
    /// Code of the consumable record.
    pub consumable: Option<String>,
    /// Code of the batch.
    pub batch: Option<String>,
    /// Portion of the batch: the packet or quiver it is taken from.
    pub portion: Option<String>,
    /// Nominal diameter.
    pub diameter: Option<Diameter>,
    /// Mass of the full spool.
    pub spool: Option<Mass>,
    /// Shielding gas.
    pub gas: Option<Gas>,
    /// Gas behind the root; [`Gas::None`] states that there is none.
    pub backing_gas: Option<Gas>,
    /// Flux of a submerged arc.
    pub flux: Option<Box<Flux>>,
    /// Polarity.
    pub polarity: Option<Polarity>,
}

/// What is dialled, what follows, and what the hand holds.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Settings {
    /// Output of the power source.
    pub waveform: Option<Waveform>,
    /// Stringer or weave.
    pub bead: Option<BeadPattern>,
    /// Metal transfer.
    pub transfer: Option<Transfer>,
    /// Degree of mechanisation; [`Setup::mechanisation`] asks the welder's work too.
    pub mechanisation: Option<Mechanisation>,
    /// Steady or pulsed current.
    pub current_form: Option<CurrentForm>,
    /// Number of electrodes that burn together. Current, voltage and wire feed are those of each; power and energy
    /// are those of all.
    pub electrodes: Option<u8>,
    /// Welding current.
    pub current: Option<Given<CurrentKind>>,
    /// Arc voltage.
    pub voltage: Option<Given<VoltageKind>>,
    /// Wire feed speed.
    pub wire_feed: Option<Given<WireFeedKind>>,
    /// Travel speed.
    pub travel_speed: Option<Given<TravelSpeedKind>>,
    /// Length of the run, for travel speed and energy per length.
    pub run_length: Option<Given<RunLengthKind>>,
    /// Arc time of the run.
    pub arc_time: Option<Given<DurationKind>>,
    /// Mean instantaneous arc power.
    pub arc_power: Option<Given<PowerKind>>,
    /// Electrical energy of the run.
    pub run_energy: Option<Given<EnergyKind>>,
    /// Electrical stick-out.
    pub stick_out: Option<Given<ElectricalStickOutKind>>,
    /// Visible stick-out.
    pub visible_stick_out: Option<Given<VisibleStickOutKind>>,
    /// Recess of the contact tip.
    pub tip_recess: Option<Given<TipRecessKind>>,
    /// Travel angle; drag positive, push negative.
    pub travel_angle: Option<Given<TravelAngleKind>>,
    /// Work angle.
    pub work_angle: Option<Given<WorkAngleKind>>,
    /// Weave width.
    pub weave_width: Option<Given<WeaveWidthKind>>,
    /// Preheat temperature.
    pub preheat: Option<Given<TemperatureKind>>,
    /// Interpass temperature.
    pub interpass: Option<Given<TemperatureKind>>,
    /// Shielding gas flow.
    pub gas_flow: Option<Given<GasFlowKind>>,
    /// Arc energy as somebody states it; compared with what the settings imply.
    pub arc_energy: Option<Given<ArcEnergyKind>>,
    /// Heat input as somebody states it; compared with what the settings imply.
    pub heat_input: Option<Given<HeatInputKind>>,
}

/// Who is to weld, and what of the work only the welder's range asks for.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct WelderClaim {
    /// Code of the welder.
    pub code: String,
    /// The work; process, weld, position and thickness come from the job.
    pub work: WelderJob,
}

/// A proposed setup.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Setup {
    /// Procedure to hold it to; all that cover the job where not given.
    pub procedure: Option<ProcedureReference>,
    /// Work order number.
    pub work_order: Option<String>,
    /// Station code.
    pub station: Option<String>,
    /// Who is to weld.
    pub welder: Option<WelderClaim>,
    /// Welding process.
    pub process: Option<Process>,
    /// What is to be welded.
    pub job: Job,
    /// Wire, gas and polarity.
    pub filler: Filler,
    /// Settings.
    pub settings: Settings,
    /// Moment the setup is for: how long a filler lay in the air depends on it.
    pub at: Option<OffsetDateTime>,
}

impl Setup {
    /// Degree of mechanisation: as the settings state it, else as the welder's work does.
    #[inline]
    #[must_use]
    pub fn mechanisation(&self) -> Option<Mechanisation> {
        self.settings.mechanisation.or_else(|| self.welder.as_ref()?.work.mechanisation)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// 3G is PF or PG, by its progression; PG welded up contradicts itself and stays as stated (positions as
    /// `trade::position` pairs them).
    #[test]
    fn the_only_position_is_that_of_the_narrowed_claim() {
        use Progression::{Down, Up};
        for (text, progression, expected) in [
            ("PB", None, Some(Position::Pb)),
            ("PB", Some(Down), Some(Position::Pb)),
            ("3G", None, None),
            ("3G", Some(Up), Some(Position::Pf)),
            ("3G", Some(Down), Some(Position::Pg)),
            ("PG", Some(Up), Some(Position::Pg)),
        ] {
            let position = PositionClaim::parse(text, None).ok();
            let job = Job { position, progression, ..Job::default() };
            assert_eq!(job.only_position(), expected, "{text}");
            assert_eq!(job.narrowed_position().unwrap().only(), expected, "{text}");
        }
        assert_eq!(Job::default().only_position(), None);
    }
}
