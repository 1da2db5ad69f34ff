//! The table of the hydrogen-control method, from memory throughout.

use super::{Restraint, SusceptibilityGroup};
use crate::quantity::UnitSystem;

/// Printed as "below 20 °C" and "below 65 °F".
const LESS: u16 = 0;

/// Minimum temperature by thickness and group A to G: °C below 10, to 20, to 38, to 75 and above 75 mm; °F
/// below 3/8, to 3/4, to 1 1/2, to 3 and above 3 in. Both are printed; neither is converted here.
type Rows = [[u16; 7]; 5];

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

const US_LOW: Rows = [
    [LESS, LESS, LESS, LESS, 140, 280, 300],
    [LESS, LESS, 65, 140, 210, 280, 300],
    [LESS, LESS, 65, 175, 230, 280, 300],
    [65, 65, 100, 200, 250, 280, 300],
    [65, 65, 100, 200, 250, 280, 300],
];

const US_MEDIUM: Rows = [
    [LESS, LESS, LESS, LESS, 160, 280, 320],
    [LESS, LESS, 65, 175, 240, 290, 320],
    [65, 65, 165, 230, 280, 300, 320],
    [65, 175, 230, 265, 300, 300, 320],
    [200, 250, 280, 300, 320, 320, 320],
];

const US_HIGH: Rows = [
    [LESS, LESS, 65, 100, 230, 300, 320],
    [LESS, 65, 150, 220, 280, 320, 320],
    [65, 185, 240, 280, 300, 320, 320],
    [240, 265, 300, 300, 320, 320, 320],
    [240, 265, 300, 300, 320, 320, 320],
];

/// Temperature of a cell in °C or °F by its columns, and whether the cell reads "below" it.
pub(super) const fn cell(
    columns: UnitSystem,
    restraint: Restraint,
    row: usize,
    group: SusceptibilityGroup,
) -> (u16, bool) {
    let (rows, shop) = match (columns, restraint) {
        (UnitSystem::Metric, Restraint::Low) => (&LOW, 20),
        (UnitSystem::Metric, Restraint::Medium) => (&MEDIUM, 20),
        (UnitSystem::Metric, Restraint::High) => (&HIGH, 20),
        (UnitSystem::Us, Restraint::Low) => (&US_LOW, 65),
        (UnitSystem::Us, Restraint::Medium) => (&US_MEDIUM, 65),
        (UnitSystem::Us, Restraint::High) => (&US_HIGH, 65),
    };
    match rows[row][group as usize] {
        LESS => (shop, true),
        degrees => (degrees, false),
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
        for columns in [UnitSystem::Metric, UnitSystem::Us] {
            for (restraint, _) in Restraint::ALL {
                for (group, _) in SusceptibilityGroup::ALL {
                    let of = |row| cell(columns, *restraint, row, *group).0;
                    assert!((1..5).all(|row| of(row) >= of(row - 1)), "{restraint} {group}");
                }
                for row in 0..5 {
                    let of = |(group, _): &(_, _)| cell(columns, *restraint, row, *group).0;
                    assert!(SusceptibilityGroup::ALL.is_sorted_by_key(of), "{restraint} row {row}");
                }
            }
            for row in 0..5 {
                for (group, _) in SusceptibilityGroup::ALL {
                    let of = |(restraint, _): &(_, _)| cell(columns, *restraint, row, *group).0;
                    assert!(Restraint::ALL.is_sorted_by_key(of), "row {row} {group}");
                }
            }
        }
    }

    /// Own arithmetic: a printed pair of columns states one temperature twice, rounded to 5 °F; cells that
    /// lie further apart would be a slip.
    #[test]
    fn both_columns_speak_of_the_same_temperatures() {
        for (restraint, _) in Restraint::ALL {
            for row in 0..5 {
                for (group, _) in SusceptibilityGroup::ALL {
                    let (celsius, below) = cell(UnitSystem::Metric, *restraint, row, *group);
                    let (fahrenheit, us_below) = cell(UnitSystem::Us, *restraint, row, *group);
                    let apart = f64::from(fahrenheit) - (f64::from(celsius) * 1.8 + 32.0);
                    assert!(apart.abs() <= 5.0, "{restraint} {row} {group}: {apart}");
                    assert_eq!(below, us_below);
                }
            }
        }
    }
}
