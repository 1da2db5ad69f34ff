//! arcbounds keeps every welding arc inside what was qualified.
pub mod quantity;
pub mod trade;
