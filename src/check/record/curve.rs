//! Straight lines between printed points; nothing beyond them.

use crate::quantity::{at_least, compare};

/// Printed points, sorted, one ordinate per abscissa.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Curve(Vec<(f64, f64)>);

impl Curve {
    pub(super) fn new(points: impl IntoIterator<Item = (f64, f64)>) -> Self {
        let mut points: Vec<_> = points.into_iter().collect();
        points.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.total_cmp(&b.1)));
        Self(points)
    }

    /// The points.
    pub(crate) fn points(&self) -> &[(f64, f64)] {
        &self.0
    }

    /// Lowest and highest ordinate over an interval of the abscissa; `None` where the interval
    /// leaves the points, or where there are fewer than two.
    #[must_use]
    pub fn between(&self, low: f64, high: f64) -> Option<(f64, f64)> {
        let (mut min, mut max) = self.at(low)?;
        // Most settings are one value.
        if low < high {
            let (least, most) = self.at(high)?;
            (min, max) = (min.min(least), max.max(most));
        }
        for (_, y) in self.0.iter().filter(|(x, _)| low <= *x && *x <= high) {
            (min, max) = (min.min(*y), max.max(*y));
        }
        Some((min, max))
    }

    /// Lowest and highest ordinate at one abscissa: two points may share it.
    fn at(&self, x: f64) -> Option<(f64, f64)> {
        let on_segment = |pair: &[(f64, f64)]| {
            let [(x0, y0), (x1, y1)] = *pair else { return None };
            if !at_least(x, x0, 0.0) || !at_least(x1, x, 0.0) {
                return None;
            }
            if compare(x0, x1, 0.0).is_eq() {
                return Some((y0.min(y1), y0.max(y1)));
            }
            let y = y0 + (y1 - y0) * ((x - x0) / (x1 - x0)).clamp(0.0, 1.0);
            Some((y, y))
        };
        let found = self.0.windows(2).filter_map(on_segment);
        found.reduce(|(min, max), (low, high)| (min.min(low), max.max(high)))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Own arithmetic.
    #[test]
    fn a_value_lies_on_the_line_between_its_neighbours() {
        let curve = Curve::new(vec![(8.0, 200.0), (6.0, 160.0), (12.0, 300.0)]);
        assert_eq!(curve.between(7.0, 7.0), Some((180.0, 180.0)));
        assert_eq!(curve.between(7.0, 10.0), Some((180.0, 250.0)));
        assert_eq!(curve.between(6.0, 12.0), Some((160.0, 300.0)));
    }

    #[test]
    fn nothing_is_extrapolated() {
        let curve = Curve::new(vec![(6.0, 160.0), (8.0, 200.0)]);
        assert_eq!(curve.between(5.99, 7.0), None);
        assert_eq!(curve.between(7.0, 8.01), None);
        assert_eq!(Curve::new(vec![(6.0, 160.0)]).between(6.0, 6.0), None);
    }

    #[test]
    fn two_points_at_one_feed_give_a_band() {
        let curve = Curve::new(vec![(6.0, 160.0), (6.0, 170.0), (8.0, 200.0)]);
        assert_eq!(curve.between(6.0, 6.0), Some((160.0, 170.0)));
    }
}
