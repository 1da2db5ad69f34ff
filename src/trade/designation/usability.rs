//! Positions that a class covers.

use crate::trade::Position::{self, HL045, JL045, Pa, Pb, Pc, Pd, Pe, Pf, Pg, Ph, Pj, Pk};
use crate::trade::coded;

coded! {
    /// Whether something agrees with what is stated.
    pub enum Agreement: "agreement" {
        /// It does.
        Agrees = "agrees",
        /// It does not.
        Differs = "differs",
        /// Too little is stated to tell.
        Unknown = "unknown",
    }
}

coded! {
    /// Which way the vertical positions of a class may be welded.
    pub enum VerticalRule: "vertical rule" {
        /// Up only.
        UpOnly = "up",
        /// Down only.
        DownOnly = "down",
        /// Up and down.
        Either = "either",
        /// Vertical, the direction is not stated.
        NotStated = "not stated",
        /// No vertical position.
        NoVertical = "none",
    }
}

/// Positions of a class. A fixed pipe is counted with the plate positions that its
/// circumference passes through (common practice, no source).
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Usability {
    /// Every position the class can cover; where the direction of vertical welds is not stated,
    /// both are listed and [`Usability::admits`] tells.
    pub positions: &'static [Position],
    /// Which way the vertical ones are welded.
    pub progression: VerticalRule,
}

impl Usability {
    /// Whether a position is covered.
    #[must_use]
    pub fn admits(&self, position: Position) -> Agreement {
        let vertical = position.progression().is_some() || position == Pk;
        match self.progression {
            _ if !self.positions.contains(&position) => Agreement::Differs,
            VerticalRule::NotStated if vertical => Agreement::Unknown,
            _ => Agreement::Agrees,
        }
    }
}

const fn usable(positions: &'static [Position], progression: VerticalRule) -> Usability {
    Usability { positions, progression }
}

/// Flat, and horizontal groove and fillet.
pub(super) const FLAT_AND_HORIZONTAL: Usability = usable(&[Pa, Pb, Pc], VerticalRule::NoVertical);
/// Flat, and horizontal fillet.
pub(super) const FLAT_AND_HORIZONTAL_FILLET: Usability =
    usable(&[Pa, Pb], VerticalRule::NoVertical);
/// Flat.
pub(super) const FLAT: Usability = usable(&[Pa], VerticalRule::NoVertical);
/// Flat, horizontal fillet and vertical down.
pub(super) const FLAT_HORIZONTAL_AND_DOWN: Usability =
    usable(&[Pa, Pb, Pg], VerticalRule::DownOnly);
/// All, vertical up.
pub(super) const ALL_UP: Usability =
    usable(&[Pa, Pb, Pc, Pd, Pe, Pf, Ph, HL045], VerticalRule::UpOnly);
/// All, vertical down.
pub(super) const ALL_DOWN: Usability =
    usable(&[Pa, Pb, Pc, Pd, Pe, Pg, Pj, JL045], VerticalRule::DownOnly);
const EVERY: &[Position] = &[Pa, Pb, Pc, Pd, Pe, Pf, Pg, Ph, Pj, Pk, HL045, JL045];
/// All, up and down.
pub(super) const ALL: Usability = usable(EVERY, VerticalRule::Either);
/// All; the direction is not stated.
pub(super) const ALL_DIRECTION_OPEN: Usability = usable(EVERY, VerticalRule::NotStated);

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_open_direction_makes_vertical_positions_unknown() {
        assert_eq!(ALL_DIRECTION_OPEN.admits(Pa), Agreement::Agrees);
        assert_eq!(ALL_DIRECTION_OPEN.admits(Pf), Agreement::Unknown);
        assert_eq!(ALL_DIRECTION_OPEN.admits(Pk), Agreement::Unknown);
        assert_eq!(ALL_UP.admits(Pf), Agreement::Agrees);
        assert_eq!(ALL_UP.admits(Pg), Agreement::Differs);
        assert_eq!(ALL_DOWN.admits(Pf), Agreement::Differs);
        assert_eq!(ALL.admits(Pg), Agreement::Agrees);
        assert_eq!(FLAT_AND_HORIZONTAL.admits(Pf), Agreement::Differs);
    }
}
