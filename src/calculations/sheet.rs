//! The answer of a calculation: figures with their sources, and those that cannot be computed.

use std::fmt::Display;

use serde::Serialize;
use utoipa::ToSchema;

use crate::{
    check::Caution,
    checks::CautionOut,
    quantity::{Kind, Quantity, Range, Span},
    trade::{Cost, Formula},
    wire::{AbsentFigureOut, AmountOut, FigureOut, MoneyOut, RangeOut, ShownOut, Units},
};

/// What goes with every calculation.
const CAUTION: &str = "Computed guidance. The approved procedure, the governing code, local rules and a \
qualified person's judgement govern.";

/// The answer of a calculation.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct CalculationAnswer {
    /// Computed figures.
    pub figures: Vec<FigureOut>,
    /// Figures that cannot be computed, and why.
    pub absent: Vec<AbsentFigureOut>,
    /// Cautions for the arc that these figures lead to.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub cautions: Vec<CautionOut>,
    /// What goes with them.
    pub caution: &'static str,
}

/// A calculation being written.
#[derive(Debug)]
pub struct Sheet {
    units: Units,
    answer: CalculationAnswer,
}

impl Sheet {
    /// An empty sheet in the caller's units.
    #[must_use]
    pub const fn new(units: Units) -> Self {
        let answer = CalculationAnswer {
            figures: Vec::new(),
            absent: Vec::new(),
            cautions: Vec::new(),
            caution: CAUTION,
        };
        Self { units, answer }
    }

    /// The answer.
    #[must_use]
    pub fn finish(self) -> CalculationAnswer {
        self.answer
    }

    /// The value, or why there is none.
    fn put<T, E: Display>(
        &mut self,
        name: &str,
        value: Result<T, E>,
        shown: impl FnOnce(T, Units) -> Option<ShownOut>,
        (formula, assumptions): (&Formula, &[&str]),
    ) {
        match value {
            Ok(value) => {
                if let Some(value) = shown(value, self.units) {
                    let assumptions = assumptions.iter().map(|&text| text.to_owned()).collect();
                    self.answer.figures.push(FigureOut::of(name, value, formula, assumptions));
                }
            }
            Err(reason) => self.absent(name, reason),
        }
    }

    /// One amount.
    pub fn one<K: Kind, E: Display>(
        &mut self,
        name: &str,
        value: Result<Quantity<K>, E>,
        formula: &Formula,
        assumptions: &[&str],
    ) {
        let shown = |value: Quantity<K>, units| {
            Some(ShownOut::Amount(AmountOut::new(value.amount(), units)))
        };
        self.put(name, value, shown, (formula, assumptions));
    }

    /// All amounts between two.
    pub fn span<K: Kind, E: Display>(
        &mut self,
        name: &str,
        value: Result<Span<K>, E>,
        formula: &Formula,
        assumptions: &[&str],
    ) {
        let shown = |value: Span<K>, units| match value.single() {
            Some(one) => Some(ShownOut::Amount(AmountOut::new(one.amount(), units))),
            None => RangeOut::new(&value.amounts(), units).map(ShownOut::Range),
        };
        self.put(name, value, shown, (formula, assumptions));
    }

    /// A permission, rounded inward; one end may be open.
    pub fn range<K: Kind, E: Display>(
        &mut self,
        name: &str,
        value: Result<Range<K>, E>,
        formula: &Formula,
        assumptions: &[&str],
    ) {
        let shown =
            |value: Range<K>, units| RangeOut::inward(&value.amounts(), units).map(ShownOut::Range);
        self.put(name, value, shown, (formula, assumptions));
    }

    /// Words and codes.
    pub fn words(
        &mut self,
        name: &str,
        words: Vec<String>,
        formula: &Formula,
        assumptions: &[&str],
    ) {
        let shown = |words, _| Some(ShownOut::Words(words));
        self.put::<_, &str>(name, Ok(words), shown, (formula, assumptions));
    }

    /// A number of things.
    pub fn count<E: Display>(
        &mut self,
        name: &str,
        value: Result<u32, E>,
        formula: &Formula,
        assumptions: &[&str],
    ) {
        let shown = |value, _| Some(ShownOut::Amount(AmountOut::count(value)));
        self.put(name, value, shown, (formula, assumptions));
    }

    /// A cost; one that is not known is no zero.
    pub fn cost(&mut self, name: &str, cost: Cost, formula: &Formula, assumptions: &[&str]) {
        let value = match cost {
            Cost::Known(money) => Ok(money),
            Cost::NotUsed => Err("the process does not use it"),
            Cost::Unknown(reason) => Err(reason),
        };
        let shown = |money, _| Some(ShownOut::Money(MoneyOut::from(money)));
        self.put(name, value, shown, (formula, assumptions));
    }

    /// The units of the answer.
    #[must_use]
    pub const fn units(&self) -> Units {
        self.units
    }

    /// Cautions that go with the figures.
    pub fn heed(&mut self, cautions: &[Caution]) {
        self.answer.cautions.extend(cautions.iter().map(CautionOut::from));
    }

    /// A figure that cannot be computed.
    pub fn absent(&mut self, name: &str, reason: impl Display) {
        let reason = reason.to_string();
        self.answer.absent.push(AbsentFigureOut { name: name.to_owned(), reason });
    }
}
