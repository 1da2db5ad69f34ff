//! Limits in words, with computed ends in the units of the answer.

use super::space::LimitEnd;
use crate::quantity::UnitSystem;

impl LimitEnd {
    /// The limit in words: its end as typed; a computed one in a system of units.
    #[must_use]
    pub fn said(&self, system: UnitSystem) -> String {
        self.in_units(system).to_string()
    }

    /// The same limit with a computed end to be written in a system of units.
    #[must_use]
    pub fn in_units(&self, system: UnitSystem) -> Self {
        let at = self.at.said_in(self.at.kind().answer_unit(system));
        Self { at, ..self.clone() }
    }
}
