//! What is asked of the windows of a job, beyond its setup.

use super::{Guard, HandSpread, OutputLine};
use crate::{
    check::Variable,
    quantity::{AreaKind, DepositionRateKind, QuantityError, Range, Temperature, UnitSystem},
    trade::{CoolingLimit, MethodB},
};

/// A preheat by the CET method: it holds at a heat input or above only.
#[derive(Debug, Clone, PartialEq)]
pub struct PreheatPlan {
    /// The joint. Its own heat input is not used.
    pub joint: MethodB,
    /// The preheat.
    pub preheat: Temperature,
}

/// What is asked.
#[derive(Debug, Clone, PartialEq)]
pub struct Question {
    /// Settings whose stated values are chosen: the others are narrowed by them. An interval is kept as
    /// an interval: everything else holds for each of its values.
    pub chosen: Vec<Variable>,
    /// How far the hand strays.
    pub spread: HandSpread,
    /// Instruments whose error is kept inside the limits.
    pub guards: Vec<Guard>,
    /// A limit on the cooling time.
    pub cooling: Option<CoolingLimit>,
    /// A preheat that needs a heat input.
    pub preheat: Option<PreheatPlan>,
    /// A deposition rate asked for.
    pub deposition_rate: Option<Range<DepositionRateKind>>,
    /// A cross-section asked of one run.
    pub run_area: Option<Range<AreaKind>>,
    /// Output line of a drooping source.
    pub output_line: Option<OutputLine>,
    /// Two settings to outline.
    pub outline: Option<(Variable, Variable)>,
    /// Units in which values are stated, but for dials that state their steps.
    pub units: UnitSystem,
}

impl Question {
    /// Nothing beyond the setup, with the usual hand.
    ///
    /// # Errors
    /// None in practice; the usual hand is a constant.
    pub fn plain() -> Result<Self, QuantityError> {
        Ok(Self {
            chosen: Vec::new(),
            spread: HandSpread::usual()?,
            guards: Vec::new(),
            cooling: None,
            preheat: None,
            deposition_rate: None,
            run_area: None,
            output_line: None,
            outline: None,
            units: UnitSystem::Metric,
        })
    }
}
