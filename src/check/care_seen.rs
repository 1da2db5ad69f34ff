//! The batch that a setup names, and how it was kept dry, seen once for all checks.

use super::{
    Book, Setup,
    record::{Batch, Consumable, Portion},
};
use crate::{
    quantity::HydrogenContent,
    trade::{CareFitness, CareState, coded},
};

coded! {
    /// Why nobody can say how a batch was kept.
    pub enum CareGap: "gap in the care of a filler" {
        /// The setup names no consumable.
        NoConsumable = "no-consumable",
        /// The consumable's record states no care rules.
        NoRules = "no-rules",
        /// The setup is for a day, not for a moment.
        NoMoment = "no-moment",
        /// Nobody noted that a packet was opened.
        NotOpened = "not-opened",
        /// Several portions are open, and the setup names none.
        WhichPortion = "which-portion",
        /// Nothing is noted of the portion named.
        UnknownPortion = "unknown-portion",
    }
}

/// The batch that a setup names.
#[derive(Debug, Clone, PartialEq)]
pub enum CareSeen<'a> {
    /// None.
    NoBatch,
    /// One that the organisation does not have.
    Unknown(&'a str),
    /// One of another consumable than the setup names.
    OfAnother(&'a Batch),
    /// One of which nobody can say how it was kept.
    Unjudged(&'a Batch, CareGap),
    /// One that was judged.
    Judged {
        /// The batch.
        batch: &'a Batch,
        /// The portion.
        portion: &'a Portion,
        /// What it is.
        state: CareState,
    },
}

/// What is known of the hydrogen of the filler as it is used.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum FillerHydrogen {
    /// At most this.
    AtMost(HydrogenContent),
    /// It lost its class: it counts as not low-hydrogen.
    Lost,
    /// Nobody can tell.
    Unknown,
}

impl<'a> CareSeen<'a> {
    /// The batch that a setup names.
    #[must_use]
    pub fn of(book: &'a Book, setup: &'a Setup, consumable: Option<&'a Consumable>) -> Self {
        let Some(code) = &setup.filler.batch else { return Self::NoBatch };
        let Some(batch) = book.batches.get(code) else { return Self::Unknown(code) };
        let batch = batch.as_ref();
        if setup.filler.consumable.is_none() {
            return Self::Unjudged(batch, CareGap::NoConsumable);
        }
        let Some(consumable) = consumable.filter(|known| known.code == batch.consumable) else {
            return Self::OfAnother(batch);
        };
        let Some(rules) = &consumable.care else { return Self::Unjudged(batch, CareGap::NoRules) };
        let portion = match chosen(batch, setup.filler.portion.as_deref()) {
            Ok(portion) => portion,
            Err(gap) => return Self::Unjudged(batch, gap),
        };
        let Some(at) = setup.at else { return Self::Unjudged(batch, CareGap::NoMoment) };
        if portion.steps.first().is_none_or(|first| first.at > at) {
            return Self::Unjudged(batch, CareGap::NotOpened);
        }
        let state = batch.state(rules, consumable.fresh_hydrogen(), &portion.steps, at);
        Self::Judged { batch, portion, state }
    }

    /// What is known of the hydrogen of the filler as it is used. Without a batch the class of the
    /// consumable counts only where it needs no care.
    #[must_use]
    pub fn hydrogen(&self, consumable: Option<&Consumable>) -> FillerHydrogen {
        let known =
            |content: Option<_>| content.map_or(FillerHydrogen::Unknown, FillerHydrogen::AtMost);
        match self {
            Self::Judged { state, .. } => match state.fitness {
                CareFitness::Usable => known(state.hydrogen),
                CareFitness::Bake(_) | CareFitness::Scrap(_) => FillerHydrogen::Lost,
                CareFitness::HumidityUnknown => FillerHydrogen::Unknown,
            },
            Self::NoBatch => match consumable {
                Some(consumable) if consumable.care.is_none() => known(consumable.fresh_hydrogen()),
                _ => FillerHydrogen::Unknown,
            },
            Self::Unjudged(batch, CareGap::NoRules) => {
                known(batch.fresh_hydrogen(consumable.and_then(Consumable::fresh_hydrogen)))
            }
            Self::Unknown(_) | Self::OfAnother(_) | Self::Unjudged(..) => FillerHydrogen::Unknown,
        }
    }
}

/// The portion named, or the only one.
fn chosen<'a>(batch: &'a Batch, named: Option<&str>) -> Result<&'a Portion, CareGap> {
    match (named, batch.portions.as_slice()) {
        (Some(code), _) => batch.portion(code).ok_or(CareGap::UnknownPortion),
        (None, []) => Err(CareGap::NotOpened),
        (None, [only]) => Ok(only),
        (None, _) => Err(CareGap::WhichPortion),
    }
}
