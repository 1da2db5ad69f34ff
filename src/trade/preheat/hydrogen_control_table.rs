//! The table of the hydrogen-control method, from memory throughout.

use super::{Restraint, SusceptibilityGroup};

/// Printed as "below 20 °C".
const LESS: u8 = 0;

/// Minimum °C by thickness (below 10, to 20, to 38, to 75, above 75 mm) and group A to G.
type Rows = [[u8; 7]; 5];

const LOW: Rows = [
    [LESS, LESS, LESS, LESS, 60, 140, 150],
    [LESS, LESS, 20, 60, 100, 140, 150],
    [LESS, LESS, 20, 80, 110, 140, 150],
    [20, 20, 40, 95, 120, 140, 150],
    [20, 20, 40, 95, 120, 140, 150],
];

const MEDIUM: Rows = [
    [LESS, LESS, LESS, LESS, 70, 140, 160],
    [LESS, LESS, 20, 80, 115, 145, 160],
    [20, 20, 75, 110, 140, 150, 160],
    [20, 80, 110, 130, 150, 150, 160],
    [95, 120, 140, 150, 160, 160, 160],
];

const HIGH: Rows = [
    [LESS, LESS, 20, 40, 110, 150, 160],
    [LESS, 20, 65, 105, 140, 160, 160],
    [20, 85, 115, 140, 150, 160, 160],
    [115, 130, 150, 150, 160, 160, 160],
    [115, 130, 150, 150, 160, 160, 160],
];

/// Temperature of a cell in °C, and whether the cell reads "below" it.
pub(super) fn cell(restraint: Restraint, row: usize, group: SusceptibilityGroup) -> (u8, bool) {
    let rows = match restraint {
        Restraint::Low => &LOW,
        Restraint::Medium => &MEDIUM,
        Restraint::High => &HIGH,
    };
    match rows[row][group as usize] {
        LESS => (20, true),
        celsius => (celsius, false),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::trade::Coded;

    /// Own arithmetic on the table: thicker, more restrained or more susceptible never asks for
    /// less.
    #[test]
    fn no_worse_case_asks_for_less() {
        for (restraint, _) in Restraint::ALL {
            for (group, _) in SusceptibilityGroup::ALL {
                let of = |row| cell(*restraint, row, *group).0;
                assert!((1..5).all(|row| of(row) >= of(row - 1)), "{restraint} {group}");
            }
            for row in 0..5 {
                let of = |(group, _): &(_, _)| cell(*restraint, row, *group).0;
                assert!(SusceptibilityGroup::ALL.is_sorted_by_key(of), "{restraint} row {row}");
            }
        }
        for row in 0..5 {
            for (group, _) in SusceptibilityGroup::ALL {
                let of = |(restraint, _): &(_, _)| cell(*restraint, row, *group).0;
                assert!(Restraint::ALL.is_sorted_by_key(of), "row {row} {group}");
            }
        }
    }
}
