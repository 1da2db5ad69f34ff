//! The chain as lines of an export, and the one verifier that proves them: no database, no clock, no web. The
//! endpoint gives it what lies in the database, the command what lies in a file.

mod fault;
mod line;
mod verifier;

pub use fault::{Fault, FaultKind};
pub use line::{Closing, EntryLine, FORM, Named, Opening, Place, mention};
pub use verifier::{KeptHeadFound, Proved, Verifier};
