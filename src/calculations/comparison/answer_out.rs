//! The answer of a comparison.

use serde::Serialize;
use time::Date;
use utoipa::ToSchema;

use super::{ComparisonIn, option::Asked};
use crate::{
    calculations::CalculationAnswer,
    check::Caution,
    checks::CautionOut,
    trade::Coded,
    wire::{AbsentFigureOut, AmountOut, FigureOut},
};

/// What an option without a verdict was not.
const NOT_JUDGED: &str = "not-judged";

/// What is the same for every option.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct BasisOut {
    /// Length of the joint.
    pub length: AmountOut,
    /// Position as stated.
    #[schema(example = "PB")]
    pub position: String,
    /// Day of the prices.
    pub day: Date,
    /// Figures of the joint.
    pub figures: Vec<FigureOut>,
    /// Figures of the joint that cannot be computed, and why.
    pub absent: Vec<AbsentFigureOut>,
}

/// One option.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct OptionOut {
    /// What the caller calls it.
    pub name: String,
    /// Place, from 1; equal options share one. Left out where there is none.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub place: Option<usize>,
    /// Why it has no place.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub reason: Option<String>,
    /// Verdict on its setup; `not-judged` where none was sent: then the place is no permission.
    #[schema(example = "allowed")]
    pub verdict: &'static str,
    /// Figures, with the operating factor they rest on; none where the option is not allowed.
    pub figures: Vec<FigureOut>,
    /// Figures that cannot be computed, and why.
    pub absent: Vec<AbsentFigureOut>,
}

/// Options in their order.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct ComparisonAnswer {
    /// What they were ranked by; the least is first.
    #[schema(example = "cost")]
    pub ranked_by: &'static str,
    /// What is the same for every option.
    pub basis: BasisOut,
    /// Options with a place, best first.
    pub ranked: Vec<OptionOut>,
    /// Options without a place, in the order sent.
    pub unranked: Vec<OptionOut>,
    /// Cautions for the arcs that these options lead to.
    pub cautions: Vec<CautionOut>,
    /// What goes with them.
    pub caution: &'static str,
}

impl OptionOut {
    pub(super) fn new(
        name: &str,
        place: Option<usize>,
        reason: Option<String>,
        asked: &Asked,
        sheet: CalculationAnswer,
    ) -> Self {
        Self {
            name: name.to_owned(),
            place,
            reason,
            verdict: asked.verdict.map_or(NOT_JUDGED, Coded::code),
            figures: sheet.figures,
            absent: sheet.absent,
        }
    }
}

impl ComparisonAnswer {
    /// No options yet, on the basis of this sheet.
    pub(super) fn none(sent: &ComparisonIn, day: Date, sheet: CalculationAnswer) -> Self {
        Self {
            ranked_by: sent.rank_by.code(),
            basis: BasisOut {
                length: AmountOut::new(sent.length.amount(), None),
                position: sent.position.clone(),
                day,
                figures: sheet.figures,
                absent: sheet.absent,
            },
            ranked: Vec::new(),
            unranked: Vec::new(),
            cautions: Vec::new(),
            caution: sheet.caution,
        }
    }

    /// Adds a caution, once.
    pub(super) fn heed(&mut self, caution: Caution) {
        let caution = CautionOut::from(caution);
        if !self.cautions.contains(&caution) {
            self.cautions.push(caution);
        }
    }

    pub(super) fn add(&mut self, option: OptionOut) {
        if option.place.is_some() {
            self.ranked.push(option);
        } else {
            self.unranked.push(option);
        }
    }

    /// Best first.
    pub(super) fn sort(&mut self) {
        self.ranked.sort_by_key(|option| option.place);
    }
}
