//! A set of variables.

use std::ops::{BitAnd, BitOr, Not};

use super::Variable;

/// Variables, each in it or not.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct VariableSet(u64);

impl VariableSet {
    /// Those of a list.
    #[must_use]
    pub const fn of(variables: &[Variable]) -> Self {
        let (mut set, mut at) = (Self(0), 0);
        while at < variables.len() {
            set = set.with(variables[at]);
            at += 1;
        }
        set
    }

    /// Those whose places from `first` on are marked, one bit each.
    pub(super) const fn from_bits(first: Variable, bits: u32) -> Self {
        Self((bits as u64) << first as u32)
    }

    /// One more.
    #[must_use]
    pub const fn with(self, variable: Variable) -> Self {
        Self(self.0 | 1 << variable as u32)
    }

    /// One more, where a condition holds.
    #[must_use]
    pub const fn with_if(self, variable: Variable, holds: bool) -> Self {
        Self(self.0 | (holds as u64) << variable as u32)
    }

    /// Whether it is among them.
    #[must_use]
    pub const fn contains(self, variable: Variable) -> bool {
        self.0 >> variable as u32 & 1 == 1
    }

    /// Whether all of another set are among them.
    #[must_use]
    pub const fn includes(self, other: Self) -> bool {
        other.0 & !self.0 == 0
    }

    /// How many they are.
    #[must_use]
    pub const fn len(self) -> u16 {
        #[allow(clippy::cast_possible_truncation, reason = "at most 64")]
        {
            self.0.count_ones() as u16
        }
    }

    /// Whether there are none.
    #[must_use]
    pub const fn is_empty(self) -> bool {
        self.0 == 0
    }
}

impl BitAnd for VariableSet {
    type Output = Self;

    fn bitand(self, other: Self) -> Self {
        Self(self.0 & other.0)
    }
}

impl BitOr for VariableSet {
    type Output = Self;

    fn bitor(self, other: Self) -> Self {
        Self(self.0 | other.0)
    }
}

impl Not for VariableSet {
    type Output = Self;

    fn not(self) -> Self {
        Self(!self.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::trade::Coded;

    #[test]
    fn every_variable_has_a_place_of_its_own() {
        let all: Vec<_> = Variable::ALL.iter().map(|(variable, _)| *variable).collect();
        for one in &all {
            let set = VariableSet::of(&[*one]);
            let among: Vec<_> = all.iter().filter(|other| set.contains(**other)).collect();
            assert_eq!(among, [one]);
        }
        assert_eq!(usize::from(VariableSet::of(&all).len()), all.len());
    }

    #[test]
    fn sets_are_joined_cut_and_compared() {
        let (some, more) = (
            VariableSet::of(&[Variable::Joint, Variable::ArcPower]),
            VariableSet::of(&[Variable::ArcPower]).with_if(Variable::Gas, true),
        );
        assert_eq!((some & more), VariableSet::of(&[Variable::ArcPower]));
        assert_eq!((some | more).len(), 3);
        assert!((some | more).includes(more) && !some.includes(more));
        assert_eq!(some & !more, VariableSet::default().with(Variable::Joint));
        assert!(VariableSet::default().with_if(Variable::Gas, false).is_empty());
    }
}
