//! A batch of a consumable, and what happened to its portions.

use time::OffsetDateTime;

use crate::{
    quantity::HydrogenContent,
    trade::{CareRules, CareState, CareStep, care_state},
};

/// One portion of a batch: a packet, a quiver, whatever lies together.
#[derive(Debug, Clone, PartialEq)]
pub struct Portion {
    /// Code within the batch.
    pub code: String,
    /// What happened to it, in order; never empty.
    pub steps: Vec<CareStep>,
}

/// A batch: what the maker made in one go, under one number.
#[derive(Debug, Clone, PartialEq)]
pub struct Batch {
    /// Code in this organisation.
    pub code: String,
    /// Code of the consumable.
    pub consumable: String,
    /// Diffusible hydrogen as its certificate states it.
    pub tested_hydrogen: Option<HydrogenContent>,
    /// Portions that something happened to, by their code.
    pub portions: Vec<Portion>,
}

impl Batch {
    /// The portion of this code.
    #[must_use]
    pub fn portion(&self, code: &str) -> Option<&Portion> {
        self.portions.iter().find(|portion| portion.code == code)
    }

    /// Hydrogen of the fresh filler: of the class, or what the certificate states where that is worse or
    /// there is no class.
    #[must_use]
    pub fn fresh_hydrogen(&self, class: Option<HydrogenContent>) -> Option<HydrogenContent> {
        match (class, self.tested_hydrogen) {
            (Some(class), Some(tested)) => Some(class.max(tested)),
            (class, tested) => class.or(tested),
        }
    }

    /// What something with this history is at a moment, by the rules of its consumable.
    #[must_use]
    pub fn state(
        &self,
        rules: &CareRules,
        class: Option<HydrogenContent>,
        steps: &[CareStep],
        at: OffsetDateTime,
    ) -> CareState {
        care_state(rules, self.fresh_hydrogen(class), steps, at)
    }
}
