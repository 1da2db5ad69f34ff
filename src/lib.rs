//! arcbounds keeps every welding arc inside what was qualified.
pub mod check;
pub mod quantity;
pub mod trade;
pub mod window;
