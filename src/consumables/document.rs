//! The canonical document of a consumable.

use super::CareDocument;
use crate::{
    check::record::{Condition, Consumable, DataEdition, OperatingPoint},
    quantity::{Current, DepositionRate, Diameter, LinearMass, Mass, Share, Voltage, WireFeed},
    trade::{Designation, FillerKind, GasGroup, Polarity, Position},
    wire::{Code, Limits, wire_object},
};

wire_object! {
    /// One operating point of a data sheet.
    pub struct OperatingPointDocument {
        /// Wire feed speed; left out for covered electrodes.
        pub wire_feed: Option<WireFeed>,
        /// Welding current.
        pub current: Current,
        /// Arc voltage.
        pub voltage: Voltage,
        /// Printed deposition rate: with its wire feed, what the metal of checks, windows and run plans rests on
        /// before all else.
        pub deposition_rate: Option<DepositionRate>,
        /// Printed deposition efficiency; goes before that of the wire.
        pub efficiency: Option<Share>,
    }
}

wire_object! {
    /// Data for one diameter, gas group, polarity and group of positions.
    pub struct ConditionDocument {
        /// Nominal diameter.
        pub diameter: Diameter,
        /// Shielding gas group of ISO 14175; left out where no gas is used.
        pub gas: Option<GasGroup>,
        /// Polarity.
        pub polarity: Polarity,
        /// ISO 6947 positions the data is printed for; left out for all.
        pub positions: Option<Vec<Position>>,
        /// Operating points.
        pub points: Vec<OperatingPointDocument>,
        /// Span of current, volts, feed and electrical stick-out.
        pub limits: Option<Limits>,
    }
}

wire_object! {
    /// One edition of a named document.
    pub struct DataEditionDocument {
        /// Name of the document, such as `Wire data sheet W-101`.
        pub document: String,
        /// Its edition, such as `2026-03`.
        pub edition: String,
        /// Conditions; no two alike.
        pub conditions: Vec<ConditionDocument>,
    }
}

wire_object! {
    /// Weighed mass per length of one diameter.
    pub struct LinearMassDocument {
        /// Nominal diameter.
        pub diameter: Diameter,
        /// Mass of one metre, weighed.
        pub mass: LinearMass,
    }
}

wire_object! {
    /// A wire, electrode or rod, with the data ranges printed for it.
    pub struct ConsumableDocument {
        /// Code in your organisation.
        pub code: Code,
        /// Name in words.
        pub name: String,
        /// Maker; some codes tie a procedure to it.
        pub maker: Option<String>,
        /// Trade name; some codes tie a procedure to it.
        pub trade_name: Option<String>,
        /// F-Number of ASME IX.
        pub f_number: Option<String>,
        /// A-Number of ASME IX.
        pub a_number: Option<String>,
        /// Kind of filler.
        pub kind: FillerKind,
        /// Classifications it holds; each is parsed, and what it says is checked.
        pub designations: Vec<Designation>,
        /// Diameters it is bought in.
        pub diameters: Vec<Diameter>,
        /// Masses of the spools it is bought on.
        pub spools: Vec<Mass>,
        /// Gas groups its maker allows.
        pub gases: Vec<GasGroup>,
        /// Polarities its maker allows.
        pub polarities: Vec<Polarity>,
        /// Weighed mass per length; computed from the diameter where left out.
        pub linear_masses: Vec<LinearMassDocument>,
        /// Deposition efficiency its maker prints.
        pub efficiency: Option<Share>,
        /// How it is kept dry: left out where no moisture matters. A check then asks for the batch.
        pub care: Option<CareDocument>,
        /// Data editions, the newest last.
        pub data: Vec<DataEditionDocument>,
        /// Anything else worth knowing.
        pub note: Option<String>,
    }
}

impl ConsumableDocument {
    /// As the check reads it.
    #[must_use]
    pub fn compile(&self, code: &str) -> Consumable {
        Consumable {
            code: code.to_owned(),
            name: self.name.clone(),
            kind: self.kind,
            designations: self.designations.clone(),
            diameters: self.diameters.clone(),
            spools: self.spools.clone(),
            gases: self.gases.clone(),
            polarities: self.polarities.clone(),
            linear_masses: self.linear_masses.iter().map(|row| (row.diameter, row.mass)).collect(),
            efficiency: self.efficiency,
            care: self.care.as_ref().map(CareDocument::compile),
            data: self.data.iter().map(DataEditionDocument::compile).collect(),
        }
    }
}

impl DataEditionDocument {
    fn compile(&self) -> DataEdition {
        DataEdition {
            document: self.document.clone(),
            edition: self.edition.clone(),
            conditions: self.conditions.iter().map(ConditionDocument::compile).collect(),
        }
    }
}

impl ConditionDocument {
    fn compile(&self) -> Condition {
        Condition {
            diameter: self.diameter,
            gas: self.gas,
            polarity: self.polarity,
            positions: self.positions.clone().unwrap_or_default(),
            points: self.points.iter().map(OperatingPointDocument::compile).collect(),
            ranges: self.limits.as_ref().map(Limits::compile).unwrap_or_default(),
        }
    }

    /// The positions in one order, so that two lists of the same positions are alike.
    pub(super) fn position_key(&self) -> String {
        let mut positions: Vec<_> =
            self.positions.iter().flatten().map(ToString::to_string).collect();
        positions.sort();
        positions.dedup();
        positions.join(" ")
    }
}

impl OperatingPointDocument {
    const fn compile(&self) -> OperatingPoint {
        OperatingPoint {
            wire_feed: self.wire_feed,
            current: self.current,
            voltage: self.voltage,
            deposition_rate: self.deposition_rate,
            efficiency: self.efficiency,
        }
    }
}
