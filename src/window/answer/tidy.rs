//! Points in figures that can be written down and typed again.

use super::Open;
use crate::{
    quantity::Unit,
    window::linear::{Polytope, Vector},
};

/// Most digits tried.
const MOST_DIGITS: i32 = 7;

impl Open<'_> {
    /// A point of the polytope close to the one given, each setting without a step in as few digits as
    /// fit; from `fewest` on; settings with a step stay where they are.
    pub(super) fn tidied(&self, polytope: &Polytope, point: &Vector, fewest: i32) -> Vector {
        let mut left = polytope.clone();
        let mut tidy = *point;
        for axis in self.axes().filter(|axis| self.step(*axis).is_none()) {
            if left.high[axis] - left.low[axis] <= 0.0 || self.space.chosen[axis] {
                continue;
            }
            let Some(ends) = left.ends_of(axis) else { return *point };
            let unit = self.space.unit(axis);
            let figures =
                (fewest..=MOST_DIGITS).find_map(|digits| plain(tidy[axis], ends, digits, unit));
            if let Some(value) = figures {
                let next = left.held(axis, value);
                let Some(moved) = next.nearest(&tidy) else { return *point };
                (left, tidy) = (next, moved);
                tidy[axis] = value;
            }
        }
        if polytope.contains(&tidy) { tidy } else { *point }
    }
}

/// The logarithm of the number of so many digits of a unit between two ends that is closest to a value.
fn plain(value: f64, (low, high): (f64, f64), digits: i32, unit: &Unit) -> Option<f64> {
    let of_unit = unit.number(1.0);
    let number = value.exp() * of_unit;
    #[expect(clippy::cast_possible_truncation, reason = "settings lie within a few powers of ten")]
    let exponent = number.log10().floor() as i32;
    let places = digits - 1 - exponent;
    let (up, down) = (10_f64.powi(places.max(0)), 10_f64.powi((-places).max(0)));
    let scaled = number * up / down;
    let around = [scaled.round(), scaled.floor(), scaled.ceil()];
    let inside = around.iter().map(|whole| (whole * down / up / of_unit).ln());
    let mut inside = inside.filter(|at| low <= *at && *at <= high);
    inside.next()
}
