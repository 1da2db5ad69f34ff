//! Heat after welding.

use crate::{
    quantity::{CoolingRate, Duration, Range, Span, TemperatureKind},
    trade::coded,
};

/// Heating after welding that lets hydrogen out. A record without it says nothing; that none was done is
/// [`PostHeating::NotDone`].
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum PostHeating {
    /// None was done.
    NotDone,
    /// Held at a temperature for a time.
    Done {
        /// Temperature held.
        temperature: Option<Span<TemperatureKind>>,
        /// Time held.
        time: Option<Duration>,
    },
}

coded! {
    /// Class of a heat treatment by the transformation temperatures of the steel, as ISO 15614-1 8.4.11 and
    /// ASME IX QW-407.1 tell them apart.
    pub enum TreatmentClass: "class of post-weld heat treatment" {
        /// No heat treatment.
        None = "none",
        /// Below the lower transformation temperature.
        BelowLower = "below-lower-transformation",
        /// Above the upper transformation temperature.
        AboveUpper = "above-upper-transformation",
        /// Above the upper, then below the lower.
        AboveUpperThenBelowLower = "above-upper-then-below-lower-transformation",
        /// Between the two.
        Between = "between-transformations",
        /// Solution annealing.
        SolutionAnneal = "solution-anneal",
    }
}

/// Heat treatment after welding.
#[derive(Debug, Clone, PartialEq)]
pub struct HeatTreatment {
    /// Class; [`TreatmentClass::None`] states that none was done.
    pub class: TreatmentClass,
    /// Holding temperature.
    pub temperature: Option<Span<TemperatureKind>>,
    /// Holding time.
    pub time: Option<Duration>,
    /// Range in which the heating rate was controlled, and the rates, in words.
    pub rates: Option<String>,
    /// Slowest and fastest cooling rate, where measured.
    pub cooling: Option<Range<crate::quantity::CoolingRateKind>>,
    /// Fastest heating rate, where measured.
    pub heating: Option<CoolingRate>,
}
