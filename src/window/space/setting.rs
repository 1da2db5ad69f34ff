//! Which variables are settings of a window, and why others are none.

use super::{CURRENT, Space, axis_of};
use crate::{
    check::{Arcs, Readings, Setup, Variable, role},
    quantity::AmountRange,
    trade::{Coded, Process},
    window::solve::stated,
};

/// Why a variable is no setting of a window: of any, or where the process is known, of that one's. `None` where it
/// is one.
#[must_use]
pub fn no_setting(variable: Variable, process: Option<Process>) -> Option<String> {
    let name = variable.code();
    if axis_of(variable).is_none() {
        return Some(format!(
            "{name} is no setting of a window; wire-feed, voltage, current, travel-speed, \
             electrical-stick-out and, of a waveform-controlled output, arc-power are"
        ));
    }
    let process = process.filter(|process| role(*process, variable).is_none())?;
    Some(format!("process {process} has no {name}"))
}

/// What a setup states of a setting, by itself or by what it follows from; a travel speed by length and time of the
/// run, for one.
#[must_use]
pub fn stated_setting(setup: &Setup, variable: Variable) -> Option<AmountRange> {
    let readings = Readings::of(setup, setup.process, None, Arcs::of(setup, None));
    stated(&setup.settings, &readings, variable)
}

impl Space {
    /// Why a variable is no setting of this window; `None` where it is one.
    #[must_use]
    pub fn lacks(&self, variable: Variable) -> Option<String> {
        if let Some(why) = no_setting(variable, Some(self.process)) {
            return Some(why);
        }
        let axis = axis_of(variable).filter(|axis| !self.is_active(*axis))?;
        let why = if axis == CURRENT {
            "current is no setting here: it follows from wire feed and stick-out"
        } else {
            "arc-power is a setting of its own only where the output is waveform-controlled; else it follows from \
             voltage and current"
        };
        Some(why.to_owned())
    }
}
