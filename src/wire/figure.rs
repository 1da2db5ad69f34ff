//! Computed figures as sent: value, formula, source, validity, assumptions, confidence.

use std::borrow::Cow;

use serde::{Serialize, ser::Error as _};
use serde_json::Error;
use utoipa::ToSchema;

use super::{
    AmountOut, Frame, RangeOut, Ready, ReadyList, ShownOut, Units, ready::PART, write_json,
};
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

    /// Without what its formula's name says already.
    fn briefly(self) -> Self {
        Self { equation: None, validity: None, ..self }
    }
}

/// Figures of a check, in the caller's units, as [`FigureOut`]s that are written; `briefly` without what the names
/// of their formulas say already.
///
/// # Errors
/// None of the figures there are.
pub fn figures_ready(figures: &[Figure], units: Units, briefly: bool) -> Result<Ready, Error> {
    let mut list = ReadyList::with_room(figures.len() * ROOM);
    for figure in figures {
        let value = match &figure.value {
            FigureValue::One(amount) => ShownOut::Amount(AmountOut::new(*amount, units)),
            FigureValue::Between(range) => match RangeOut::new(range, units) {
                Some(range) => ShownOut::Range(range),
                None => continue,
            },
        };
        let frame = Frame::of((figure.name, figure.formula.name, briefly), || {
            let part = ShownOut::Words(vec![PART.to_owned()]);
            let whole = FigureOut::of(figure.name, part, &figure.formula, vec![PART.into()]);
            if briefly { whole.briefly() } else { whole }
        })?;
        let [before, between, after] = frame.pieces() else {
            return Err(Error::custom("a figure has two parts that change"));
        };
        let text = list.next_item();
        text.extend_from_slice(before);
        write_json(&value, text)?;
        text.extend_from_slice(between);
        write_json(figure.assumptions.as_slice(), text)?;
        text.extend_from_slice(after);
    }
    Ok(list.finish())
}

/// Bytes that hold most figures.
const ROOM: usize = 512;

impl From<&AbsentFigure> for AbsentFigureOut {
    fn from(figure: &AbsentFigure) -> Self {
        Self { name: figure.name.to_owned(), reason: figure.reason.clone() }
    }
}
