//! Base-metal groups by ISO/TR 15608.

use std::{fmt, str::FromStr};

use crate::quantity::{Stress, compare};

/// A group or sub-group of ISO/TR 15608, such as `1` or `1.2`.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct MetalGroup {
    group: u8,
    sub: Option<u8>,
}

/// A text that names no group.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("\"{0}\" is no ISO/TR 15608 group; write the group or sub-group, such as \"1\" or \"1.2\"")]
pub struct UnknownMetalGroup(pub String);

/// Highest group number (ISO/TR 15608: 1 to 11 steels, 21 to 26 aluminium, 31 to 38 copper,
/// 41 to 48 nickel, 51 to 54 titanium, 61 and 62 zirconium, 71 and 72 cast iron; from memory
/// beyond group 11).
const GROUPS: &[std::ops::RangeInclusive<u8>] =
    &[1..=11, 21..=26, 31..=38, 41..=48, 51..=54, 61..=62, 71..=72];

/// A sub-group that is defined by specified minimum yield strength: above the first, up to the second, both in MPa;
/// without an end where nothing bounds it.
type YieldBand = (MetalGroup, Option<f64>, Option<f64>);

const fn sub_group(group: u8, sub: u8) -> MetalGroup {
    MetalGroup { group, sub: Some(sub) }
}

/// ISO/TR 15608, groups 1 to 3 (CR ISO 15608:2000, read; group 1 as a whole goes to 460 MPa). The definition of 1.2
/// goes to 360 MPa; it counts to 355 MPa here, its strongest structural steel: else no test on S355 could support it.
/// Steels of 1.4 are not told by their strength.
const YIELD_BANDS: &[YieldBand] = &[
    (sub_group(1, 1), None, Some(275.0)),
    (sub_group(1, 2), Some(275.0), Some(355.0)),
    (sub_group(1, 3), Some(360.0), Some(460.0)),
    (sub_group(2, 1), Some(360.0), Some(460.0)),
    (sub_group(2, 2), Some(460.0), None),
    (sub_group(3, 1), Some(360.0), Some(690.0)),
    (sub_group(3, 2), Some(690.0), None),
    (sub_group(3, 3), Some(360.0), None),
];

impl MetalGroup {
    fn yield_bands(self) -> impl Iterator<Item = &'static YieldBand> {
        YIELD_BANDS.iter().filter(move |(own, ..)| self.includes(*own))
    }

    /// Specified minimum yield strength in MPa that all its steels are above; `None` where it is not defined so.
    #[must_use]
    pub fn yield_above(self) -> Option<f64> {
        let lowest: Option<Vec<f64>> = self.yield_bands().map(|(_, above, _)| *above).collect();
        lowest?.into_iter().reduce(f64::min)
    }

    /// Whether some of its steels have, by its definition, a higher specified minimum yield strength than this.
    #[must_use]
    pub fn reaches_above(self, strength: Stress) -> bool {
        self.yield_bands().any(|band| is_above(band, strength))
    }

    /// Its sub-groups that do not reach above this.
    #[must_use]
    pub fn sub_groups_up_to(self, strength: Stress) -> Vec<Self> {
        let within = self.yield_bands().filter(|band| !is_above(band, strength));
        within.map(|(own, ..)| *own).collect()
    }

    /// Number of the group, 1 to 72.
    #[must_use]
    pub const fn group(self) -> u8 {
        self.group
    }

    /// Number of the sub-group, where one is stated.
    #[must_use]
    pub const fn sub_group(self) -> Option<u8> {
        self.sub
    }

    /// The group that a sub-group belongs to; a group itself.
    #[must_use]
    pub const fn whole(self) -> Self {
        Self { group: self.group, sub: None }
    }

    /// Whether metal of the other group belongs to this one: `1` covers `1.2`, `1.2` covers only
    /// itself. Which groups a test qualifies beyond that is for the code's rules.
    #[must_use]
    pub fn includes(self, other: Self) -> bool {
        self.group == other.group && (self.sub.is_none() || self.sub == other.sub)
    }
}

fn is_above((_, _, up_to): &YieldBand, strength: Stress) -> bool {
    up_to.is_none_or(|end| compare(end, strength.mpa(), 0.0).is_gt())
}

impl FromStr for MetalGroup {
    type Err = UnknownMetalGroup;

    fn from_str(text: &str) -> Result<Self, Self::Err> {
        let unknown = || UnknownMetalGroup(text.to_owned());
        let number = |part: &str| match part.as_bytes() {
            // Most have one digit.
            [digit @ b'0'..=b'9'] => Ok(digit - b'0'),
            _ => part.parse::<u8>().map_err(|_| unknown()),
        };
        // A look at each byte: texts are short, and a search built for long ones costs more.
        let (group, sub) = match text.bytes().position(|byte| byte == b'.') {
            Some(point) => (number(&text[..point])?, Some(number(&text[point + 1..])?)),
            None => (number(text)?, None),
        };
        let known = GROUPS.iter().any(|range| range.contains(&group));
        let sub_known = sub.is_none_or(|sub| (1..=9).contains(&sub));
        if known && sub_known { Ok(Self { group, sub }) } else { Err(unknown()) }
    }
}

impl fmt::Display for MetalGroup {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.sub {
            Some(sub) => write!(f, "{}.{sub}", self.group),
            None => write!(f, "{}", self.group),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn group(text: &str) -> MetalGroup {
        text.parse().unwrap()
    }

    #[test]
    fn a_group_includes_its_sub_groups_and_a_sub_group_only_itself() {
        assert!(group("1").includes(group("1.2")));
        assert!(!group("1.2").includes(group("1")));
        assert!(!group("1.2").includes(group("1.3")));
        assert!(!group("1").includes(group("11")));
    }

    /// CR ISO 15608:2000: 1.1 up to 275 MPa, 1.2 to 360 MPa (counted to 355 MPa here), 1.3 above 360 MPa, 2.1 and 3.1
    /// above 360 MPa up to 460 and 690 MPa, 2.2 above 460 MPa.
    #[test]
    fn yield_strengths_that_sub_groups_are_defined_by() {
        let reaches = |text: &str, mpa: &str| group(text).reaches_above(mpa.parse().unwrap());
        for (text, highest, above) in [
            ("1.1", "235 MPa", true),
            ("1.1", "275 MPa", false),
            ("1.2", "275 MPa", true),
            ("1.2", "300 MPa", true),
            ("1.2", "355 MPa", false),
            ("1.3", "355 MPa", true),
            ("1.3", "420 MPa", true),
            ("1.3", "460 MPa", false),
            ("1.4", "355 MPa", false),
            ("1", "355 MPa", true),
            ("1", "460 MPa", false),
            ("2.1", "460 MPa", false),
            ("2", "460 MPa", true),
            ("2.2", "700 MPa", true),
            ("3.1", "690 MPa", false),
            ("8", "200 MPa", false),
            ("11", "200 MPa", false),
        ] {
            assert_eq!(reaches(text, highest), above, "{text} {highest}");
        }
        let up_to: Stress = "355 MPa".parse().unwrap();
        assert_eq!(group("1").sub_groups_up_to(up_to), [group("1.1"), group("1.2")]);
        assert_eq!(group("1.3").sub_groups_up_to(up_to), []);
        let lowest =
            ["1", "1.1", "1.2", "1.3", "2", "2.2", "3", "8"].map(|one| group(one).yield_above());
        let expected =
            [None, None, Some(275.0), Some(360.0), Some(360.0), Some(460.0), Some(360.0), None];
        assert_eq!(lowest, expected);
    }

    #[test]
    fn groups_that_do_not_exist_are_refused() {
        for text in ["", "0", "12", "1.0", "1.10", "S355", "1.2.3", "-1"] {
            assert!(text.parse::<MetalGroup>().is_err(), "{text}");
        }
    }
}
