//! The span of results from its two worst corners.

use crate::quantity::{Kind, Quantity, QuantityError, Span};

/// The span between the results at the two corners of a monotonic formula.
///
/// # Errors
/// The error of either corner; [`QuantityError::NotFinite`] where the corners come out reversed,
/// which only a negative input can cause.
pub(super) fn span_of<K: Kind>(
    low: Result<Quantity<K>, QuantityError>,
    high: Result<Quantity<K>, QuantityError>,
) -> Result<Span<K>, QuantityError> {
    Span::new(low?, high?).map_err(|_| QuantityError::NotFinite { quantity: K::INFO.name })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{Current, CurrentKind};

    #[test]
    fn reversed_corners_are_no_span() {
        let (low, high) = (Current::computed(200.0), Current::computed(100.0));
        assert!(span_of::<CurrentKind>(low, high).is_err());
    }
}
