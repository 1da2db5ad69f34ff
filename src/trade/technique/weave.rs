//! Stringer or weave, and how wide.

use super::row::{
    Row,
    RowRange::{BeadPattern, WeaveInCores, WeaveWidth},
    at_most,
};
use crate::trade::{
    self, Confidence, Position,
    Process::{
        self, MagFluxCored, MagMetalCored, MagSolidWire, ManualMetalArc, SelfShieldedFluxCored,
    },
    RunClass,
};

const NOT_ROOT: &[RunClass] = &[RunClass::Hot, RunClass::Fill, RunClass::Cap, RunClass::Single];
const WIRE: &[Process] = &[MagFluxCored, SelfShieldedFluxCored, MagSolidWire, MagMetalCored];
/// Printed as 5/8 in (16 mm) and 1 in (25 mm); the rows take the larger of each pair.
const D1_1: &str = "AWS D1.1, prequalified procedures, split layers; from memory";

pub(super) const ROWS: &[Row] = &[
    Row::practice(&[], BeadPattern(trade::BeadPattern::Stringer), "Root run: a stringer.")
        .runs(&[RunClass::Root]),
    Row::practice(
        &[MagFluxCored, SelfShieldedFluxCored],
        WeaveWidth(at_most("16 mm")),
        "Weave no wider than 12 to 16 mm, pause at each toe; beyond that split into stringers.",
    )
    .runs(NOT_ROOT),
    Row::practice(
        WIRE,
        WeaveWidth(at_most("16 mm")),
        "Layers wider than 5/8 in are split in the flat, horizontal and overhead positions.",
    )
    .runs(NOT_ROOT)
    .positions(&[Position::Pa, Position::Pb, Position::Pc, Position::Pd, Position::Pe])
    .printed(D1_1, Confidence::Memory),
    Row::practice(
        WIRE,
        WeaveWidth(at_most("1 in")),
        "Layers wider than 1 in are split in the vertical position.",
    )
    .runs(NOT_ROOT)
    .positions(&[Position::Pf, Position::Pg])
    .printed(D1_1, Confidence::Memory),
    Row::practice(
        &[ManualMetalArc],
        WeaveInCores(4.0),
        "Weave no wider than 3 to 4 core diameters with a basic covering.",
    )
    .runs(NOT_ROOT),
];
