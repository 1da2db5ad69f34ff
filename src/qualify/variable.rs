//! The variables that codes qualify by.

use super::record::{D11Group, Layering, Transfer, TreatmentClass};
use crate::{
    quantity::{self as q, Kind, KindInfo},
    trade::{Coded, HydrogenClass, PreheatCategory, RunClass, coded},
};

coded! {
    /// A variable of a qualification, as rule packs name it.
    pub enum QualifiedVariable: "variable of a qualification" {
        /// Welding process.
        Process = "process",
        /// Processes of the joint in the order of welding, joined by `+`.
        ProcessSequence = "process-sequence",
        /// Degree of mechanisation.
        Mechanisation = "mechanisation",
        /// Welding position, ISO 6947.
        Position = "position",
        /// Kind of weld with its penetration, as `butt-full`.
        Weld = "weld",
        /// Sides, backing and root removal in one word, as `one-side-backing`.
        Sides = "sides",
        /// Shape of the groove.
        Groove = "groove",
        /// Single-run or multi-run.
        Layering = "layering",
        /// ISO/TR 15608 groups of the parts, with their yield strengths.
        Metals = "base-metals",
        /// Category of base metal and process in the preheat table of AWS D1.1.
        PreheatCategory = "preheat-category",
        /// P-Numbers of the parts, as `1-1`.
        PNumbers = "p-numbers",
        /// P-Numbers with their group numbers, as `1/1-1/2`.
        PGroups = "p-groups",
        /// AWS D1.1 groups of the parts, as `I-II`.
        D11Groups = "d1.1-groups",
        /// Thickness of the parts.
        ParentThickness = "parent-thickness",
        /// Thickness one process deposited.
        DepositThickness = "deposit-thickness",
        /// Throat of a fillet.
        Throat = "throat",
        /// Leg of a fillet.
        Leg = "fillet-leg",
        /// Outside diameter.
        OutsideDiameter = "outside-diameter",
        /// Angle between the parts of a T or branch.
        JointAngle = "joint-angle",
        /// Angle of the groove.
        GrooveAngle = "groove-angle",
        /// Opening at the root.
        RootGap = "root-gap",
        /// Root face.
        RootFace = "root-face",
        /// Designation of the filler without its hydrogen symbol.
        FillerDesignation = "filler-designation",
        /// Standard of the filler.
        FillerStandard = "filler-standard",
        /// Usability code of a cored wire, as `1` or `GS`; `none` for a class without one.
        FillerUsability = "filler-usability",
        /// Whether the filler is an 80 ksi class of a composition that AWS D1.1 lists for bare weathering steel: `80-ksi`,
        /// else `no`.
        FillerWeathering = "filler-weathering",
        /// Product form of the filler.
        FillerForm = "filler-form",
        /// Hydrogen class of the filler.
        FillerHydrogen = "filler-hydrogen",
        /// Strength of the filler class: its lowest tensile strength, else its lowest yield strength.
        FillerStrength = "filler-strength",
        /// Maker and trade name of the filler.
        FillerMaker = "filler-maker",
        /// F-Number.
        FNumber = "f-number",
        /// A-Number.
        ANumber = "a-number",
        /// Whether the covering of an electrode is a low-hydrogen one: `yes`, `no`.
        LowHydrogen = "low-hydrogen",
        /// Whether the gas is the one the filler is classified with: `fits`, `does-not-fit`.
        GasOfClass = "gas-of-class",
        /// Nominal diameter of the filler.
        FillerDiameter = "filler-diameter",
        /// Designation, maker and trade name of the flux.
        Flux = "flux",
        /// Number of electrodes.
        Electrodes = "electrodes",
        /// One wire or several.
        WireSystem = "wire-system",
        /// Type of current and polarity.
        CurrentType = "current-type",
        /// Steady or pulsed current.
        CurrentForm = "current-form",
        /// Constant voltage or constant current.
        Characteristic = "output-characteristic",
        /// Metal transfer.
        Transfer = "transfer",
        /// Shielding gas.
        Gas = "shielding-gas",
        /// Gas behind the root, by its ISO 14175 group; `none` where there is none.
        BackingGas = "backing-gas",
        /// Shielding gas flow.
        GasFlow = "gas-flow",
        /// Current.
        Current = "current",
        /// Voltage.
        Voltage = "voltage",
        /// Wire feed speed.
        WireFeed = "wire-feed",
        /// Travel speed.
        TravelSpeed = "travel-speed",
        /// Energy per length of run, on the basis of the record.
        Energy = "energy-per-length",
        /// Vertical up, vertical down or neither.
        Progression = "progression",
        /// What a run does in the joint.
        RunClass = "run-class",
        /// Thickness of one layer.
        LayerThickness = "layer-thickness",
        /// Width of one run.
        RunWidth = "run-width",
        /// Stringer or weave.
        Bead = "bead",
        /// Lowest preheat temperature.
        Preheat = "preheat",
        /// Highest interpass temperature.
        Interpass = "interpass-max",
        /// Lowest interpass temperature.
        InterpassMin = "interpass-min",
        /// Temperature of post-heating.
        PostHeatTemperature = "post-heating-temperature",
        /// Time of post-heating.
        PostHeatTime = "post-heating-time",
        /// Class of heat treatment.
        TreatmentClass = "heat-treatment-class",
        /// Holding temperature of the heat treatment.
        TreatmentTemperature = "heat-treatment-temperature",
        /// Holding time of the heat treatment.
        TreatmentTime = "heat-treatment-time",
        /// Tests of the record.
        Tests = "tests",
        /// What a person has to state, because no record holds it.
        Statement = "statement",
    }
}

/// Where the facts of a variable lie.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Home {
    /// In the piece or the joint.
    Piece,
    /// In what one process did.
    Process,
    /// In each run.
    Run,
}

/// What kind of value a variable has; rules of another kind are refused.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Shape {
    Number,
    Word,
    Gas,
    Metals,
    None,
}

impl QualifiedVariable {
    /// Kind of its quantity; `None` for words, and for energy, whose kind is the record's basis.
    pub(super) const fn kind(self) -> Option<&'static KindInfo> {
        Some(match self {
            Self::ParentThickness | Self::DepositThickness => <q::ThicknessKind as Kind>::INFO,
            Self::Throat => <q::ThroatKind as Kind>::INFO,
            Self::Leg => <q::LegKind as Kind>::INFO,
            Self::OutsideDiameter => <q::OutsideDiameterKind as Kind>::INFO,
            Self::JointAngle => <q::JointAngleKind as Kind>::INFO,
            Self::GrooveAngle => <q::IncludedAngleKind as Kind>::INFO,
            Self::RootGap => <q::RootGapKind as Kind>::INFO,
            Self::RootFace => <q::RootFaceKind as Kind>::INFO,
            Self::FillerStrength => <q::StressKind as Kind>::INFO,
            Self::FillerDiameter => <q::DiameterKind as Kind>::INFO,
            Self::LayerThickness => <q::LayerThicknessKind as Kind>::INFO,
            Self::RunWidth => <q::FaceWidthKind as Kind>::INFO,
            Self::GasFlow => <q::GasFlowKind as Kind>::INFO,
            Self::Current => <q::CurrentKind as Kind>::INFO,
            Self::Voltage => <q::VoltageKind as Kind>::INFO,
            Self::WireFeed => <q::WireFeedKind as Kind>::INFO,
            Self::TravelSpeed => <q::TravelSpeedKind as Kind>::INFO,
            Self::Preheat
            | Self::Interpass
            | Self::InterpassMin
            | Self::PostHeatTemperature
            | Self::TreatmentTemperature => <q::TemperatureKind as Kind>::INFO,
            Self::PostHeatTime | Self::TreatmentTime => <q::DurationKind as Kind>::INFO,
            _ => return None,
        })
    }

    /// The word a working sentence starts with: `coupon 12 mm: 3 mm to 24 mm`.
    pub(super) fn label(self) -> &'static str {
        match self {
            Self::ParentThickness => "coupon",
            Self::DepositThickness => "deposit",
            other => other.code(),
        }
    }

    pub(super) const fn shape(self) -> Shape {
        match self {
            Self::ParentThickness
            | Self::DepositThickness
            | Self::Throat
            | Self::Leg
            | Self::OutsideDiameter
            | Self::JointAngle
            | Self::GrooveAngle
            | Self::RootGap
            | Self::RootFace
            | Self::FillerStrength
            | Self::FillerDiameter
            | Self::LayerThickness
            | Self::RunWidth
            | Self::GasFlow
            | Self::Current
            | Self::Voltage
            | Self::WireFeed
            | Self::TravelSpeed
            | Self::Energy
            | Self::Preheat
            | Self::Interpass
            | Self::InterpassMin
            | Self::PostHeatTemperature
            | Self::PostHeatTime
            | Self::TreatmentTemperature
            | Self::TreatmentTime => Shape::Number,
            Self::Gas => Shape::Gas,
            Self::Metals => Shape::Metals,
            Self::Tests | Self::Statement => Shape::None,
            _ => Shape::Word,
        }
    }

    /// The words it can have, where that is a closed list: only then can it be a condition, since a misspelt
    /// word would drop the rule in silence.
    pub(super) fn closed_words(self) -> Option<Vec<String>> {
        fn codes<T: Coded>() -> Vec<String> {
            T::ALL.iter().map(|(_, code)| (*code).to_owned()).collect()
        }
        let listed = |words: &[&str]| words.iter().map(|word| (*word).to_owned()).collect();
        Some(match self {
            Self::RunClass => codes::<RunClass>(),
            Self::PreheatCategory => codes::<PreheatCategory>(),
            Self::Layering => codes::<Layering>(),
            Self::Transfer => codes::<Transfer>(),
            Self::TreatmentClass => codes::<TreatmentClass>(),
            Self::FillerHydrogen => codes::<HydrogenClass>(),
            Self::FillerUsability => listed(&[
                "none", "1", "2", "3", "4", "5", "6", "7", "8", "9", "10", "11", "12", "13", "14",
                "15", "16", "17", "G", "GS",
            ]),
            Self::FillerWeathering => listed(&["80-ksi", "no"]),
            Self::LowHydrogen => listed(&["yes", "no"]),
            Self::GasOfClass => listed(&["fits", "does-not-fit"]),
            Self::WireSystem => listed(&["single", "multiple"]),
            Self::D11Groups => {
                let groups = codes::<D11Group>();
                let later = |(at, a): (usize, &String)| {
                    let a = a.clone();
                    groups[at..].iter().map(move |b| format!("{a}-{b}")).collect::<Vec<_>>()
                };
                groups.iter().enumerate().flat_map(later).collect()
            }
            _ => return None,
        })
    }

    pub(super) const fn home(self) -> Home {
        match self {
            Self::Process
            | Self::ProcessSequence
            | Self::Position
            | Self::Weld
            | Self::Sides
            | Self::Groove
            | Self::Layering
            | Self::Metals
            | Self::PNumbers
            | Self::PGroups
            | Self::D11Groups
            | Self::PreheatCategory
            | Self::ParentThickness
            | Self::Throat
            | Self::Leg
            | Self::OutsideDiameter
            | Self::JointAngle
            | Self::GrooveAngle
            | Self::RootGap
            | Self::RootFace
            | Self::Progression
            | Self::BackingGas
            | Self::Preheat
            | Self::Interpass
            | Self::InterpassMin
            | Self::PostHeatTemperature
            | Self::PostHeatTime
            | Self::TreatmentClass
            | Self::TreatmentTemperature
            | Self::TreatmentTime
            | Self::Tests
            | Self::Statement => Home::Piece,
            Self::DepositThickness | Self::Energy => Home::Process,
            _ => Home::Run,
        }
    }
}
