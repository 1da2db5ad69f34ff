//! Computed figures as sent: value, formula, source, validity, assumptions, confidence.

use std::borrow::Cow;

use serde::Serialize;
use utoipa::ToSchema;

use super::ShownOut;
use crate::{
    check::AbsentFigure,
    trade::{Coded, Formula},
};

/// A computed figure. The summary of a check has its name, its value and how well it was confirmed only.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct FigureOut {
    /// Name of the figure.
    #[schema(example = "iso-arc-energy")]
    pub name: Cow<'static, str>,
    /// The value: one amount, a range, or words.
    pub value: ShownOut,
    /// Name of the formula; left out of the summary of a check.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub formula: Option<&'static str>,
    /// The equation; left out of the summary of a check.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub equation: Option<&'static str>,
    /// Where it is printed: standard, edition, clause, or handbook and page; left out of the summary of a check.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub source: Option<&'static str>,
    /// Where it holds; left out of the summary of a check.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub validity: Option<&'static str>,
    /// How well source and constants were confirmed.
    #[schema(example = "secondary")]
    pub confidence: &'static str,
    /// What was assumed beyond the input; left out of the summary of a check.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub assumptions: Option<Vec<Cow<'static, str>>>,
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
            formula: Some(formula.name),
            equation: Some(formula.equation),
            source: Some(formula.source),
            validity: Some(formula.validity),
            confidence: formula.confidence.code(),
            assumptions: Some(assumptions),
        }
    }

    /// Without how it was come by.
    pub(super) fn briefly(self) -> Self {
        let Self { name, value, confidence, .. } = self;
        let (formula, equation, source) = (None, None, None);
        Self {
            name,
            value,
            formula,
            equation,
            source,
            validity: None,
            confidence,
            assumptions: None,
        }
    }
}

impl From<&AbsentFigure> for AbsentFigureOut {
    fn from(figure: &AbsentFigure) -> Self {
        Self { name: figure.name.to_owned(), reason: Cow::from(&figure.reason) }
    }
}
