//! Shielding gases by ISO 14175:2008: mixtures in vol %, groups, designations.

mod designation;
mod group;
mod mixture;

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
