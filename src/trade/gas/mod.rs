//! Shielding gases by ISO 14175:2008: mixtures in vol %, groups, designations.
//!
//! A mixture falls into one group by the bands of its components; each band ends where the next begins and the end
//! belongs to the lower one (15 % carbon dioxide is M20, a hair more M21). Helium may take the place of argon in mixed
//! and reducing groups. Shares are decimals, so that no band edge is decided by binary noise. A group is coarse: what a
//! filler was classified in can be narrower, and a procedure may fix the mixture itself.

mod designation;
mod group;
mod mixture;
mod share;

pub use group::GasGroup;
pub use mixture::{GasComponent, GasError, GasMixture};

/// The shielding gas of a setup, as far as it is known.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Gas {
    /// A mixture with its shares.
    Mixture(GasMixture),
    /// Only the group is known, as `M21`.
    Group(GasGroup),
    /// No gas: the filler shields itself.
    None,
}

impl Gas {
    /// The mixture, as stated or as the group fixes it; `None` where neither does, and where no gas is used.
    #[must_use]
    pub fn mixture(&self) -> Option<GasMixture> {
        match self {
            Self::Mixture(mixture) => Some(*mixture),
            Self::Group(group) => group.composition(),
            Self::None => None,
        }
    }

    /// The group; `None` where no gas is used.
    #[must_use]
    pub fn group(&self) -> Option<GasGroup> {
        match self {
            Self::Mixture(mixture) => Some(mixture.iso_14175()),
            Self::Group(group) => Some(*group),
            Self::None => None,
        }
    }
}
