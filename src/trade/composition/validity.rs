//! Compositions that a carbon equivalent was made for.

use super::{
    Composition, Content, Element,
    Element::{B, C, Cr, Cu, Mn, Mo, Nb, Ni, Si, Ti, V},
};
use crate::{
    quantity::{MassPercent, MassPercentKind, Span},
    trade::corners::span_of,
};

/// Lowest and highest mass percent per element.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CompositionRange {
    limits: &'static [(Element, f64, f64)],
}

/// An element outside its range.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ElementLimit {
    /// The element.
    pub element: Element,
    /// What the composition states.
    pub given: MassPercent,
    /// What the formula was made for.
    pub valid: Span<MassPercentKind>,
}

/// Whether a formula was made for a composition.
#[derive(Debug, Clone, PartialEq)]
pub enum Validity {
    /// Every limited element is known to be inside.
    Inside,
    /// At least one element is outside.
    Outside(Vec<ElementLimit>),
    /// None is known to be outside; these are not known to be inside.
    Unknown(Vec<Element>),
}

/// EN 1011-2:2001, C.2 (Method A); from memory.
pub(super) const CE_METHOD_A: CompositionRange = CompositionRange {
    limits: &[
        (C, 0.05, 0.25),
        (Si, 0.0, 0.8),
        (Mn, 0.0, 1.7),
        (Cr, 0.0, 0.9),
        (Cu, 0.0, 1.0),
        (Ni, 0.0, 2.5),
        (Mo, 0.0, 0.75),
        (V, 0.0, 0.20),
    ],
};

/// EN 1011-2:2001, C.3 (Method B); from memory.
pub(in crate::trade) const CET: CompositionRange = CompositionRange {
    limits: &[
        (C, 0.05, 0.32),
        (Si, 0.0, 0.8),
        (Mn, 0.5, 1.9),
        (Cr, 0.0, 1.5),
        (Cu, 0.0, 0.7),
        (Mo, 0.0, 0.75),
        (Nb, 0.0, 0.06),
        (Ni, 0.0, 2.5),
        (Ti, 0.0, 0.12),
        (V, 0.0, 0.18),
        (B, 0.0, 0.005),
    ],
};

/// Carbon as far as API 5L takes Pcm, and manganese as far as its steels go (from memory); the others as in the steels
/// of Ito and Bessyo 1968 (from memory).
pub(super) const PCM: CompositionRange = CompositionRange {
    limits: &[
        (C, 0.0, 0.12),
        (Si, 0.0, 0.60),
        (Mn, 0.0, 1.85),
        (Cu, 0.0, 0.50),
        (Ni, 0.0, 1.20),
        (Cr, 0.0, 1.20),
        (Mo, 0.0, 0.70),
        (V, 0.0, 0.12),
        (B, 0.0, 0.005),
    ],
};

/// Carbon of the steels tested by Yurioka et al. 1983 (abstract, which gives no other element). They were unalloyed and
/// low-alloy ones: less than 5 % of each alloying element (EN 10027-1, where steels with more are named X; from memory).
pub(super) const CEN: CompositionRange = CompositionRange {
    limits: &[(C, 0.02, 0.26), (Mn, 0.0, 5.0), (Ni, 0.0, 5.0), (Cr, 0.0, 5.0), (Mo, 0.0, 5.0)],
};

impl CompositionRange {
    /// Judges a composition. A mere ceiling proves an element inside where the range starts at
    /// zero; it proves none outside.
    #[must_use]
    pub fn judge(&self, steel: &Composition) -> Validity {
        let (mut outside, mut unknown) = (Vec::new(), Vec::new());
        for (element, low, high) in self.limits {
            let ends = span_of(MassPercent::computed(*low), MassPercent::computed(*high));
            match (steel.get(*element), ends) {
                (Some(Content::Is(given)), Ok(valid)) => {
                    if !(given.at_least(valid.low()) && given.at_most(valid.high())) {
                        outside.push(ElementLimit { element: *element, given, valid });
                    }
                }
                (Some(Content::AtMost(most)), Ok(valid))
                    if *low <= 0.0 && most.at_most(valid.high()) => {}
                _ => unknown.push(*element),
            }
        }
        match (outside.is_empty(), unknown.is_empty()) {
            (false, _) => Validity::Outside(outside),
            (true, true) => Validity::Inside,
            (true, false) => Validity::Unknown(unknown),
        }
    }
}
