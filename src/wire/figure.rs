//! Computed figures as sent: value, formula, source, validity, assumptions, confidence.

use std::borrow::Cow;

use serde::Serialize;
use utoipa::ToSchema;

use super::{AmountOut, RangeOut, ShownOut, Units};
use crate::{
    check::{AbsentFigure, Figure, FigureValue},
    trade::{Coded, Formula},
};

/// A computed figure.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct FigureOut {
    /// Name of the figure.
    #[schema(example = "iso-arc-energy")]
    pub name: Cow<'static, str>,
    /// The value: one amount, a range, or words.
    pub value: ShownOut,
    /// Name of the formula.
    pub formula: &'static str,
    /// The equation; left out of the summary of a check.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub equation: Option<&'static str>,
    /// Where it is printed: standard, edition, clause, or handbook and page.
    pub source: &'static str,
    /// Where it holds; left out of the summary of a check.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub validity: Option<&'static str>,
    /// How well source and constants were confirmed.
    #[schema(example = "secondary")]
    pub confidence: &'static str,
    /// What was assumed beyond the input.
    pub assumptions: Vec<Cow<'static, str>>,
}

/// A figure that cannot be computed.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct AbsentFigureOut {
    /// Name of the figure.
    pub name: String,
    /// What is missing, or why the formula does not hold here.
    pub reason: Cow<'static, str>,
}

impl FigureOut {
    /// A figure of a formula.
    #[must_use]
    pub fn of(
        name: impl Into<Cow<'static, str>>,
        value: ShownOut,
        formula: &Formula,
        assumptions: Vec<Cow<'static, str>>,
    ) -> Self {
        Self {
            name: name.into(),
            value,
            formula: formula.name,
            equation: Some(formula.equation),
            source: formula.source,
            validity: Some(formula.validity),
            confidence: formula.confidence.code(),
            assumptions,
        }
    }

    /// A figure of a check, in the caller's units.
    #[must_use]
    pub fn new(figure: Figure, units: Units) -> Option<Self> {
        let value = match &figure.value {
            FigureValue::One(amount) => ShownOut::Amount(AmountOut::new(*amount, units)),
            FigureValue::Between(range) => ShownOut::Range(RangeOut::new(range, units)?),
        };
        Some(Self::of(figure.name, value, &figure.formula, figure.assumptions))
    }
}

impl FigureOut {
    /// Without what its formula's name says already.
    #[must_use]
    pub fn briefly(self) -> Self {
        Self { equation: None, validity: None, ..self }
    }
}

impl From<AbsentFigure> for AbsentFigureOut {
    fn from(figure: AbsentFigure) -> Self {
        Self { name: figure.name.to_owned(), reason: figure.reason }
    }
}
