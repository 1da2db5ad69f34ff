//! What several owners allow together of one variable.

use std::cmp::Ordering;

use crate::{
    check::Owner,
    quantity::{Amount, AmountRange},
};

/// What is left when all owners are heard.
#[derive(Debug, Clone, PartialEq)]
pub enum Region {
    /// Nobody sets a limit.
    NoLimit,
    /// These values.
    Range(BoxRange),
    /// No value: owners contradict each other.
    Conflict(Conflict),
}

/// Values left, ends included, and who binds each end.
#[derive(Debug, Clone, PartialEq)]
pub struct BoxRange {
    /// The values; one end may be open.
    pub range: AmountRange,
    /// All owners of exactly the lower end; empty where it is open.
    pub min_owners: Vec<Owner>,
    /// All owners of exactly the upper end; empty where it is open.
    pub max_owners: Vec<Owner>,
}

/// A lower end that lies above an upper end.
#[derive(Debug, Clone, PartialEq)]
pub struct Conflict {
    /// The highest lower end.
    pub min: Amount,
    /// Who wants at least that.
    pub min_owners: Vec<Owner>,
    /// The lowest upper end.
    pub max: Amount,
    /// Who wants at most that.
    pub max_owners: Vec<Owner>,
}

/// The tightest end so far and everybody who sets it.
#[derive(Debug, Default)]
struct End {
    at: Option<Amount>,
    owners: Vec<Owner>,
}

impl End {
    /// Hears one more owner; `tighter` is how a tighter end compares with a looser one.
    fn hear(&mut self, end: Option<Amount>, owner: &Owner, tighter: Ordering) {
        let Some(end) = end else { return };
        let order = self.at.map_or(Some(tighter), |at| end.compare(at));
        match order {
            Some(Ordering::Equal) if !self.owners.contains(owner) => {
                self.owners.push(owner.clone());
            }
            Some(order) if order == tighter => {
                self.at = Some(end);
                self.owners = vec![owner.clone()];
            }
            _ => {}
        }
    }
}

impl Region {
    /// What all these owners allow of one kind of amount. Owners of one end stand in the order heard.
    #[must_use]
    pub fn of<'a>(limits: impl IntoIterator<Item = (&'a AmountRange, &'a Owner)>) -> Self {
        let (mut min, mut max) = (End::default(), End::default());
        for (range, owner) in limits {
            min.hear(range.min, owner, Ordering::Greater);
            max.hear(range.max, owner, Ordering::Less);
        }
        match (min.at, max.at) {
            (None, None) => Self::NoLimit,
            (Some(lower), Some(upper)) if lower.compare(upper) == Some(Ordering::Greater) => {
                Self::Conflict(Conflict {
                    min: lower,
                    min_owners: min.owners,
                    max: upper,
                    max_owners: max.owners,
                })
            }
            (lower, upper) => Self::Range(BoxRange {
                range: AmountRange { min: lower, max: upper },
                min_owners: min.owners,
                max_owners: max.owners,
            }),
        }
    }

    /// The values left, where there are any.
    #[must_use]
    pub const fn range(&self) -> Option<&BoxRange> {
        match self {
            Self::Range(range) => Some(range),
            Self::NoLimit | Self::Conflict(_) => None,
        }
    }

    /// The contradiction, where there is one.
    #[must_use]
    pub const fn conflict(&self) -> Option<&Conflict> {
        match self {
            Self::Conflict(conflict) => Some(conflict),
            Self::NoLimit | Self::Range(_) => None,
        }
    }
}
