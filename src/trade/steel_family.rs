//! Families of metal that formulas of heat and cracking tell apart.

use super::{MetalGroup, coded};

coded! {
    /// What a metal is, as far as cooling and preheat formulas care.
    pub enum SteelFamily: "metal family" {
        /// Unalloyed and low-alloy ferritic steel: what EN 1011-2 is written for.
        LowAlloyFerritic = "low-alloy-ferritic",
        /// Ferritic or martensitic steel with more than some 3 % chromium.
        HighAlloyFerritic = "high-alloy-ferritic",
        /// Nickel-alloyed steel, up to 10 % nickel.
        NickelSteel = "nickel-steel",
        /// Austenitic stainless steel.
        Austenitic = "austenitic",
        /// Austenitic-ferritic stainless steel.
        Duplex = "duplex",
        /// Cast iron.
        CastIron = "cast-iron",
        /// Aluminium, copper, nickel, titanium, zirconium and their alloys.
        NonFerrous = "non-ferrous",
    }
}

/// A metal that a formula for unalloyed and low-alloy ferritic steel says nothing about.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
#[error(
    "the formula is for unalloyed and low-alloy ferritic steel; {0} is outside its scope: conducts \
     heat and transforms differently"
)]
pub struct OutsideScope(pub SteelFamily);

impl SteelFamily {
    /// Family of an ISO/TR 15608 group (from memory).
    ///
    /// `None` for groups 5 and 6 without a sub-group: they reach from low-alloy chromium-molybdenum
    /// steel (x.1 and x.2, at most 3.5 % Cr) to 10 % chromium and more.
    #[must_use]
    pub const fn of(group: MetalGroup) -> Option<Self> {
        match (group.group(), group.sub_group()) {
            (1..=4 | 11, _) | (5 | 6, Some(1 | 2)) => Some(Self::LowAlloyFerritic),
            (5 | 6, Some(_)) | (7, _) => Some(Self::HighAlloyFerritic),
            (5 | 6, None) => None,
            (8, _) => Some(Self::Austenitic),
            (9, _) => Some(Self::NickelSteel),
            (10, _) => Some(Self::Duplex),
            (71 | 72, _) => Some(Self::CastIron),
            _ => Some(Self::NonFerrous),
        }
    }

    /// Refuses all but unalloyed and low-alloy ferritic steel.
    pub(super) fn low_alloy_only(self) -> Result<(), OutsideScope> {
        if self == Self::LowAlloyFerritic { Ok(()) } else { Err(OutsideScope(self)) }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// ISO/TR 15608 groups, from memory.
    #[test]
    fn groups_belong_to_families() {
        use SteelFamily::{
            Austenitic, CastIron, Duplex, HighAlloyFerritic, LowAlloyFerritic, NickelSteel,
            NonFerrous,
        };
        for (group, family) in [
            ("1", Some(LowAlloyFerritic)),
            ("1.2", Some(LowAlloyFerritic)),
            ("3.2", Some(LowAlloyFerritic)),
            ("5.1", Some(LowAlloyFerritic)),
            ("5.4", Some(HighAlloyFerritic)),
            ("6", None),
            ("7.2", Some(HighAlloyFerritic)),
            ("8.1", Some(Austenitic)),
            ("9.3", Some(NickelSteel)),
            ("10.1", Some(Duplex)),
            ("11", Some(LowAlloyFerritic)),
            ("22", Some(NonFerrous)),
            ("43", Some(NonFerrous)),
            ("71", Some(CastIron)),
        ] {
            assert_eq!(SteelFamily::of(group.parse().unwrap()), family, "{group}");
        }
    }
}
