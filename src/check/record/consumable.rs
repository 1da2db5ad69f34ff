//! A filler metal and the data ranges printed for it.

use super::OperatingPoints;
use crate::{
    check::OwnedRanges,
    quantity::{Diameter, HydrogenContent, LinearMass, Mass, Share},
    trade::{CareRules, Designation, GasGroup, Polarity, Position, designation::FillerKind},
};

/// Data for one diameter, gas, polarity and group of positions.
#[derive(Debug, Clone, PartialEq)]
pub struct Condition {
    /// Diameter.
    pub diameter: Diameter,
    /// Gas group; `None` for a self-shielded wire or a covered electrode.
    pub gas: Option<GasGroup>,
    /// Polarity.
    pub polarity: Polarity,
    /// Positions the data is printed for; empty for all.
    pub positions: Vec<Position>,
    /// Operating points.
    pub points: OperatingPoints,
    /// Span of current, volts, feed and stick-out.
    pub ranges: OwnedRanges,
}

/// One edition of a named document.
#[derive(Debug, Clone, PartialEq)]
pub struct DataEdition {
    /// Name of the document.
    pub document: String,
    /// Its edition.
    pub edition: String,
    /// Conditions, no two alike.
    pub conditions: Vec<Condition>,
}

/// A wire, electrode or rod.
#[derive(Debug, Clone, PartialEq)]
pub struct Consumable {
    /// Code in this organisation.
    pub code: String,
    /// Name in words.
    pub name: String,
    /// Kind of filler.
    pub kind: FillerKind,
    /// Classifications it holds.
    pub designations: Vec<Designation>,
    /// Diameters it is bought in.
    pub diameters: Vec<Diameter>,
    /// Spool masses it is bought on.
    pub spools: Vec<Mass>,
    /// Gas groups its maker allows; empty where none is needed or stated.
    pub gases: Vec<GasGroup>,
    /// Polarities its maker allows; empty where not stated.
    pub polarities: Vec<Polarity>,
    /// Weighed mass per length, by diameter.
    pub linear_masses: Vec<(Diameter, LinearMass)>,
    /// Deposition efficiency its maker prints.
    pub efficiency: Option<Share>,
    /// How it is kept dry, where its data says so.
    pub care: Option<CareRules>,
    /// Data editions, the newest last.
    pub data: Vec<DataEdition>,
}

impl Consumable {
    /// Whether all its designations, one at least, are of unalloyed or low-alloy steel.
    #[must_use]
    pub fn is_plain_steel(&self) -> bool {
        !self.designations.is_empty() && self.designations.iter().all(Designation::is_plain_steel)
    }

    /// Highest hydrogen of the packed or dried condition, as its data or its designations state it; of
    /// several designations the lowest, for it holds all of them.
    #[must_use]
    pub fn fresh_hydrogen(&self) -> Option<HydrogenContent> {
        let class = self.care.as_ref().and_then(|care| care.hydrogen);
        let stated = class.and_then(|class| class.ceiling().ok());
        let designations = self.designations.iter().filter_map(Designation::hydrogen);
        stated.or_else(|| designations.reduce(HydrogenContent::min))
    }
}
