//! Electrical stick-out from what a welder sees and where the contact tip sits.
//!
//! *Visible* stick-out runs from the nozzle, *electrical* stick-out from the contact tip; they are equal only where
//! the tip is flush. The current follows the electrical one, so limits and data are held against it
//! ([`ELECTRICAL_STICK_OUT`]); a tip that stands out of the nozzle has a negative recess.

use super::{corners::span_of, formula};
use crate::quantity::{
    ElectricalStickOut, ElectricalStickOutKind, Kind, Quantity, QuantityError, Span, TipRecess,
    TipRecessKind, VisibleStickOut, VisibleStickOutKind,
};

formula! {
    /// Electrical stick-out: contact tip to work.
    pub const ELECTRICAL_STICK_OUT {
        name: "electrical-stick-out",
        equation: "ESO = visible stick-out + tip recess; recess negative where the tip protrudes",
        source: "geometry of the gun; GMAW/FCAW Handbook, Goodheart-Willcox 2018, p. 70 keeps the two \
                 distances apart",
        validity: "gun square to the work; at a drag or push angle the tip is farther away",
        confidence: Derived,
    }
}

/// Electrical stick-out, [`ELECTRICAL_STICK_OUT`].
///
/// # Errors
/// [`QuantityError::Implausible`] where the tip would stand nearer to the work than any arc allows
/// (a protruding tip in the weld pool), or farther.
pub fn electrical_stick_out(
    visible: VisibleStickOut,
    recess: TipRecess,
) -> Result<ElectricalStickOut, QuantityError> {
    plausible(ElectricalStickOut::computed(visible.mm() + recess.mm())?)
}

/// Electrical stick-out over intervals.
///
/// # Errors
/// As [`electrical_stick_out`], for either end.
pub fn electrical_stick_out_span(
    visible: &Span<VisibleStickOutKind>,
    recess: &Span<TipRecessKind>,
) -> Result<Span<ElectricalStickOutKind>, QuantityError> {
    span_of(
        electrical_stick_out(visible.low(), recess.low()),
        electrical_stick_out(visible.high(), recess.high()),
    )
}

/// What a welder sees when the electrical stick-out is right: the inverse, for remedies.
///
/// # Errors
/// [`QuantityError::Implausible`] where the recess alone is longer than the stick-out.
pub fn visible_stick_out(
    electrical: ElectricalStickOut,
    recess: TipRecess,
) -> Result<VisibleStickOut, QuantityError> {
    // Compared before subtracting: near zero the noise of a unit conversion would decide.
    let flush = ElectricalStickOut::computed(recess.mm())?;
    if electrical == flush {
        return VisibleStickOut::computed(0.0);
    }
    plausible(VisibleStickOut::computed(electrical.mm() - recess.mm())?)
}

/// The distance, where it lies in the plausible span of its kind. A sum of plausible distances can
/// leave the span, unlike a typed one.
fn plausible<K: Kind>(distance: Quantity<K>) -> Result<Quantity<K>, QuantityError> {
    let (low, high) = K::INFO.span;
    if distance.at_least(Quantity::computed(low)?) && distance.at_most(Quantity::computed(high)?) {
        return Ok(distance);
    }
    let unit = K::INFO.units[0].symbol;
    Err(QuantityError::Implausible { quantity: K::INFO.name, low, high, unit })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn eso(visible: &str, recess: &str) -> Result<ElectricalStickOut, QuantityError> {
        electrical_stick_out(visible.parse().unwrap(), recess.parse().unwrap())
    }

    /// 5/8 in and 1/8 in are 3/4 in, which is 19.05 mm (own arithmetic).
    #[test]
    fn a_recessed_tip_adds_to_what_is_seen() {
        let sum = eso("5/8 in", "1/8 in").unwrap();
        assert_eq!(sum, "3/4 in".parse().unwrap());
        assert_eq!(sum, "19.05 mm".parse().unwrap());
    }

    /// 12 mm seen and a tip 3 mm out of the nozzle are 9 mm (own arithmetic).
    #[test]
    fn a_protruding_tip_takes_from_what_is_seen() {
        assert_eq!(eso("12 mm", "-3 mm"), Ok("9 mm".parse().unwrap()));
    }

    #[test]
    fn a_tip_in_the_weld_pool_is_no_stick_out() {
        assert!(matches!(eso("2 mm", "-5 mm"), Err(QuantityError::Implausible { .. })));
        assert!(matches!(eso("0 mm", "0 mm"), Err(QuantityError::Implausible { .. })));
    }

    #[test]
    fn a_recess_beyond_the_stick_out_leaves_nothing_to_see() {
        let seen = visible_stick_out("5 mm".parse().unwrap(), "8 mm".parse().unwrap());
        assert!(matches!(seen, Err(QuantityError::Implausible { .. })));
        let flush = visible_stick_out("8 mm".parse().unwrap(), "8 mm".parse().unwrap()).unwrap();
        assert_eq!(flush, "0 mm".parse().unwrap());
        let noisy = visible_stick_out("4.318 mm".parse().unwrap(), "0.17 in".parse().unwrap());
        assert_eq!(noisy, Ok("0 mm".parse().unwrap()));
    }

    #[test]
    fn intervals_add_end_by_end() {
        let visible = Span::new("12 mm".parse().unwrap(), "16 mm".parse().unwrap()).unwrap();
        let recess = Span::new("3 mm".parse().unwrap(), "4 mm".parse().unwrap()).unwrap();
        let span = electrical_stick_out_span(&visible, &recess).unwrap();
        assert_eq!(span.low(), "15 mm".parse().unwrap());
        assert_eq!(span.high(), "20 mm".parse().unwrap());
    }
}
