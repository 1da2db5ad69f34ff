//! Work angle of a horizontal fillet.

use super::row::{Row, RowRange::WorkAngle, between};
use crate::trade::{Position, Process};

const PROCESSES: &[Process] = &[
    Process::MagFluxCored,
    Process::MigFluxCored,
    Process::SelfShieldedFluxCored,
    Process::MagMetalCored,
    Process::MagSolidWire,
    Process::MigSolidWire,
    Process::ManualMetalArc,
];

pub(super) const ROWS: &[Row] = &[Row::practice(
    PROCESSES,
    WorkAngle(between("40 deg", "50 deg")),
    "Equal legs: 45 degrees; for larger legs aim about one wire diameter onto the lower plate.",
)
.positions(&[Position::Pb])];
