//! Welding positions: ISO 6947 symbols and the US names, which do not map one to one.

use std::{borrow::Cow, iter};

use super::{Coded, JointKind, Progression, coded};

coded! {
    /// A main welding position by its ISO 6947:2011 symbol.
    pub enum Position: "position" {
        /// Flat.
        Pa = "PA",
        /// Horizontal-vertical (fillet).
        Pb = "PB",
        /// Horizontal (butt).
        Pc = "PC",
        /// Horizontal overhead (fillet).
        Pd = "PD",
        /// Overhead (butt).
        Pe = "PE",
        /// Vertical up.
        Pf = "PF",
        /// Vertical down.
        Pg = "PG",
        /// Pipe fixed, axis horizontal, welded upwards.
        Ph = "PH",
        /// Pipe fixed, axis horizontal, welded downwards.
        Pj = "PJ",
        /// Pipe fixed, orbital.
        Pk = "PK",
        /// Pipe at 45°, welded upwards.
        HL045 = "H-L045",
        /// Pipe at 45°, welded downwards.
        JL045 = "J-L045",
    }
}

impl Position {
    /// Direction of travel that the symbol itself fixes.
    #[must_use]
    pub const fn progression(self) -> Option<Progression> {
        match self {
            Self::Pf | Self::Ph | Self::HL045 => Some(Progression::Up),
            Self::Pg | Self::Pj | Self::JL045 => Some(Progression::Down),
            Self::Pa | Self::Pb | Self::Pc | Self::Pd | Self::Pe | Self::Pk => None,
        }
    }

    /// Whether it is one of a pipe that is not turned (ISO 6947): only its direction changes along the joint.
    #[must_use]
    pub const fn is_of_fixed_pipe(self) -> bool {
        matches!(self, Self::Ph | Self::Pj | Self::Pk | Self::HL045 | Self::JL045)
    }

    /// US test and production names that can mean this position.
    #[must_use]
    pub fn us_names(self) -> Vec<&'static str> {
        let names = US_NAMES.iter().filter(|row| row.positions.contains(&self));
        let mut names: Vec<_> = names.map(|row| row.name).collect();
        names.dedup();
        names
    }
}

/// One US name, the kind of weld it is used with, and the ISO positions it can mean.
struct UsName {
    name: &'static str,
    joint: JointKind,
    positions: &'static [Position],
}

const fn us(name: &'static str, joint: JointKind, positions: &'static [Position]) -> UsName {
    UsName { name, joint, positions }
}

/// ISO 6947:2011 symbols beside the test positions (1G, 1F...) of ASME IX QW-461 and AWS D1.1,
/// and beside the production positions F, H, V, O. The pairing is the common one of trade texts
/// that quote both; 6F downwards is from memory.
const US_NAMES: &[UsName] = {
    use JointKind::{Butt, Fillet};
    use Position::{HL045, JL045, Pa, Pb, Pc, Pd, Pe, Pf, Pg, Ph, Pj, Pk};
    &[
        us("1G", Butt, &[Pa]),
        us("2G", Butt, &[Pc]),
        us("3G", Butt, &[Pf, Pg]),
        us("4G", Butt, &[Pe]),
        us("5G", Butt, &[Ph, Pj, Pk]),
        us("6G", Butt, &[HL045, JL045]),
        us("1F", Fillet, &[Pa]),
        us("2F", Fillet, &[Pb]),
        us("2FR", Fillet, &[Pb]),
        us("3F", Fillet, &[Pf, Pg]),
        us("4F", Fillet, &[Pd]),
        us("5F", Fillet, &[Ph, Pj]),
        us("6F", Fillet, &[HL045, JL045]),
        us("F", Butt, &[Pa]),
        us("F", Fillet, &[Pa]),
        us("H", Butt, &[Pc]),
        us("H", Fillet, &[Pb]),
        us("V", Butt, &[Pf, Pg]),
        us("V", Fillet, &[Pf, Pg]),
        us("O", Butt, &[Pe]),
        us("O", Fillet, &[Pd]),
        us("OH", Butt, &[Pe]),
        us("OH", Fillet, &[Pd]),
    ]
};

/// A small set of positions.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
struct PositionSet(u16);

impl PositionSet {
    fn of(positions: &[Position]) -> Self {
        Self(positions.iter().fold(0, |bits, position| bits | 1 << *position as u16))
    }

    const fn union(self, other: Self) -> Self {
        Self(self.0 | other.0)
    }

    fn only(self) -> Option<Position> {
        let first = Position::ALL.get(usize::try_from(self.0.trailing_zeros()).ok()?);
        first.map(|(position, _)| *position).filter(|_| self.0.is_power_of_two())
    }

    fn iter(self) -> impl Iterator<Item = Position> + use<> {
        let mut left = self.0;
        iter::from_fn(move || {
            let first = Position::ALL.get(usize::try_from(left.trailing_zeros()).ok()?);
            left &= left.saturating_sub(1);
            first.map(|(position, _)| *position)
        })
    }
}

/// The ISO positions that a text can mean, with the text as typed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PositionClaim {
    text: String,
    set: PositionSet,
}

/// A text that names no position this crate can judge.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum UnknownPosition {
    /// Neither an ISO symbol nor a US name.
    #[error(
        "\"{given}\" is no welding position; give an ISO 6947 symbol (PA, PF...), a test position \
         (1G to 6G, 1F to 6F) or F, H, V, O"
    )]
    NotAPosition {
        /// What was given.
        given: String,
    },
    /// 6GR: the restriction ring is part of the name, and no ISO 6947 symbol states it.
    #[error(
        "6GR has a restriction ring that no ISO 6947 symbol states; give 6G, H-L045 or J-L045 for \
         the position and the ring with the joint"
    )]
    Restricted,
    /// A groove name for a fillet weld, or a fillet name for a groove.
    #[error("{given} does not name a position of a {joint} weld")]
    OtherJoint {
        /// What was given.
        given: String,
        /// The kind of weld in the joint.
        joint: JointKind,
    },
}

impl PositionClaim {
    /// Reads an ISO 6947 symbol, a US test position or a US production letter. A US name can mean
    /// several positions; the kind of weld, where known, rules some out.
    ///
    /// # Errors
    /// [`UnknownPosition`] says which of the three reasons holds.
    pub fn parse(text: &str, joint: Option<JointKind>) -> Result<Self, UnknownPosition> {
        let given = text.trim();
        // Most names differ in their last character, which is compared without a call.
        let last = given.bytes().next_back().map(|byte| byte.to_ascii_uppercase());
        let is_given =
            |name: &str| name.bytes().next_back() == last && name.eq_ignore_ascii_case(given);
        if let Some((position, _)) = Position::ALL.iter().find(|(_, code)| is_given(code)) {
            return Ok(Self { text: text.to_owned(), set: PositionSet::of(&[*position]) });
        }
        if is_given("6GR") {
            return Err(UnknownPosition::Restricted);
        }
        let (mut is_named, mut set) = (false, PositionSet::default());
        for row in US_NAMES.iter().filter(|row| is_given(row.name)) {
            is_named = true;
            if joint.is_none_or(|joint| joint == row.joint) {
                set = set.union(PositionSet::of(row.positions));
            }
        }
        match joint {
            _ if !is_named => Err(UnknownPosition::NotAPosition { given: given.to_owned() }),
            Some(joint) if set == PositionSet::default() => {
                Err(UnknownPosition::OtherJoint { given: given.to_ascii_uppercase(), joint })
            }
            _ => Ok(Self { text: text.to_owned(), set }),
        }
    }

    /// The claim with the direction of travel known. Positions without a direction of their own
    /// stay as they are, unless others of the claim have one: `5G` welded up is PH, not PK.
    /// Nothing is left when the direction contradicts the claim, as `PG` welded up does.
    #[must_use]
    pub fn narrowed_by(&self, progression: Progression) -> Cow<'_, Self> {
        if self.set.iter().all(|position| position.progression().is_none()) {
            return Cow::Borrowed(self);
        }
        let kept = self.set.iter().filter(|p| p.progression() == Some(progression));
        let set = PositionSet::of(&kept.collect::<Vec<_>>());
        Cow::Owned(Self { text: self.text.clone(), set })
    }

    /// Whether no position can be meant.
    #[must_use]
    pub const fn is_empty(&self) -> bool {
        self.set.0 == 0
    }

    /// The positions that can be meant, in the order of ISO 6947.
    pub fn positions(&self) -> impl Iterator<Item = Position> + use<> {
        self.set.iter()
    }

    /// The position, where only one can be meant.
    #[must_use]
    pub fn only(&self) -> Option<Position> {
        self.set.only()
    }

    /// The text as typed.
    #[must_use]
    pub fn text(&self) -> &str {
        &self.text
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn codes(text: &str, joint: Option<JointKind>) -> Vec<&'static str> {
        let claim = PositionClaim::parse(text, joint).unwrap();
        claim.positions().map(Coded::code).collect()
    }

    fn narrowed(text: &str, progression: Progression) -> Vec<&'static str> {
        let claim = PositionClaim::parse(text, None).unwrap();
        claim.narrowed_by(progression).positions().map(Coded::code).collect()
    }

    #[test]
    fn an_iso_symbol_means_itself() {
        for (position, code) in Position::ALL {
            let claim = PositionClaim::parse(&code.to_lowercase(), None).unwrap();
            assert_eq!(claim.only(), Some(*position));
            assert_eq!(claim.text(), code.to_lowercase());
        }
    }

    /// ISO 6947:2011 symbols beside ASME IX QW-461 / AWS D1.1 test positions, as trade texts pair
    /// them.
    #[test]
    fn us_test_positions_mean_what_the_trade_pairs_them_with() {
        for (name, expected) in [
            ("1G", &["PA"][..]),
            ("2G", &["PC"]),
            ("3G", &["PF", "PG"]),
            ("4G", &["PE"]),
            ("5G", &["PH", "PJ", "PK"]),
            ("6G", &["H-L045", "J-L045"]),
            ("1F", &["PA"]),
            ("2F", &["PB"]),
            ("2FR", &["PB"]),
            ("3F", &["PF", "PG"]),
            ("4F", &["PD"]),
            ("5F", &["PH", "PJ"]),
            ("6F", &["H-L045", "J-L045"]),
        ] {
            assert_eq!(codes(name, None), expected, "{name}");
        }
    }

    /// Common practice, no source.
    #[test]
    fn a_production_letter_depends_on_the_weld() {
        use JointKind::{Butt, Fillet};
        assert_eq!(codes("H", Some(Fillet)), ["PB"]);
        assert_eq!(codes("H", Some(Butt)), ["PC"]);
        assert_eq!(codes("H", None), ["PB", "PC"]);
        assert_eq!(codes("O", Some(Fillet)), ["PD"]);
        assert_eq!(codes("oh", Some(Butt)), ["PE"]);
        assert_eq!(codes("O", None), ["PD", "PE"]);
        assert_eq!(codes("F", None), ["PA"]);
        assert_eq!(codes("V", Some(Fillet)), ["PF", "PG"]);
    }

    #[test]
    fn the_direction_narrows_a_claim() {
        use Progression::{Down, Up};
        assert_eq!(narrowed("3G", Up), ["PF"]);
        assert_eq!(narrowed("3F", Down), ["PG"]);
        assert_eq!(narrowed("5G", Up), ["PH"]);
        assert_eq!(narrowed("6G", Down), ["J-L045"]);
        assert_eq!(narrowed("V", Up), ["PF"]);
        assert_eq!(narrowed("2F", Up), ["PB"]);
        assert_eq!(narrowed("PK", Up), ["PK"]);
        assert!(narrowed("PG", Up).is_empty());
    }

    #[test]
    fn symbols_that_fix_a_direction_say_so() {
        let with = |direction| {
            let all = Position::ALL.iter().filter(|(p, _)| p.progression() == direction);
            all.map(|(_, code)| *code).collect::<Vec<_>>()
        };
        assert_eq!(with(Some(Progression::Up)), ["PF", "PH", "H-L045"]);
        assert_eq!(with(Some(Progression::Down)), ["PG", "PJ", "J-L045"]);
    }

    #[test]
    fn us_names_lead_back() {
        assert_eq!(Position::us_names(Position::Pa), ["1G", "1F", "F"]);
        assert_eq!(Position::us_names(Position::Pb), ["2F", "2FR", "H"]);
        assert_eq!(Position::us_names(Position::Pc), ["2G", "H"]);
        assert_eq!(Position::us_names(Position::Pd), ["4F", "O", "OH"]);
        assert_eq!(Position::us_names(Position::Pe), ["4G", "O", "OH"]);
        assert_eq!(Position::us_names(Position::Pf), ["3G", "3F", "V"]);
        assert_eq!(Position::us_names(Position::Pk), ["5G"]);
        assert_eq!(Position::us_names(Position::HL045), ["6G", "6F"]);
    }

    #[test]
    fn refusals_give_their_reason() {
        use JointKind::{Butt, Fillet};
        assert_eq!(PositionClaim::parse("6GR", None), Err(UnknownPosition::Restricted));
        for (text, joint) in [("2G", Fillet), ("4F", Butt)] {
            let error = PositionClaim::parse(text, Some(joint)).unwrap_err();
            assert_eq!(error, UnknownPosition::OtherJoint { given: text.to_owned(), joint });
        }
        for text in ["", "7G", "PI", "PA PB", "G", "H-L030"] {
            let error = PositionClaim::parse(text, None).unwrap_err();
            assert!(matches!(error, UnknownPosition::NotAPosition { .. }), "{text}");
        }
    }

    proptest! {
        #[test]
        fn no_text_upsets_the_parser(text in "\\PC*") {
            let _ = PositionClaim::parse(&text, None);
        }
    }
}
