//! Welding computations and tables, one file per family; pure, with the source beside each.

mod coded;
pub mod designation;
mod filter_shade;
mod formula;
mod gas;
mod job;
mod metal_group;
mod position;
mod process;

pub use coded::Coded;
pub(crate) use coded::coded;
pub use designation::Designation;
pub use filter_shade::{ShadeAnswer, ShadeBasis, minimum_shade};
pub use formula::{Confidence, Formula};
pub use gas::{Gas, GasComponent, GasError, GasGroup, GasMixture};
pub use job::{BeadPattern, JointKind, Polarity, Progression, RunClass};
pub use metal_group::{MetalGroup, UnknownMetalGroup};
pub use position::{Position, PositionClaim, UnknownPosition};
pub use process::{Process, UnknownProcess};
