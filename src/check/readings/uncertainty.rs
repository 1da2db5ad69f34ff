//! Uncertainty of a value computed from others, by the law of propagation (JCGM 100:2008, 5.1).
//! One unknown accuracy makes the result's accuracy unknown; set and nominal values have no error. Every part
//! enters with its standard uncertainty, and the result is taken as normal (JCGM 100:2008, G.2).

use crate::{
    check::{Accuracy, Given, Origin},
    quantity::{Kind, Quantity, Share, Span},
    trade::{ErrorSize, combined_uncertainty},
};

/// What one factor or divisor adds to the uncertainty of a product.
#[derive(Debug, Clone, Copy)]
pub(super) enum Part {
    /// It was set or is nominal.
    Exact,
    /// It was measured; the share is its relative expanded uncertainty, `None` where unknown.
    Measured(Option<Share>),
}

impl<K: Kind> From<&Given<K>> for Part {
    fn from(given: &Given<K>) -> Self {
        if given.origin == Origin::Measured { Self::Measured(relative(given)) } else { Self::Exact }
    }
}

/// Relative expanded uncertainty of a value: the largest over its span; `None` where unknown.
pub(super) fn relative<K: Kind>(given: &Given<K>) -> Option<Share> {
    if let (Origin::Measured, Accuracy::Known(model, ErrorSize::OfReading(share))) =
        (given.origin, given.accuracy)
    {
        return Share::computed(share.ratio() * model.expanded_share()).ok();
    }
    let smallest = given.span.low().canonical().abs().min(given.span.high().canonical().abs());
    match given.uncertainty()? {
        0.0 => Share::computed(0.0).ok(),
        error => Share::computed(error / smallest).ok(),
    }
}

/// A product or quotient over a span, with what its parts make of its accuracy.
pub(super) fn of_product<K: Kind>(span: Span<K>, parts: &[Part]) -> Given<K> {
    if parts.iter().all(|part| matches!(part, Part::Exact)) {
        return Given::set(span);
    }
    let measured = parts.iter().filter_map(|part| match part {
        Part::Exact => None,
        Part::Measured(share) => Some(*share),
    });
    let known: Option<Vec<Share>> = measured.collect();
    let combined = known.and_then(|shares| combined_uncertainty(&shares).ok());
    let accuracy = combined.map_or(Accuracy::Unknown, Accuracy::of_reading);
    Given { origin: Origin::Measured, accuracy, ..Given::set(span) }
}

/// A sum of two values over a span. Both kinds are held in the unit of the sum.
pub(super) fn of_sum<K: Kind, A: Kind, B: Kind>(
    span: Span<K>,
    a: &Given<A>,
    b: &Given<B>,
) -> Given<K> {
    if a.origin != Origin::Measured && b.origin != Origin::Measured {
        return Given::set(span);
    }
    let combined = a.uncertainty().zip(b.uncertainty()).map(|(of_a, of_b)| of_a.hypot(of_b));
    let accuracy = combined.and_then(|error| Quantity::computed(error).ok());
    let accuracy = accuracy.map_or(Accuracy::Unknown, Accuracy::of_amount);
    Given { origin: Origin::Measured, accuracy, ..Given::set(span) }
}
