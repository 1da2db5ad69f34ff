//! One file per check.

mod current;

use super::Check;

/// Every check, in the order findings are reported.
pub const ALL: &[Check] = &[current::CHECK];
