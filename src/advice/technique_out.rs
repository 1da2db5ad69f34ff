//! Usual technique as sent: by variable, with every source.

use serde::Serialize;
use utoipa::ToSchema;

use super::answer_out::Ground;
use crate::{
    quantity::AmountRange,
    trade::{Advice, AdvisedRange, AdvisedVariable, Coded},
    window::{Region, Window},
    wire::{RangeOut, ShownOut, Units},
};

/// What one source advises.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct AdvisedOut {
    /// The advised values.
    pub value: Option<ShownOut>,
    /// The advice in a sentence.
    pub statement: &'static str,
    /// Where it is printed, or that there is no source.
    pub source: &'static str,
    /// How well it was confirmed.
    pub confidence: &'static str,
}

/// Usual technique on one variable.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct TechniqueOut {
    /// The variable.
    #[schema(example = "travel-angle")]
    pub variable: &'static str,
    /// What all required limits allow of it, which goes before any advice; left out where nothing bounds it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub allowed: Option<RangeOut>,
    /// Whether sources differ; then any one of them will do.
    pub sources_differ: bool,
    /// What each source advises.
    pub advice: Vec<AdvisedOut>,
}

/// Advice by variable, in the order it is given.
pub(super) fn technique(practice: &[Advice], ground: &Ground<'_>) -> Vec<TechniqueOut> {
    let mut variables: Vec<AdvisedVariable> = Vec::new();
    for advice in practice {
        if !variables.contains(&advice.variable()) {
            variables.push(advice.variable());
        }
    }
    variables.into_iter().map(|variable| on(variable, practice, ground)).collect()
}

fn on(variable: AdvisedVariable, practice: &[Advice], ground: &Ground<'_>) -> TechniqueOut {
    let own: Vec<_> = practice.iter().filter(|advice| advice.variable() == variable).collect();
    let window = ground.governing.and_then(|case| {
        // Both enums write a variable in the same words.
        case.windows.iter().find(|window| window.variable.code() == variable.code())
    });
    TechniqueOut {
        variable: variable.code(),
        allowed: window.and_then(|window| allowed(window, ground.units)),
        sources_differ: own.iter().any(|advice| advice.range != own[0].range),
        advice: own.iter().map(|advice| advised(advice, ground.units)).collect(),
    }
}

fn allowed(window: &Window, units: Units) -> Option<RangeOut> {
    match &window.required {
        Region::Range(limits) => RangeOut::inward(&limits.range, units),
        Region::NoLimit | Region::Conflict(_) => None,
    }
}

fn advised(advice: &Advice, units: Units) -> AdvisedOut {
    let range = |amounts: AmountRange| RangeOut::new(&amounts, units).map(ShownOut::Range);
    let value = match &advice.range {
        AdvisedRange::TravelAngle(values) => range(values.amounts()),
        AdvisedRange::WorkAngle(values) => range(values.amounts()),
        AdvisedRange::ElectricalStickOut(values) => range(values.amounts()),
        AdvisedRange::Current(values) => range(values.amounts()),
        AdvisedRange::Voltage(values) => range(values.amounts()),
        AdvisedRange::WeaveWidth(values) => range(values.amounts()),
        AdvisedRange::BeadPattern(pattern) => Some(ShownOut::Words(vec![pattern.to_string()])),
    };
    AdvisedOut {
        value,
        statement: advice.statement,
        source: advice.source,
        confidence: advice.confidence.code(),
    }
}
