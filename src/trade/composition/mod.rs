//! Chemical composition of steel and the carbon equivalents made from it.
//!
//! An element nobody stated is unknown, not absent: every carbon equivalent is a pair of bounds.
//!
//! Which equivalent fits which steel: [`CARBON_EQUIVALENT_IIW`] above some 0.12 % carbon, [`CARBON_EQUIVALENT_PCM`]
//! below, [`CARBON_EQUIVALENT_CET`] for EN 1011-2 Method B, CEN for both ends. Each says where it holds; none is for
//! austenitic, duplex or cast metal.

mod carbon_equivalent;
mod content;
mod validity;

pub use carbon_equivalent::{
    CARBON_EQUIVALENT_CEN, CARBON_EQUIVALENT_CET, CARBON_EQUIVALENT_IIW, CARBON_EQUIVALENT_PCM,
    CARBON_EQUIVALENT_WITH_SILICON, CarbonEquivalents, carbon_equivalents, ce_iiw, ce_with_silicon,
    cen, cet, pcm,
};
pub use content::{Bounds, Composition, Content, ContentError, Element};
pub(super) use validity::CET as CET_RANGE;
pub use validity::{CompositionRange, ElementLimit, Validity};
