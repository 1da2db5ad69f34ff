//! Steps in which settings are dialled.

use super::{CURRENT, FEED, ORDER, SPEED, STICK_OUT, Space, VOLTAGE, amount, axis_of};
use crate::{
    check::Variable,
    quantity::{Amount, UnitSystem},
    window::linear::AXES,
};

/// The step of each axis.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(in crate::window) struct Steps {
    /// In the canonical unit; `None` where there is none.
    of: [Option<f64>; AXES],
    /// Whether nobody states it.
    is_assumed: [bool; AXES],
    /// How often the assumed ones were made finer.
    finer: u8,
}

/// Steps that are assumed become so much finer, and no step at all after these (own choice).
const TIMES_FINER: u8 = 2;

impl Steps {
    /// No steps.
    pub(super) const NONE: Self = Self { of: [None; AXES], is_assumed: [false; AXES], finer: 0 };

    /// The steps by axis.
    pub(in crate::window) const fn by_axis(&self) -> &[Option<f64>; AXES] {
        &self.of
    }

    /// The same with finer steps where they are assumed: tenths, then hundredths, then none, so that no assumption
    /// leaves nothing of a window. `None` where there is nothing finer; a dial stays as it is.
    pub(in crate::window) fn finer(&self) -> Option<Self> {
        let mut finer = Self { finer: self.finer + 1, ..*self };
        let assumed = || (0..AXES).filter(|axis| self.is_assumed[*axis]);
        let steps = assumed().filter_map(|axis| Some((axis, self.of[axis]?)));
        for (axis, step) in steps {
            finer.of[axis] = (self.finer < TIMES_FINER).then_some(step / 10.0);
        }
        (finer.of != self.of).then_some(finer)
    }

    /// Takes the step of an axis away.
    pub(super) fn leave_out(&mut self, axis: usize) {
        self.of[axis] = None;
    }
}

impl Space {
    /// The step of a settable variable, in which answers state it: in the unit that the step is typed in.
    pub fn step(&mut self, variable: Variable, step: Amount) {
        if let Some(axis) = axis_of(variable).filter(|_| step.canonical() > 0.0) {
            self.steps.of[axis] = (!self.chosen[axis]).then_some(step.canonical());
            self.steps.is_assumed[axis] = false;
            self.dials[axis] = step.unit_typed();
        }
    }

    /// The step that a settable variable is taken to have, since nobody states it: a finer one where it leaves nothing.
    pub fn assume_step(&mut self, variable: Variable, step: Amount) {
        self.step(variable, step);
        if let Some(axis) = axis_of(variable) {
            self.steps.is_assumed[axis] = true;
        }
    }
}

/// The default step of a settable variable in a system of units (common practice, no source): 0.1 m/min
/// or 1 in/min of feed, 0.1 V, 1 A, 1 mm/min or 0.1 in/min of travel, 0.5 mm or 1/32 in of stick-out.
pub(in crate::window) fn usual_step(axis: usize, system: UnitSystem) -> Option<Amount> {
    let step = match (axis, system) {
        (FEED, UnitSystem::Us) => 0.0254,
        (SPEED, UnitSystem::Us) => 2.54,
        (STICK_OUT, UnitSystem::Us) => 25.4 / 32.0,
        (FEED | VOLTAGE, _) => 0.1,
        (CURRENT | SPEED, _) => 1.0,
        (STICK_OUT, _) => 0.5,
        _ => return None,
    };
    amount(ORDER[axis], step)
}
