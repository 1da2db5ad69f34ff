//! The sub-groups of ISO 14175:2008, Table 2, and their bands.

use rust_decimal::Decimal;

use super::{
    GasComponent::{self, Argon, CarbonDioxide, Helium, Hydrogen, Nitrogen, Oxygen},
    GasMixture,
    share::compared,
};
use crate::trade::{Coded, coded};

coded! {
    /// A sub-group of ISO 14175:2008, Table 2.
    pub enum GasGroup: "gas group" {
        /// Argon.
        I1 = "I1",
        /// Helium.
        I2 = "I2",
        /// Argon with helium.
        I3 = "I3",
        /// Argon with little CO2 and hydrogen.
        M11 = "M11",
        /// Argon with little CO2.
        M12 = "M12",
        /// Argon with little oxygen.
        M13 = "M13",
        /// Argon with little CO2 and oxygen.
        M14 = "M14",
        /// Argon with more than 5 to 15 % CO2.
        M20 = "M20",
        /// Argon with more than 15 to 25 % CO2.
        M21 = "M21",
        /// Argon with more than 3 to 10 % oxygen.
        M22 = "M22",
        /// Argon with 0.5 to 5 % CO2 and more than 3 to 10 % oxygen.
        M23 = "M23",
        /// Argon with more than 5 to 15 % CO2 and 0.5 to 3 % oxygen.
        M24 = "M24",
        /// Argon with more than 5 to 15 % CO2 and more than 3 to 10 % oxygen.
        M25 = "M25",
        /// Argon with more than 15 to 25 % CO2 and 0.5 to 3 % oxygen.
        M26 = "M26",
        /// Argon with more than 15 to 25 % CO2 and more than 3 to 10 % oxygen.
        M27 = "M27",
        /// Argon with more than 25 to 50 % CO2.
        M31 = "M31",
        /// Argon with more than 10 to 15 % oxygen.
        M32 = "M32",
        /// Argon with more than 25 to 50 % CO2 and more than 2 to 10 % oxygen.
        M33 = "M33",
        /// Argon with more than 5 to 25 % CO2 and more than 10 to 15 % oxygen.
        M34 = "M34",
        /// Argon with more than 25 to 50 % CO2 and more than 10 to 15 % oxygen.
        M35 = "M35",
        /// CO2.
        C1 = "C1",
        /// CO2 with 0.5 to 30 % oxygen.
        C2 = "C2",
        /// Argon with 0.5 to 15 % hydrogen.
        R1 = "R1",
        /// Argon with more than 15 to 50 % hydrogen.
        R2 = "R2",
        /// Nitrogen.
        N1 = "N1",
        /// Argon with 0.5 to 5 % nitrogen.
        N2 = "N2",
        /// Argon with more than 5 to 50 % nitrogen.
        N3 = "N3",
        /// Argon with 0.5 to 10 % hydrogen and 0.5 to 5 % nitrogen.
        N4 = "N4",
        /// Nitrogen with 0.5 to 50 % hydrogen.
        N5 = "N5",
        /// Oxygen.
        O1 = "O1",
        /// Any other gas; two Z gases are not interchangeable (from memory).
        Z = "Z",
    }
}

impl GasGroup {
    /// The main group: I, M1, M2, M3, C, R, N, O or Z.
    #[must_use]
    pub fn main_group(self) -> &'static str {
        let code = self.code();
        if code.starts_with('M') { &code[..2] } else { &code[..1] }
    }

    /// The only composition that gases of the group have: I1 is argon, I2 helium, C1 carbon dioxide, N1 nitrogen, O1
    /// oxygen (ISO 14175:2008, Table 2; from memory). `None` for groups of mixtures.
    #[must_use]
    pub fn composition(self) -> Option<GasMixture> {
        let row = self.row().filter(|row| row.bands.is_empty())?;
        let mut all = GasComponent::ALL.iter().map(|(component, _)| *component);
        let pure = all.find(|component| bit(*component) == row.rest)?;
        GasMixture::new(&[(pure, Decimal::ONE_HUNDRED)]).ok()
    }

    /// Whether a gas of the group can have between these shares of a component, in vol %, as far as the bands of the
    /// component itself say.
    #[must_use]
    pub fn can_hold(self, component: GasComponent, low: Decimal, high: Decimal) -> bool {
        // Any gas that no row has is Z.
        let Some(row) = self.row() else { return true };
        match row.bands.iter().find(|(banded, _)| *banded == component) {
            Some((_, band)) => band.reaches(low, high),
            None => row.rest & bit(component) != 0 || compared(low, 0).is_le(),
        }
    }

    fn row(self) -> Option<&'static Row> {
        TABLE_2.iter().find(|row| row.group == self)
    }

    /// The row of Table 2 that the shares fit.
    pub(super) fn of(share: impl Fn(GasComponent) -> Decimal) -> Self {
        let all = GasComponent::ALL.iter().map(|(component, _)| *component);
        let present = all.filter(|component| !share(*component).is_zero());
        let present = present.fold(0, |set, component| set | bit(component));
        let fits = |row: &&Row| {
            row.may_hold(present)
                && row.bands.iter().all(|(component, band)| band.holds(share(*component)))
        };
        TABLE_2.iter().find(fits).map_or(Self::Z, |row| row.group)
    }
}

/// A component as one bit of a set.
const fn bit(component: GasComponent) -> u8 {
    1 << component as u8
}

/// A band of shares, in tenths of a vol %; the upper end belongs to it.
#[derive(Debug, Clone, Copy)]
struct Band {
    low: i64,
    low_included: bool,
    high: i64,
}

impl Band {
    fn holds(self, share: Decimal) -> bool {
        self.reaches(share, share)
    }

    /// Whether some share of the band lies from `low` to `high`.
    fn reaches(self, low: Decimal, high: Decimal) -> bool {
        let above = compared(high, self.low * 100);
        (above.is_gt() || self.low_included && above.is_eq())
            && compared(low, self.high * 100).is_le()
    }
}

/// A band with both ends.
const fn from(low: i64, high: i64) -> Band {
    Band { low, low_included: true, high }
}

/// A band that joins another one below; the common end belongs to the lower band.
const fn above(low: i64, high: i64) -> Band {
    Band { low, low_included: false, high }
}

/// One row of Table 2: components in bands, and those that make up the rest.
struct Row {
    group: GasGroup,
    /// Those of the rest, as a set of bits.
    rest: u8,
    /// Those in bands, as a set of bits.
    banded: u8,
    bands: &'static [(GasComponent, Band)],
}

impl Row {
    /// Whether the components present are those of the row: no band begins at zero. Most rows are told apart by
    /// this, without a look at shares.
    const fn may_hold(&self, present: u8) -> bool {
        present & !self.rest == self.banded
    }
}

const fn row(
    group: GasGroup,
    rest: &'static [GasComponent],
    bands: &'static [(GasComponent, Band)],
) -> Row {
    let (mut row, mut at) = (Row { group, rest: 0, banded: 0, bands }, 0);
    while at < rest.len() {
        row.rest |= bit(rest[at]);
        at += 1;
    }
    at = 0;
    while at < bands.len() {
        row.banded |= bit(bands[at].0);
        at += 1;
    }
    row
}

/// Argon, which helium may replace in groups M and R without changing the group (from memory).
const ARGON_OR_HELIUM: &[GasComponent] = &[Argon, Helium];

/// ISO 14175:2008, Table 2, in vol %. The bands were read in texts that quote it; that a common
/// end of two bands belongs to the lower one (5 % CO2 is M12, not M20) is from memory.
const TABLE_2: &[Row] = {
    use GasGroup::{
        C1, C2, I1, I2, I3, M11, M12, M13, M14, M20, M21, M22, M23, M24, M25, M26, M27, M31, M32,
        M33, M34, M35, N1, N2, N3, N4, N5, O1, R1, R2,
    };
    let rest = ARGON_OR_HELIUM;
    &[
        row(I1, &[Argon], &[]),
        row(I2, &[Helium], &[]),
        row(I3, &[Argon], &[(Helium, from(5, 950))]),
        row(M11, rest, &[(CarbonDioxide, from(5, 50)), (Hydrogen, from(5, 50))]),
        row(M12, rest, &[(CarbonDioxide, from(5, 50))]),
        row(M13, rest, &[(Oxygen, from(5, 30))]),
        row(M14, rest, &[(CarbonDioxide, from(5, 50)), (Oxygen, from(5, 30))]),
        row(M20, rest, &[(CarbonDioxide, above(50, 150))]),
        row(M21, rest, &[(CarbonDioxide, above(150, 250))]),
        row(M22, rest, &[(Oxygen, above(30, 100))]),
        row(M23, rest, &[(CarbonDioxide, from(5, 50)), (Oxygen, above(30, 100))]),
        row(M24, rest, &[(CarbonDioxide, above(50, 150)), (Oxygen, from(5, 30))]),
        row(M25, rest, &[(CarbonDioxide, above(50, 150)), (Oxygen, above(30, 100))]),
        row(M26, rest, &[(CarbonDioxide, above(150, 250)), (Oxygen, from(5, 30))]),
        row(M27, rest, &[(CarbonDioxide, above(150, 250)), (Oxygen, above(30, 100))]),
        row(M31, rest, &[(CarbonDioxide, above(250, 500))]),
        row(M32, rest, &[(Oxygen, above(100, 150))]),
        row(M33, rest, &[(CarbonDioxide, above(250, 500)), (Oxygen, above(20, 100))]),
        row(M34, rest, &[(CarbonDioxide, above(50, 250)), (Oxygen, above(100, 150))]),
        row(M35, rest, &[(CarbonDioxide, above(250, 500)), (Oxygen, above(100, 150))]),
        row(C1, &[CarbonDioxide], &[]),
        row(C2, &[CarbonDioxide], &[(Oxygen, from(5, 300))]),
        row(R1, rest, &[(Hydrogen, from(5, 150))]),
        row(R2, rest, &[(Hydrogen, above(150, 500))]),
        row(N1, &[Nitrogen], &[]),
        row(N2, &[Argon], &[(Nitrogen, from(5, 50))]),
        row(N3, &[Argon], &[(Nitrogen, above(50, 500))]),
        row(N4, &[Argon], &[(Hydrogen, from(5, 100)), (Nitrogen, from(5, 50))]),
        row(N5, &[Nitrogen], &[(Hydrogen, from(5, 500))]),
        row(O1, &[Oxygen], &[]),
    ]
};

#[cfg(test)]
mod tests {
    use rust_decimal::Decimal;

    use super::*;

    /// `75Ar 25CO2` as a mixture.
    fn mix(text: &str) -> GasMixture {
        let parts = text.split(' ').map(|part| {
            let split = part.find(|c: char| c.is_ascii_alphabetic()).unwrap();
            let share: Decimal = part[..split].parse().unwrap();
            (GasComponent::from_code(&part[split..]).unwrap(), share)
        });
        GasMixture::new(&parts.collect::<Vec<_>>()).unwrap()
    }

    fn group(text: &str) -> &'static str {
        mix(text).iso_14175().code()
    }

    /// ISO 14175:2008, Table 2, bands as texts quote them. The 4 % CO2 and 40 % He rows are
    /// examples printed beside the table; the others are own readings of it.
    #[test]
    fn mixtures_of_the_trade_fall_into_their_groups() {
        for (text, expected) in [
            ("75Ar 25CO2", "M21"),
            ("82Ar 18CO2", "M21"),
            ("80Ar 20CO2", "M21"),
            ("85Ar 15CO2", "M20"),
            ("90Ar 10CO2", "M20"),
            ("95Ar 5CO2", "M12"),
            ("96Ar 4CO2", "M12"),
            ("100CO2", "C1"),
            ("100Ar", "I1"),
            ("100He", "I2"),
            ("75Ar 25He", "I3"),
            ("60Ar 40He", "I3"),
            ("90He 7.5Ar 2.5CO2", "M12"),
            ("98Ar 2O2", "M13"),
            ("95Ar 5O2", "M22"),
            ("93Ar 5CO2 2O2", "M14"),
            ("86Ar 12CO2 2O2", "M24"),
            ("78Ar 20CO2 2O2", "M26"),
            ("60Ar 40CO2", "M31"),
            ("49Ar 51CO2", "Z"),
            ("99.7Ar 0.3CO2", "Z"),
            ("95Ar 5H2", "R1"),
            ("98Ar 2N2", "N2"),
            ("90N2 10H2", "N5"),
            ("100N2", "N1"),
            ("100O2", "O1"),
        ] {
            assert_eq!(group(text), expected, "{text}");
        }
    }

    /// A component of a band beside what else the mixture holds, and the groups below, at and
    /// above each edge: ISO 14175:2008, Table 2; strictness at common ends from memory.
    #[test]
    fn every_band_edge_falls_on_its_side() {
        let edges: &[(GasComponent, &str, i64, [&str; 3])] = &[
            (Helium, "", 5, ["Z", "I3", "I3"]),
            (Helium, "", 950, ["I3", "I3", "Z"]),
            (CarbonDioxide, "", 5, ["Z", "M12", "M12"]),
            (CarbonDioxide, "", 50, ["M12", "M12", "M20"]),
            (CarbonDioxide, "", 150, ["M20", "M20", "M21"]),
            (CarbonDioxide, "", 250, ["M21", "M21", "M31"]),
            (CarbonDioxide, "", 500, ["M31", "M31", "Z"]),
            (Oxygen, "", 5, ["Z", "M13", "M13"]),
            (Oxygen, "", 30, ["M13", "M13", "M22"]),
            (Oxygen, "", 100, ["M22", "M22", "M32"]),
            (Oxygen, "", 150, ["M32", "M32", "Z"]),
            (CarbonDioxide, "2H2", 5, ["Z", "M11", "M11"]),
            (CarbonDioxide, "2H2", 50, ["M11", "M11", "Z"]),
            (Hydrogen, "2CO2", 5, ["Z", "M11", "M11"]),
            (Hydrogen, "2CO2", 50, ["M11", "M11", "Z"]),
            (CarbonDioxide, "2O2", 5, ["Z", "M14", "M14"]),
            (CarbonDioxide, "2O2", 50, ["M14", "M14", "M24"]),
            (CarbonDioxide, "2O2", 150, ["M24", "M24", "M26"]),
            (CarbonDioxide, "2O2", 250, ["M26", "M26", "Z"]),
            (CarbonDioxide, "5O2", 5, ["Z", "M23", "M23"]),
            (CarbonDioxide, "5O2", 50, ["M23", "M23", "M25"]),
            (CarbonDioxide, "5O2", 150, ["M25", "M25", "M27"]),
            (CarbonDioxide, "5O2", 250, ["M27", "M27", "M33"]),
            (CarbonDioxide, "5O2", 500, ["M33", "M33", "Z"]),
            (CarbonDioxide, "12O2", 50, ["Z", "Z", "M34"]),
            (CarbonDioxide, "12O2", 250, ["M34", "M34", "M35"]),
            (CarbonDioxide, "12O2", 500, ["M35", "M35", "Z"]),
            (Oxygen, "2CO2", 5, ["Z", "M14", "M14"]),
            (Oxygen, "2CO2", 30, ["M14", "M14", "M23"]),
            (Oxygen, "2CO2", 100, ["M23", "M23", "Z"]),
            (Oxygen, "10CO2", 5, ["Z", "M24", "M24"]),
            (Oxygen, "10CO2", 30, ["M24", "M24", "M25"]),
            (Oxygen, "10CO2", 100, ["M25", "M25", "M34"]),
            (Oxygen, "10CO2", 150, ["M34", "M34", "Z"]),
            (Oxygen, "20CO2", 5, ["Z", "M26", "M26"]),
            (Oxygen, "20CO2", 30, ["M26", "M26", "M27"]),
            (Oxygen, "20CO2", 100, ["M27", "M27", "M34"]),
            (Oxygen, "20CO2", 150, ["M34", "M34", "Z"]),
            (Oxygen, "40CO2", 20, ["Z", "Z", "M33"]),
            (Oxygen, "40CO2", 100, ["M33", "M33", "M35"]),
            (Oxygen, "40CO2", 150, ["M35", "M35", "Z"]),
            (Hydrogen, "", 5, ["Z", "R1", "R1"]),
            (Hydrogen, "", 150, ["R1", "R1", "R2"]),
            (Hydrogen, "", 500, ["R2", "R2", "Z"]),
            (Nitrogen, "", 5, ["Z", "N2", "N2"]),
            (Nitrogen, "", 50, ["N2", "N2", "N3"]),
            (Nitrogen, "", 500, ["N3", "N3", "Z"]),
            (Hydrogen, "2N2", 5, ["Z", "N4", "N4"]),
            (Hydrogen, "2N2", 100, ["N4", "N4", "Z"]),
            (Nitrogen, "2H2", 5, ["Z", "N4", "N4"]),
            (Nitrogen, "2H2", 50, ["N4", "N4", "Z"]),
        ];
        for (component, beside, tenths, expected) in edges {
            for (step, expected) in [-1, 0, 1].into_iter().zip(expected) {
                // One part in 10^12 of a percent: lost in a float, kept by a decimal.
                let share = Decimal::new(*tenths, 1) + Decimal::new(step, 12);
                let text = rest_in(Argon, *component, share, beside);
                assert_eq!(group(&text), *expected, "{text}");
            }
        }
    }

    #[test]
    fn oxygen_in_co2_and_hydrogen_in_nitrogen_have_edges_too() {
        for (base, component, tenths, expected) in [
            (CarbonDioxide, Oxygen, 5, ["Z", "C2", "C2"]),
            (CarbonDioxide, Oxygen, 300, ["C2", "C2", "Z"]),
            (Nitrogen, Hydrogen, 5, ["Z", "N5", "N5"]),
            (Nitrogen, Hydrogen, 500, ["N5", "N5", "Z"]),
        ] {
            for (step, expected) in [-1, 0, 1].into_iter().zip(expected) {
                let share = Decimal::new(tenths, 1) + Decimal::new(step, 12);
                let text = rest_in(base, component, share, "");
                assert_eq!(group(&text), expected, "{text}");
            }
        }
    }

    fn rest_in(
        base: GasComponent,
        component: GasComponent,
        share: Decimal,
        beside: &str,
    ) -> String {
        let number = beside.split(|c: char| c.is_ascii_alphabetic()).next().unwrap();
        let other: Decimal =
            if number.is_empty() { Decimal::ZERO } else { number.parse().unwrap() };
        let rest = Decimal::ONE_HUNDRED - share - other;
        format!("{rest}{base} {share}{component} {beside}").trim_end().to_owned()
    }

    /// From memory: ISO 14175:2008, Table 2, footnote on argon.
    #[test]
    fn helium_replaces_argon_in_mixed_and_reducing_groups_only() {
        assert_eq!(group("60He 20Ar 20CO2"), "M21");
        assert_eq!(group("50He 40Ar 10H2"), "R1");
        assert_eq!(group("50He 48Ar 2N2"), "Z");
    }

    #[test]
    fn gases_that_no_row_holds_are_z() {
        for text in ["90Ar 5H2 5O2", "50CO2 50N2", "94Ar 3CO2 3N2", "99.6Ar 0.2He 0.2O2"] {
            assert_eq!(group(text), "Z", "{text}");
        }
    }

    /// ISO 14175:2008, Table 2, from memory.
    #[test]
    fn pure_gases_are_groups_of_their_own() {
        for (code, pure) in
            [("I1", "100Ar"), ("I2", "100He"), ("C1", "100CO2"), ("N1", "100N2"), ("O1", "100O2")]
        {
            assert_eq!(GasGroup::from_code(code).unwrap().composition(), Some(mix(pure)), "{code}");
        }
        for code in ["I3", "M12", "M21", "C2", "R1", "N2", "N5", "Z"] {
            assert_eq!(GasGroup::from_code(code).unwrap().composition(), None, "{code}");
        }
    }

    /// ISO 14175:2008, Table 2: M20 is above 5 to 15 % CO2, M21 above 15 to 25 %, R1 0.5 to 15 % H2 in argon or helium.
    #[test]
    fn a_group_holds_shares_of_its_bands_only() {
        for (code, component, low, high, can) in [
            ("M20", CarbonDioxide, 15, 20, true),
            ("M21", CarbonDioxide, 10, 15, false),
            ("M21", CarbonDioxide, 10, 16, true),
            ("M21", CarbonDioxide, 25, 30, true),
            ("M21", CarbonDioxide, 26, 30, false),
            ("M21", Oxygen, 0, 2, true),
            ("M21", Oxygen, 1, 2, false),
            ("M21", Argon, 60, 90, true),
            ("M21", Helium, 1, 2, true),
            ("R1", Hydrogen, 0, 0, false),
            ("Z", Hydrogen, 0, 0, true),
        ] {
            let group = GasGroup::from_code(code).unwrap();
            let found = group.can_hold(component, Decimal::from(low), Decimal::from(high));
            assert_eq!(found, can, "{code} {component} {low} to {high}");
        }
    }

    #[test]
    fn main_groups_are_the_first_column_of_the_table() {
        for (code, main) in
            [("I3", "I"), ("M12", "M1"), ("M27", "M2"), ("M35", "M3"), ("C1", "C"), ("Z", "Z")]
        {
            assert_eq!(GasGroup::from_code(code).unwrap().main_group(), main);
        }
    }
}
