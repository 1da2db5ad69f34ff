//! arcbounds keeps every welding arc inside what was qualified.
pub mod database;
pub mod quantity;
pub mod trade;
