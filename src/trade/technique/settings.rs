//! Usual current, voltage and electrical stick-out.

use super::{
    row::{
        Row,
        RowRange::{Current, ElectricalStickOut, Voltage},
        between,
    },
    size::{W09, W12, W14, W16, W20, W24, W32},
};
use crate::trade::{
    Confidence, Position,
    Process::{self, MagFluxCored, MagSolidWire, MigSolidWire},
};

const FLUX_CORED: &[Process] = &[MagFluxCored];

const OUT_OF_POSITION: &[Position] = &[
    Position::Pd,
    Position::Pe,
    Position::Pf,
    Position::Pg,
    Position::Ph,
    Position::Pj,
    Position::Pk,
    Position::HL045,
    Position::JL045,
];

/// The stored copy of this figure had lost its table lines, hence no more than secondary.
const FIG_8_20: &str = "Modern Welding, Goodheart-Willcox 2020, ch. 8, p. 205, Fig. 8-20";
const WINDOW: &str = "Usual window of gas-shielded flux-cored wire of this size on carbon steel; \
                      vertical up and overhead keep to the lower third.";

const fn amperes(size: &'static [&'static str], min: &'static str, max: &'static str) -> Row {
    Row::practice(FLUX_CORED, Current(between(min, max)), WINDOW)
        .diameters(size)
        .printed(FIG_8_20, Confidence::Secondary)
}

const fn volts(size: &'static [&'static str], min: &'static str, max: &'static str) -> Row {
    Row::practice(FLUX_CORED, Voltage(between(min, max)), WINDOW)
        .diameters(size)
        .printed(FIG_8_20, Confidence::Secondary)
}

pub(super) const ROWS: &[Row] = &[
    Row::practice(
        FLUX_CORED,
        ElectricalStickOut(between("5/8 in", "1 in")),
        "About 3/4 in from contact tip to work, recess of the tip counted.",
    )
    .diameters(W12),
    Row::practice(
        FLUX_CORED,
        Current(between("180 A", "300 A")),
        "All-position gas-shielded flux-cored wire of this size: 180 to 300 A.",
    )
    .diameters(W12),
    Row::practice(
        &[MagSolidWire, MigSolidWire],
        Current(between("140 A", "180 A")),
        "Solid wire out of position: about 140 to 180 A.",
    )
    .positions(OUT_OF_POSITION),
    amperes(W09, "150 A", "250 A"),
    amperes(W12, "150 A", "250 A"),
    amperes(W14, "200 A", "350 A"),
    amperes(W16, "225 A", "375 A"),
    amperes(W20, "275 A", "450 A"),
    amperes(W24, "350 A", "500 A"),
    amperes(W32, "400 A", "600 A"),
    volts(W09, "26 V", "32 V"),
    volts(W12, "24 V", "28 V"),
    volts(W14, "24 V", "28 V"),
    volts(W16, "25 V", "30 V"),
    volts(W20, "26 V", "30 V"),
    volts(W24, "26 V", "32 V"),
    volts(W32, "30 V", "34 V"),
];
