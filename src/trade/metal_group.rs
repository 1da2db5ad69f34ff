//! Base-metal groups by ISO/TR 15608.

use std::{fmt, str::FromStr};

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

impl MetalGroup {
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

    #[test]
    fn groups_that_do_not_exist_are_refused() {
        for text in ["", "0", "12", "1.0", "1.10", "S355", "1.2.3", "-1"] {
            assert!(text.parse::<MetalGroup>().is_err(), "{text}");
        }
    }
}
