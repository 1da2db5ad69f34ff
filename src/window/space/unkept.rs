//! What was asked and no setting is shown to keep: it closes the window, since what is asked is a demand.

use std::mem;

use super::{Derived, Space, Subject};

/// Something asked that no setting is shown to keep. Nothing is left then.
#[derive(Debug, Clone, PartialEq)]
pub struct Unkept {
    /// What was asked.
    pub demand: Subject,
    /// Why it is not shown to be kept, and what would be, as whole sentences.
    pub why: String,
}

impl Space {
    /// Notes a demand that no setting is shown to keep. Nothing is left of the space from here on.
    pub fn cannot_keep(&mut self, demand: Subject, why: String) {
        self.unkept.push(Unkept { demand, why });
    }

    /// Demands that no setting is shown to keep.
    #[must_use]
    pub fn unkept(&self) -> &[Unkept] {
        &self.unkept
    }

    /// Takes the limits on a derived quantity that stand outside the window as not kept: no check holds them
    /// afterwards, for a setup does not have them.
    pub(in crate::window) fn refuse_unresolved(&mut self, derived: Derived) {
        let demand = Subject::Derived(derived);
        for left in mem::take(&mut self.unresolved) {
            if left.limit.subject == demand {
                let why = format!("Not shown to be kept: {}: {}.", left.limit, left.reason);
                self.cannot_keep(demand, why);
            } else {
                self.unresolved.push(left);
            }
        }
    }
}
