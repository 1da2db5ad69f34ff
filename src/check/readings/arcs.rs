//! How many arcs the values of a setup speak of.

use crate::check::{Setup, record::RunLimits};

/// How many arcs the values of a setup speak of. Volts and amps are those of one arc; power and energy of several in
/// one pool are those of all, which add up (from memory).
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Arcs {
    /// One.
    One,
    /// Several, as the setup says.
    Several,
    /// Nobody says: the procedure lets several burn, and the setup states no number.
    Unsaid,
}

impl Arcs {
    /// Those of a setup, held to the limits of a run where there are any.
    #[must_use]
    pub fn of(setup: &Setup, run: Option<&RunLimits>) -> Self {
        match (setup.settings.electrodes, run.and_then(|run| run.electrodes)) {
            (Some(2..), _) => Self::Several,
            (None, Some(2..)) => Self::Unsaid,
            _ => Self::One,
        }
    }
}
