//! The base metal of a part.

use std::ops::RangeInclusive;

use crate::{
    quantity::Stress,
    trade::{Composition, MetalGroup, coded},
};

coded! {
    /// Base-metal group of AWS D1.1 (prequalified base metals; table 3.1 in 2015, 5.3 in 2020).
    pub enum D11Group: "D1.1 base-metal group" {
        /// Group I.
        I = "I",
        /// Group II.
        II = "II",
        /// Group III.
        Iii = "III",
        /// Group IV.
        IV = "IV",
        /// Group V.
        V = "V",
    }
}

impl D11Group {
    /// Whether metal of a group of ISO/TR 15608 may stand in one of these groups: they list unalloyed, fine-grain,
    /// weathering and quenched and tempered structural steels, no chromium-molybdenum, nickel or stainless ones and no
    /// other metals (AWS D1.1:2015, Table 3.1 and 1.2; from memory).
    #[must_use]
    pub const fn may_list(group: MetalGroup) -> bool {
        matches!(group.group(), 1..=4 | 11)
    }
}

coded! {
    /// Condition in which the metal was delivered.
    pub enum DeliveryCondition: "delivery condition" {
        /// As rolled.
        AsRolled = "as-rolled",
        /// Normalised, or rolled to the same effect.
        Normalised = "normalised",
        /// Rolled with control of temperature and deformation.
        ThermomechanicallyRolled = "thermomechanically-rolled",
        /// Quenched and tempered.
        QuenchedAndTempered = "quenched-and-tempered",
        /// Precipitation hardened.
        PrecipitationHardened = "precipitation-hardened",
        /// Solution annealed.
        SolutionAnnealed = "solution-annealed",
        /// Cast.
        Cast = "cast",
        /// Forged.
        Forged = "forged",
    }
}

/// P-Number of ASME IX with its group number.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub struct PNumber {
    /// The number with its letter, as `1` or `5A`.
    pub number: String,
    /// Group number, for work with toughness requirements.
    pub group: Option<u8>,
}

/// Groups of ISO/TR 15608.
type Groups = [RangeInclusive<u8>];

/// Ferritic steels up to the chromium-molybdenum and nickel-alloyed ones.
const FERRITIC: &Groups = &[1..=6, 9..=9, 11..=11];
/// Ferritic, martensitic and precipitation-hardened stainless steels.
const CHROMIUM: &Groups = &[7..=7];
const AUSTENITIC: &Groups = &[8..=8];
const DUPLEX: &Groups = &[10..=10];
const ALUMINIUM: &Groups = &[21..=26];
const COPPER: &Groups = &[31..=38];
/// With austenitic steels: P-No. 45 has some that ISO/TR 15608 counts as 8.2.
const NICKEL: &Groups = &[8..=8, 41..=48];
const TITANIUM: &Groups = &[51..=54];
const ZIRCONIUM: &Groups = &[61..=62];

impl PNumber {
    /// Whether metal of a group of ISO/TR 15608 may have this number: families of metal are told apart, not steels of
    /// one family (ASME IX, QW/QB-422, beside ISO/TR 15608; from memory). A number that is not known may be any metal.
    #[must_use]
    pub fn may_be(&self, group: MetalGroup) -> bool {
        self.groups().is_none_or(|own| own.iter().any(|range| range.contains(&group.group())))
    }

    fn groups(&self) -> Option<&'static Groups> {
        let letter = self.number.trim_start_matches(|c: char| c.is_ascii_digit());
        let digits = &self.number[..self.number.len() - letter.len()];
        Some(match (digits.parse::<u8>().ok()?, letter) {
            (1 | 3..=5 | 9 | 11 | 15, _) | (10, "A" | "B" | "C" | "F") => FERRITIC,
            (6 | 7, _) | (10, "I" | "J" | "K") => CHROMIUM,
            (8, _) => AUSTENITIC,
            (10, "H") => DUPLEX,
            (21..=26, _) => ALUMINIUM,
            (31..=35, _) => COPPER,
            (41..=49, _) => NICKEL,
            (51..=53, _) => TITANIUM,
            (61 | 62, _) => ZIRCONIUM,
            _ => return None,
        })
    }
}

/// The metal of one part, as certificate and standard state it.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct BaseMetal {
    /// Standard of the metal, as `EN 10025-2`.
    pub standard: Option<String>,
    /// Grade, as `S355J2`.
    pub grade: Option<String>,
    /// Delivery condition.
    pub condition: Option<DeliveryCondition>,
    /// Group or sub-group of ISO/TR 15608.
    pub group: Option<MetalGroup>,
    /// P-Number of ASME IX.
    pub p_number: Option<PNumber>,
    /// Group of AWS D1.1.
    pub d11_group: Option<D11Group>,
    /// Specified minimum yield strength of the grade, independent of thickness.
    pub specified_yield: Option<Stress>,
    /// Heat number.
    pub heat_number: Option<String>,
    /// Inspection certificate, as `3.1` of EN 10204 with its number.
    pub certificate: Option<String>,
    /// Heat analysis; an element without an entry is unknown.
    pub heat_analysis: Option<Composition>,
}

#[cfg(test)]
mod tests {
    use super::*;

    fn group(text: &str) -> MetalGroup {
        text.parse().unwrap()
    }

    /// AWS D1.1:2015, 1.2 and Table 3.1, from memory: carbon and low-alloy structural steels, as A36 (1.1), A572 Grade 50
    /// (1.2), A588 (1.4), A514 (3.1) and A106 Grade B (11.1).
    #[test]
    fn structural_steels_are_neither_stainless_nor_another_metal() {
        for own in ["1", "1.1", "1.2", "1.3", "1.4", "2.1", "3.1", "3.2", "11.1"] {
            assert!(D11Group::may_list(group(own)), "{own}");
        }
        for other in
            ["5.1", "6.1", "7.1", "8.1", "9.2", "10.1", "21", "22", "31", "43", "51", "61", "71"]
        {
            assert!(!D11Group::may_list(group(other)), "{other}");
        }
    }

    /// ASME IX, QW/QB-422 and ISO/TR 15608 from memory: A516 (P-No. 1, 1.1), 2.25Cr-1Mo (5A, 5.2), Grade 91 (15E, 6.4), 9 Ni
    /// (11A, 9.3), 410 (6, 7.2), 304 (8, 8.1), 2205 (10H, 10.1), 904L (45, 8.2), 6061 (23, 23.1), Monel 400 (42, 42), Grade
    /// 2 titanium (51, 51.2).
    #[test]
    fn p_numbers_are_of_families_of_metal() {
        let may_be = |number: &str, own: &str| {
            PNumber { number: number.to_owned(), group: None }.may_be(group(own))
        };
        for (number, own) in [
            ("1", "1.1"),
            ("1", "11.1"),
            ("3", "1.2"),
            ("4", "5.1"),
            ("5A", "5.2"),
            ("15E", "6.4"),
            ("11A", "9.3"),
            ("11B", "3.1"),
            ("6", "7.2"),
            ("7", "7.1"),
            ("10I", "7.1"),
            ("8", "8.1"),
            ("10H", "10.1"),
            ("45", "8.2"),
            ("23", "23.1"),
            ("34", "34"),
            ("42", "42"),
            ("51", "51.2"),
            ("61", "61"),
            ("10G", "9"),
            ("P8", "1.2"),
        ] {
            assert!(may_be(number, own), "{number} {own}");
        }
        for (number, other) in [
            ("1", "8.1"),
            ("1", "22"),
            ("5A", "7.2"),
            ("8", "1.2"),
            ("8", "10.1"),
            ("8", "7.1"),
            ("10H", "8.1"),
            ("23", "1.2"),
            ("34", "43"),
            ("42", "34"),
            ("51", "61"),
            ("1", "71"),
        ] {
            assert!(!may_be(number, other), "{number} {other}");
        }
    }
}
