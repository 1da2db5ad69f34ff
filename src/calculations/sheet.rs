//! The answer of a calculation: figures with their sources, and those that cannot be computed.

use std::fmt::Display;

use serde::Serialize;
use utoipa::ToSchema;

use crate::{
    check::Cautions,
    checks::CautionOut,
    quantity::{Kind, Quantity, Range, Rounding, Span},
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
        match value.map(|value| shown(value, self.units)) {
            Ok(Some(value)) => {
                let assumptions = assumptions.iter().map(|&text| text.to_owned().into()).collect();
                self.answer.figures.push(FigureOut::of(
                    name.to_owned(),
                    value,
                    formula,
                    assumptions,
                ));
            }
            Ok(None) => self.absent(name, "rounded inward, no value is left"),
            Err(reason) => self.absent(name, reason),
        }
    }

    /// One amount, rounded to the nearest; what may be exceeded in one direction only is for [`Self::at_most`] and
    /// [`Self::at_least`].
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

    /// The highest amount there may be, rounded down.
    pub fn at_most<K: Kind, E: Display>(
        &mut self,
        name: &str,
        value: Result<Quantity<K>, E>,
        formula: &Formula,
        assumptions: &[&str],
    ) {
        self.at_most_within(name, value.map(Span::one), formula, assumptions);
    }

    /// The same where it is only known to lie between two.
    pub fn at_most_within<K: Kind, E: Display>(
        &mut self,
        name: &str,
        value: Result<Span<K>, E>,
        formula: &Formula,
        assumptions: &[&str],
    ) {
        let shown = |value, units| limit(&value, units, Rounding::Down);
        self.put(name, value, shown, (formula, assumptions));
    }

    /// The lowest amount there has to be, rounded up.
    pub fn at_least<K: Kind, E: Display>(
        &mut self,
        name: &str,
        value: Result<Quantity<K>, E>,
        formula: &Formula,
        assumptions: &[&str],
    ) {
        let shown = |value, units| limit(&Span::one(value), units, Rounding::Up);
        self.put(name, value, shown, (formula, assumptions));
    }

    /// One amount in a unit of its kind that is read at sight, such as hours; in the unit of the kind where
    /// it does not fit.
    pub fn one_in<K: Kind, E: Display>(
        &mut self,
        name: &str,
        value: Result<Quantity<K>, E>,
        unit: &str,
        formula: &Formula,
        assumptions: &[&str],
    ) {
        let in_unit = |value: Quantity<K>| {
            let unit = K::INFO.units.iter().find(|known| known.symbol == unit)?;
            let number = value.amount().written_in(unit, Rounding::Nearest);
            Quantity::entered(number, unit.symbol).ok()
        };
        let value = value.map(|value| in_unit(value).unwrap_or(value));
        self.one(name, value, formula, assumptions);
    }

    /// All amounts between two, each rounded to the nearest.
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
        let shown = |value: Range<K>, units| inward(&value, units).map(ShownOut::Range);
        self.put(name, value, shown, (formula, assumptions));
    }

    /// Permissions with gaps between them, each rounded inward; a piece that rounding empties is left
    /// out.
    pub fn ranges<K: Kind, E: Display>(
        &mut self,
        name: &str,
        value: Result<Vec<Range<K>>, E>,
        formula: &Formula,
        assumptions: &[&str],
    ) {
        let shown = |pieces: Vec<Range<K>>, units| {
            let stated: Vec<_> = pieces.iter().filter_map(|piece| inward(piece, units)).collect();
            (!stated.is_empty()).then_some(ShownOut::Ranges(stated))
        };
        self.put(name, value, shown, (formula, assumptions));
    }

    /// What a value may be, rounded outward; one end may be unknown.
    pub fn bounds<K: Kind, E: Display>(
        &mut self,
        name: &str,
        value: Result<Range<K>, E>,
        formula: &Formula,
        assumptions: &[&str],
    ) {
        let shown = |value: Range<K>, units| {
            RangeOut::outward(&value.amounts(), units).map(ShownOut::Range)
        };
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
    pub fn heed(&mut self, cautions: Cautions) {
        self.answer.cautions.extend(cautions.into_list().map(CautionOut::from));
    }

    /// A figure that cannot be computed.
    pub fn absent(&mut self, name: &str, reason: impl Display) {
        let reason = reason.to_string();
        self.answer.absent.push(AbsentFigureOut { name: name.to_owned(), reason: reason.into() });
    }
}

/// One limit, or the two that it lies between, rounded to its safe side.
fn limit<K: Kind>(value: &Span<K>, units: Units, rounding: Rounding) -> Option<ShownOut> {
    match value.single() {
        Some(one) => Some(ShownOut::Amount(AmountOut::rounded(one.amount(), units, rounding))),
        None => {
            RangeOut::rounded(&value.amounts(), units, (rounding, rounding)).map(ShownOut::Range)
        }
    }
}

/// A permission with its ends rounded inward; `None` where no value is left between them.
fn inward<K: Kind>(range: &Range<K>, units: Units) -> Option<RangeOut> {
    let stated = RangeOut::inward(&range.amounts(), units)?;
    let reversed = stated.min.zip(stated.max).is_some_and(|(min, max)| min > max);
    (!reversed).then_some(stated)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{
        quantity::{HeatInputKind, Temperature, UnitSystem},
        trade::HEAT_INPUT_FOR_COOLING_TIME as FORMULA,
    };

    fn piece(min: f64, max: f64) -> Range<HeatInputKind> {
        let end = |value| Some(Quantity::computed(value).unwrap());
        Range::new(end(min), end(max)).unwrap()
    }

    fn stated(pieces: Vec<Range<HeatInputKind>>) -> CalculationAnswer {
        let mut sheet = Sheet::new(None);
        sheet.ranges::<_, &str>("heat-input", Ok(pieces), &FORMULA, &[]);
        sheet.finish()
    }

    #[test]
    fn pieces_are_rounded_inward_and_one_that_rounding_empties_is_left_out() {
        let answer = stated(vec![piece(0.123_41, 0.123_42), piece(0.614_002, 0.665_491)]);
        let value = serde_json::to_value(&answer.figures[0].value).unwrap();
        let expected = serde_json::json!([{ "min": 0.6141, "max": 0.6654, "unit": "kJ/mm" }]);
        assert_eq!(value, expected);
    }

    /// 300 °F are 148.89 °C, 225 °F are 107.22 °C (own arithmetic by the definition of the Fahrenheit scale).
    #[test]
    fn a_highest_amount_is_rounded_down_and_a_lowest_one_up() {
        let mut sheet = Sheet::new(Some(UnitSystem::Metric));
        let fahrenheit = |text: &str| text.parse::<Temperature>();
        sheet.at_most("most", fahrenheit("300 °F"), &FORMULA, &[]);
        sheet.at_least("least", fahrenheit("225 °F"), &FORMULA, &[]);
        let between = Span::new(fahrenheit("225 °F").unwrap(), fahrenheit("300 °F").unwrap());
        sheet.at_most_within("band", between, &FORMULA, &[]);
        let answer = serde_json::to_value(sheet.finish()).unwrap();
        let value = |index: usize| answer["figures"][index]["value"].clone();
        assert_eq!(value(0), serde_json::json!({ "value": 148.8, "unit": "°C" }));
        assert_eq!(value(1), serde_json::json!({ "value": 107.3, "unit": "°C" }));
        assert_eq!(value(2), serde_json::json!({ "min": 107.2, "max": 148.8, "unit": "°C" }));
    }

    #[test]
    fn nothing_left_is_said() {
        let answer = stated(vec![piece(0.123_41, 0.123_42)]);
        assert!(answer.figures.is_empty());
        assert!(answer.absent[0].reason.contains("no value is left"));
    }
}
