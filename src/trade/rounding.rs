//! Rounding to the safe side: limits inward, preheat up.

use crate::quantity::{Kind, Quantity, QuantityError, RELATIVE_TOLERANCE, Range};

/// Significant digits of a limit that was computed.
const LIMIT_DIGITS: i32 = 3;

/// The next multiple of `step` at or above a value; noise of the last bits does not count.
pub(super) fn up_to_step(value: f64, step: f64) -> f64 {
    let steps = value / step;
    (steps - RELATIVE_TOLERANCE * steps.abs()).ceil() * step
}

/// The last multiple of `step` at or below a value; noise of the last bits does not count.
pub(super) fn down_to_step(value: f64, step: f64) -> f64 {
    -up_to_step(-value, step)
}

/// A computed range with its ends rounded inward to three significant digits, so that every stated
/// value lies inside the exact range. `None` where no such value is left between the ends.
///
/// # Errors
/// [`QuantityError::NotFinite`] on overflow.
pub fn rounded_inward<K: Kind>(range: &Range<K>) -> Result<Option<Range<K>>, QuantityError> {
    let round = |end: Option<Quantity<K>>, toward: fn(f64) -> f64| {
        end.map(|end| Quantity::computed(significant(end.canonical(), toward))).transpose()
    };
    let min = round(range.min(), f64::ceil)?;
    let max = round(range.max(), f64::floor)?;
    Ok(Range::new(min, max).ok())
}

/// A value rounded to [`LIMIT_DIGITS`] by the function given, unless it is such a value already.
fn significant(value: f64, toward: fn(f64) -> f64) -> f64 {
    if value == 0.0 {
        return value;
    }
    #[expect(clippy::cast_possible_truncation, reason = "a decimal exponent is within ±308")]
    let exponent = value.abs().log10().floor() as i32;
    // Dividing by a whole power of ten keeps 0.485 exact where multiplying by 0.001 would not.
    let places = LIMIT_DIGITS - 1 - exponent;
    let (up, down) = (10_f64.powi(places.max(0)), 10_f64.powi((-places).max(0)));
    let scaled = value * up / down;
    let nearest = scaled.round();
    let noise = RELATIVE_TOLERANCE * scaled.abs();
    let whole = if (scaled - nearest).abs() <= noise { nearest } else { toward(scaled) };
    whole * down / up
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::HeatInputKind;

    fn inward(min: &str, max: &str) -> Option<Range<HeatInputKind>> {
        let range = Range::new(Some(min.parse().unwrap()), Some(max.parse().unwrap())).unwrap();
        rounded_inward(&range).unwrap()
    }

    #[test]
    fn ends_move_inward_and_stay_where_they_are_round() {
        let stated = inward("0.61401 kJ/mm", "0.66549 kJ/mm").unwrap();
        assert_eq!(stated.min(), Some("0.615 kJ/mm".parse().unwrap()));
        assert_eq!(stated.max(), Some("0.665 kJ/mm".parse().unwrap()));
        let stated = inward("0.485 kJ/mm", "12.3 kJ/mm").unwrap();
        assert_eq!(stated.min(), Some("0.485 kJ/mm".parse().unwrap()));
        assert_eq!(stated.max(), Some("12.3 kJ/mm".parse().unwrap()));
    }

    #[test]
    fn a_sliver_without_a_round_value_is_no_range() {
        assert_eq!(inward("0.48501 kJ/mm", "0.48599 kJ/mm"), None);
    }

    #[test]
    fn preheat_goes_up_to_the_next_step() {
        for (value, rounded) in [(79.03, 80.0), (80.0, 80.0), (80.000_1, 85.0), (-92.79, -90.0)] {
            assert!((up_to_step(value, 5.0) - rounded).abs() < 1e-12, "{value}");
        }
    }

    #[test]
    fn a_step_down_is_not_lost_to_the_last_bits() {
        for (value, rounded) in [(79.97, 75.0), (80.0 - 1e-13, 80.0), (-92.79, -95.0)] {
            assert!((down_to_step(value, 5.0) - rounded).abs() < 1e-12, "{value}");
        }
    }
}
