//! Readings of a preheat chart: sent with a request, or kept in the settings.

use serde_json::Value;
use time::Date;
use utoipa::openapi::{
    ObjectBuilder, RefOr, Schema,
    schema::{AnyOfBuilder, Type},
};

use super::{Definitions, Errors, FromWire, Node, Place, ToWire, WireSchema, define, wire_object};
use crate::{
    quantity::{CeIiw, CombinedThickness, HeatInput, Temperature},
    trade::{ChartReading, HydrogenScale},
};

/// Preheat as read from a chart; a reading that says nothing is no reading of "none".
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ReadPreheat(Option<Temperature>);

impl FromWire for ReadPreheat {
    fn from_wire(value: &Node<'_>, at: Place<'_>, errors: &mut Errors) -> Option<Self> {
        match value.as_str() {
            Some("none") => Some(Self(None)),
            _ => Temperature::from_wire(value, at, errors).map(|read| Self(Some(read))),
        }
    }
}

impl ToWire for ReadPreheat {
    fn to_wire(&self) -> Value {
        self.0.map_or_else(|| Value::from("none"), |read| read.to_wire())
    }
}

impl WireSchema for ReadPreheat {
    fn reference(into: &mut Definitions) -> RefOr<Schema> {
        let none = ObjectBuilder::new().schema_type(Type::String).enum_values(Some(["none"]));
        let schema = AnyOfBuilder::new()
            .description(Some(
                "A preheat temperature as read, or `none` where the chart asks for none.",
            ))
            .item(none)
            .item(<Temperature as WireSchema>::reference(into));
        define(into, "ReadPreheat".to_owned(), Schema::AnyOf(schema.build()).into())
    }
}

wire_object! {
    /// One point that somebody read off a chart of EN 1011-2 Method A. It covers every case that is no worse
    /// in any of its four values.
    pub struct ChartReadingIn {
        /// Highest carbon equivalent of the IIW.
        pub highest_ce: CeIiw,
        /// Worst hydrogen scale.
        pub worst_scale: HydrogenScale,
        /// Lowest heat input.
        pub lowest_heat_input: HeatInput,
        /// Largest combined thickness.
        pub largest_combined: CombinedThickness,
        /// Preheat read.
        pub preheat: ReadPreheat,
        /// Who read it, and answers for it.
        pub read_by: String,
        /// Day it was read.
        pub read_on: Date,
        /// Figure and edition it was read from.
        pub figure: String,
    }
}

impl ChartReadingIn {
    /// As the method reads it.
    #[must_use]
    pub fn compile(&self) -> ChartReading {
        ChartReading {
            highest_ce: self.highest_ce,
            worst_scale: self.worst_scale,
            lowest_heat_input: self.lowest_heat_input,
            largest_combined: self.largest_combined,
            preheat: self.preheat.0,
            read_by: self.read_by.clone(),
            read_on: self.read_on,
            figure: self.figure.clone(),
        }
    }
}
