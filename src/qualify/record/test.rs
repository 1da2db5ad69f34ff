//! Tests of a piece and their results.

use time::Date;

use crate::{
    quantity::{Energy, Share, Stress, Temperature},
    trade::coded,
};

coded! {
    /// Kind of a test.
    pub enum TestKind: "kind of test" {
        /// Visual examination.
        Visual = "visual",
        /// Radiography.
        Radiographic = "radiographic",
        /// Ultrasonic test.
        Ultrasonic = "ultrasonic",
        /// Magnetic particle test.
        MagneticParticle = "magnetic-particle",
        /// Penetrant test.
        Penetrant = "penetrant",
        /// Transverse tension.
        TransverseTension = "transverse-tension",
        /// Tension of weld metal alone.
        WeldMetalTension = "all-weld-metal-tension",
        /// Root bend.
        RootBend = "root-bend",
        /// Face bend.
        FaceBend = "face-bend",
        /// Side bend.
        SideBend = "side-bend",
        /// Longitudinal bend.
        LongitudinalBend = "longitudinal-bend",
        /// Charpy V-notch impact.
        Impact = "impact",
        /// Hardness.
        Hardness = "hardness",
        /// Macrosection.
        Macro = "macro",
        /// Microsection.
        Micro = "micro",
        /// Fracture.
        Fracture = "fracture",
        /// Chemical analysis of the deposit.
        Chemical = "chemical-analysis",
        /// Ferrite content.
        Ferrite = "ferrite",
        /// Corrosion.
        Corrosion = "corrosion",
        /// Crack-tip opening displacement.
        CrackTip = "crack-tip-opening",
    }
}

coded! {
    /// Result of a test.
    pub enum Outcome: "result of a test" {
        /// Passed.
        Passed = "passed",
        /// Failed.
        Failed = "failed",
        /// Not judged: not finished, or no requirement is known.
        NotJudged = "not-judged",
    }
}

coded! {
    /// Where a specimen was taken.
    pub enum TestPlace: "place of a specimen" {
        /// Weld metal.
        WeldMetal = "weld-metal",
        /// Heat-affected zone.
        HeatAffectedZone = "heat-affected-zone",
        /// Fusion line.
        FusionLine = "fusion-line",
        /// Base metal.
        BaseMetal = "base-metal",
        /// Across the joint.
        Joint = "joint",
    }
}

coded! {
    /// Scale of a hardness.
    pub enum HardnessScale: "hardness scale" {
        /// Vickers, 10 kgf.
        Hv10 = "HV10",
        /// Vickers, 5 kgf.
        Hv5 = "HV5",
        /// Brinell.
        Hbw = "HBW",
        /// Rockwell C.
        Hrc = "HRC",
    }
}

/// A hardness reading: a number on its scale, which converts to no unit.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Hardness {
    /// Number read.
    pub number: u16,
    /// Scale.
    pub scale: HardnessScale,
}

/// What a specimen showed.
#[derive(Debug, Clone, PartialEq)]
pub enum TestValue {
    /// Impact energies, one per specimen.
    Impact(Vec<Energy>),
    /// Hardness readings.
    Hardness(Vec<Hardness>),
    /// Strength, one per specimen.
    Strength(Vec<Stress>),
    /// Elongation or reduction, one per specimen.
    Elongation(Vec<Share>),
    /// In words.
    Words(String),
}

/// One test and its result.
#[derive(Debug, Clone, PartialEq)]
pub struct Test {
    /// Kind.
    pub kind: TestKind,
    /// Where the specimen was taken.
    pub place: Option<TestPlace>,
    /// Test temperature; for impact tests.
    pub temperature: Option<Temperature>,
    /// What was found.
    pub values: Vec<TestValue>,
    /// Result.
    pub outcome: Outcome,
    /// Standard tested and judged by.
    pub standard: Option<String>,
    /// Number of the report.
    pub report: Option<String>,
    /// Laboratory.
    pub laboratory: Option<String>,
    /// Day of the test.
    pub on: Option<Date>,
    /// Whether it repeats a failed test.
    pub retest: bool,
}
