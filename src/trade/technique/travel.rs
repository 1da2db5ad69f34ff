//! Drag and push.

use super::row::{DOWN, FLAT_AND_HORIZONTAL, Row, RowRange::TravelAngle, UP, between};
use crate::trade::{
    Confidence, Position,
    Process::{
        self, MagFluxCored, MagMetalCored, MagSolidWire, ManualMetalArc, MigFluxCored,
        MigMetalCored, MigSolidWire, SelfShieldedFluxCored, TigAutogenous, TigCoredFiller,
        TigReducingGas, TigSolidFiller,
    },
};

const FLUX_CORED: &[Process] = &[MagFluxCored, MigFluxCored, SelfShieldedFluxCored];
const METAL_CORED: &[Process] = &[MagMetalCored, MigMetalCored];
const SOLID: &[Process] = &[MagSolidWire, MigSolidWire];
const TIG: &[Process] = &[TigSolidFiller, TigAutogenous, TigCoredFiller, TigReducingGas];
const COVERED: &[Process] = &[ManualMetalArc];

const HANDBOOK_P76: &str = "GMAW/FCAW Handbook, Goodheart-Willcox 2018, p. 76";
const FUNDAMENTALS_P251: &str = "Welding Fundamentals, Goodheart-Willcox 2017, ch. 17, p. 251";

pub(super) const ROWS: &[Row] = &[
    Row::practice(
        FLUX_CORED,
        TravelAngle(between("5 deg", "10 deg")),
        "With a slag: drag 5 to 10 degrees, so that the slag stays behind the arc.",
    )
    .slag(true)
    .positions(FLAT_AND_HORIZONTAL),
    Row::practice(
        FLUX_CORED,
        TravelAngle(between("10 deg", "25 deg")),
        "With a slag: drag 10 to 25 degrees by the textbook.",
    )
    .slag(true)
    .positions(FLAT_AND_HORIZONTAL)
    .printed(HANDBOOK_P76, Confidence::TextRead),
    Row::practice(
        FLUX_CORED,
        TravelAngle(between("20 deg", "25 deg")),
        "In the flat position a textbook shows a drag of 20 to 25 degrees.",
    )
    .slag(true)
    .positions(&[Position::Pa])
    .printed(FUNDAMENTALS_P251, Confidence::TextRead),
    Row::practice(
        FLUX_CORED,
        TravelAngle(between("-10 deg", "0 deg")),
        "Vertical up: straight in to a slight push, at most 10 degrees.",
    )
    .slag(true)
    .positions(UP),
    Row::practice(
        &[SelfShieldedFluxCored],
        TravelAngle(between("5 deg", "15 deg")),
        "Vertical down with a wire made for it: drag 5 to 15 degrees, pointing up.",
    )
    .positions(DOWN),
    Row::practice(
        METAL_CORED,
        TravelAngle(between("-15 deg", "0 deg")),
        "Metal-cored wire: square to the joint or push up to 15 degrees.",
    ),
    Row::practice(
        SOLID,
        TravelAngle(between("-15 deg", "-5 deg")),
        "Spray or pulsed arc: push 5 to 15 degrees.",
    ),
    Row::practice(
        SOLID,
        TravelAngle(between("-20 deg", "20 deg")),
        "Short-circuiting arc: push on thin sheet, drag for penetration, at most 20 degrees.",
    ),
    Row::practice(
        COVERED,
        TravelAngle(between("5 deg", "20 deg")),
        "Covered electrode: drag 5 to 20 degrees.",
    )
    .positions(FLAT_AND_HORIZONTAL),
    Row::practice(
        COVERED,
        TravelAngle(between("-10 deg", "0 deg")),
        "Covered electrode vertical up: straight in to a push of 10 degrees.",
    )
    .positions(UP),
    Row::practice(
        TIG,
        TravelAngle(between("-20 deg", "-10 deg")),
        "TIG: push the torch 10 to 20 degrees.",
    ),
];
