//! The base metal of a part.

use crate::{
    quantity::Stress,
    trade::{Composition, MetalGroup, coded},
};

coded! {
    /// Base-metal group of AWS D1.1 (prequalified base metals; table 3.1 in 2015, 5.3 in 2020).
    pub enum D11Group: "D1.1 base-metal group" {
        /// Group I.
        I = "I",
        /// Group II.
        II = "II",
        /// Group III.
        Iii = "III",
        /// Group IV.
        IV = "IV",
        /// Group V.
        V = "V",
    }
}

coded! {
    /// Condition in which the metal was delivered.
    pub enum DeliveryCondition: "delivery condition" {
        /// As rolled.
        AsRolled = "as-rolled",
        /// Normalised, or rolled to the same effect.
        Normalised = "normalised",
        /// Rolled with control of temperature and deformation.
        ThermomechanicallyRolled = "thermomechanically-rolled",
        /// Quenched and tempered.
        QuenchedAndTempered = "quenched-and-tempered",
        /// Precipitation hardened.
        PrecipitationHardened = "precipitation-hardened",
        /// Solution annealed.
        SolutionAnnealed = "solution-annealed",
        /// Cast.
        Cast = "cast",
        /// Forged.
        Forged = "forged",
    }
}

/// P-Number of ASME IX with its group number.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub struct PNumber {
    /// The number with its letter, as `1` or `5A`.
    pub number: String,
    /// Group number, for work with toughness requirements.
    pub group: Option<u8>,
}

/// The metal of one part, as certificate and standard state it.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct BaseMetal {
    /// Standard of the metal, as `EN 10025-2`.
    pub standard: Option<String>,
    /// Grade, as `S355J2`.
    pub grade: Option<String>,
    /// Delivery condition.
    pub condition: Option<DeliveryCondition>,
    /// Group or sub-group of ISO/TR 15608.
    pub group: Option<MetalGroup>,
    /// P-Number of ASME IX.
    pub p_number: Option<PNumber>,
    /// Group of AWS D1.1.
    pub d11_group: Option<D11Group>,
    /// Specified minimum yield strength of the grade, independent of thickness.
    pub specified_yield: Option<Stress>,
    /// Heat number.
    pub heat_number: Option<String>,
    /// Inspection certificate, as `3.1` of EN 10204 with its number.
    pub certificate: Option<String>,
    /// Heat analysis; an element without an entry is unknown.
    pub heat_analysis: Option<Composition>,
}
