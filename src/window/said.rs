//! Limits in words, with computed ends in the units of the answer.

use super::space::LimitEnd;
use crate::quantity::{Amount, UnitSystem};

impl LimitEnd {
    /// The limit in words: its end as typed; a computed one in a system of units.
    #[must_use]
    pub fn said(&self, system: UnitSystem) -> String {
        self.in_units(system).to_string()
    }

    /// The same limit with a computed end written as if typed in a system of units; its digits are those of
    /// words, not of a comparison.
    #[must_use]
    pub fn in_units(&self, system: UnitSystem) -> Self {
        let at = match self.at.unit_typed() {
            Some(_) => self.at,
            None => {
                let (number, unit) = self.at.written(Some(system));
                Amount::entered(self.at.kind(), number, unit.symbol).unwrap_or(self.at)
            }
        };
        Self { at, ..self.clone() }
    }
}
