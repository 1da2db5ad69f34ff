//! Ranges of one kind: what is allowed, and what is proposed.

use super::{AmountRange, Kind, Quantity};

/// Allowed values: both ends included, one of them may be missing.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Range<K: Kind> {
    min: Option<Quantity<K>>,
    max: Option<Quantity<K>>,
}

/// Proposed values: one value, or all between two.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Span<K: Kind> {
    low: Quantity<K>,
    high: Quantity<K>,
}

/// Two ends that make no range.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum RangeError {
    /// The lower end lies above the upper one.
    #[error("the lower end lies above the upper end")]
    Reversed,
    /// Neither end is given.
    #[error("a range needs a lower end, an upper end or both")]
    Empty,
}

impl<K: Kind> Range<K> {
    /// A range from its ends.
    ///
    /// # Errors
    /// [`RangeError`] when both ends are missing or reversed.
    pub fn new(min: Option<Quantity<K>>, max: Option<Quantity<K>>) -> Result<Self, RangeError> {
        match (min, max) {
            (None, None) => Err(RangeError::Empty),
            (Some(min), Some(max)) if !min.at_most(max) => Err(RangeError::Reversed),
            _ => Ok(Self { min, max }),
        }
    }

    /// All values up to and with this one.
    #[must_use]
    pub const fn at_most(max: Quantity<K>) -> Self {
        Self { min: None, max: Some(max) }
    }

    /// This value and all above it.
    #[must_use]
    pub const fn at_least(min: Quantity<K>) -> Self {
        Self { min: Some(min), max: None }
    }

    /// Lower end.
    #[must_use]
    pub const fn min(&self) -> Option<Quantity<K>> {
        self.min
    }

    /// Upper end.
    #[must_use]
    pub const fn max(&self) -> Option<Quantity<K>> {
        self.max
    }

    /// Whether every proposed value is allowed.
    #[must_use]
    pub fn contains(&self, span: &Span<K>) -> bool {
        self.min.is_none_or(|min| span.low.at_least(min))
            && self.max.is_none_or(|max| span.high.at_most(max))
    }

    /// Whether one value is allowed.
    #[inline]
    #[must_use]
    pub fn includes(&self, value: Quantity<K>) -> bool {
        self.min.is_none_or(|min| value.at_least(min))
            && self.max.is_none_or(|max| value.at_most(max))
    }

    /// Whether some proposed value is allowed.
    #[must_use]
    pub fn touches(&self, span: &Span<K>) -> bool {
        self.min.is_none_or(|min| span.high.at_least(min))
            && self.max.is_none_or(|max| span.low.at_most(max))
    }

    /// What both ranges allow; `None` when they have nothing in common.
    #[must_use]
    pub fn intersect(&self, other: &Self) -> Option<Self> {
        let pick =
            |a: Option<Quantity<K>>, b: Option<Quantity<K>>, tighter: fn(_, _) -> _| match (a, b) {
                (Some(a), Some(b)) => Some(tighter(a, b)),
                (a, b) => a.or(b),
            };
        let min = pick(self.min, other.min, Quantity::max);
        let max = pick(self.max, other.max, Quantity::min);
        Self::new(min, max).ok()
    }

    /// The range without its kind in the type.
    #[must_use]
    pub fn amounts(&self) -> AmountRange {
        AmountRange { min: self.min.map(Quantity::amount), max: self.max.map(Quantity::amount) }
    }
}

impl<K: Kind> From<Span<K>> for Range<K> {
    /// Just these values are allowed.
    fn from(span: Span<K>) -> Self {
        Self { min: Some(span.low), max: Some(span.high) }
    }
}

impl<K: Kind> Span<K> {
    /// All values between two, ends included.
    ///
    /// # Errors
    /// [`RangeError::Reversed`] when the low end lies above the high one.
    pub fn new(low: Quantity<K>, high: Quantity<K>) -> Result<Self, RangeError> {
        if low.at_most(high) { Ok(Self { low, high }) } else { Err(RangeError::Reversed) }
    }

    /// One value.
    #[must_use]
    pub const fn one(value: Quantity<K>) -> Self {
        Self { low: value, high: value }
    }

    /// All values between the ends of two, for what holds whichever of them is right.
    #[must_use]
    pub fn hull(self, other: Self) -> Self {
        Self { low: self.low.min(other.low), high: self.high.max(other.high) }
    }

    /// Lowest proposed value.
    #[must_use]
    pub const fn low(&self) -> Quantity<K> {
        self.low
    }

    /// Highest proposed value.
    #[must_use]
    pub const fn high(&self) -> Quantity<K> {
        self.high
    }

    /// The single value; `None` for a proper interval.
    #[must_use]
    pub fn single(&self) -> Option<Quantity<K>> {
        (self.low == self.high).then_some(self.low)
    }

    /// The span without its kind in the type.
    #[must_use]
    pub fn amounts(&self) -> AmountRange {
        AmountRange { min: Some(self.low.amount()), max: Some(self.high.amount()) }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::Current;

    fn amperes(text: &str) -> Current {
        text.parse().unwrap()
    }

    fn range(min: &str, max: &str) -> Range<crate::quantity::CurrentKind> {
        Range::new(Some(amperes(min)), Some(amperes(max))).unwrap()
    }

    #[test]
    fn both_ends_belong_to_the_range() {
        let allowed = range("180 A", "300 A");
        assert!(allowed.contains(&Span::one(amperes("180 A"))));
        assert!(allowed.contains(&Span::one(amperes("300 A"))));
        assert!(!allowed.contains(&Span::one(amperes("300.001 A"))));
    }

    #[test]
    fn one_value_is_allowed_where_the_span_of_it_is() {
        let open = [Range::at_most(amperes("300 A")), Range::at_least(amperes("180 A"))];
        for (text, expected) in [
            ("179.999 A", [false, true, false]),
            ("180 A", [true; 3]),
            ("300 A", [true; 3]),
            ("300.001 A", [false, false, true]),
        ] {
            let (value, allowed) = (amperes(text), [range("180 A", "300 A"), open[0], open[1]]);
            assert_eq!(allowed.map(|range| range.includes(value)), expected, "{text}");
            assert_eq!(allowed.map(|range| range.contains(&Span::one(value))), expected, "{text}");
        }
    }

    #[test]
    fn an_interval_is_allowed_only_as_a_whole() {
        let proposed = Span::new(amperes("280 A"), amperes("320 A")).unwrap();
        assert!(!range("180 A", "300 A").contains(&proposed));
        assert!(range("180 A", "300 A").touches(&proposed));
    }

    #[test]
    fn ranges_without_common_values_have_no_intersection() {
        assert!(range("100 A", "150 A").intersect(&range("160 A", "200 A")).is_none());
        let common = range("100 A", "150 A").intersect(&range("150 A", "200 A")).unwrap();
        assert_eq!(common.min(), Some(amperes("150 A")));
        assert_eq!(common.max(), Some(amperes("150 A")));
    }

    #[test]
    fn reversed_and_empty_ranges_are_refused() {
        assert!(Range::new(Some(amperes("300 A")), Some(amperes("180 A"))).is_err());
        assert!(Range::<crate::quantity::CurrentKind>::new(None, None).is_err());
    }
}
