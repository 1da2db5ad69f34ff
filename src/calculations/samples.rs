//! Columns of a logger's record: many numbers with one unit.

use serde_json::{Number, Value, json};
use utoipa::openapi::{
    ObjectBuilder, RefOr, Schema,
    schema::{AnyOfBuilder, ArrayBuilder, Type},
};

use crate::{
    quantity::{CurrentKind, Duration, DurationKind, Kind, Quantity, VoltageKind},
    trade::Sample,
    wire::{
        Definitions, Errors, FromWire, Members, Node, Place, ToWire, WireSchema, define,
        schema_name, wire_object,
    },
};

/// Most samples of a record; as columns they fit into a body.
const MOST_SAMPLES: usize = 20_000;

/// Many values of one kind: a number each, with the unit of all.
///
/// A reading may be zero (short circuit, zero crossing) or below (alternating current), so only the
/// upper end of the kind's plausible span holds, whatever the sign.
#[derive(Debug, Clone, PartialEq)]
pub struct Column<K: Kind>(Vec<Quantity<K>>);

impl<K: Kind> Column<K> {
    fn at(&self, index: usize) -> Option<Quantity<K>> {
        // One value stands for all.
        if self.0.len() == 1 { self.0.first().copied() } else { self.0.get(index).copied() }
    }
}

impl<K: Kind> FromWire for Column<K> {
    fn from_wire(value: &Node<'_>, at: Place<'_>, errors: &mut Errors) -> Option<Self> {
        let unit = K::INFO.units[0].symbol;
        let form = || {
            format!("expected {{\"values\": [1.5, 2], \"unit\": \"{unit}\"}} or one value for all")
        };
        let one = |text: &str, errors: &mut Errors| {
            number::<K>(text).map_or_else(|why| errors.note(at, why), |value| Some(vec![value]))
        };
        match value {
            Node::Text(text) => one(text, errors).map(Self),
            Node::Object(members) => values::<K>(members, at, errors).map(Self),
            other => errors.note(at, format!("{}, found {}", form(), other.kind())),
        }
    }
}

fn values<K: Kind>(
    members: &Members<'_>,
    at: Place<'_>,
    errors: &mut Errors,
) -> Option<Vec<Quantity<K>>> {
    for name in members.names().filter(|name| !["values", "unit"].contains(name)) {
        errors.note::<()>(Place::Member(&at, name), "no such field; known are values, unit");
    }
    let here = Place::Member(&at, "values");
    let unit = members.get("unit").and_then(Node::as_str).or_else(|| {
        let unit = K::INFO.units[0].symbol;
        let message = format!("{} values need their unit, such as \"{unit}\"", K::INFO.name);
        errors.note(Place::Member(&at, "unit"), message)
    });
    let numbers = members.get("values").and_then(Node::as_list);
    let numbers = numbers.or_else(|| errors.note(here, "expected a list of numbers"))?;
    if numbers.is_empty() || numbers.len() > MOST_SAMPLES {
        return errors.note(here, format!("a record has 1 to {MOST_SAMPLES} samples"));
    }
    let unit = unit?;
    let mut read = Vec::with_capacity(numbers.len());
    for (index, value) in numbers.iter().enumerate() {
        let Node::Number(value) = value else {
            let found = value.kind();
            let place = Place::Item(&here, index);
            return errors.note(place, format!("expected a number, found {found}"));
        };
        match number::<K>(&format!("{value} {unit}")) {
            Ok(value) => read.push(value),
            // The others would say the same.
            Err(why) => return errors.note(Place::Item(&here, index), why),
        }
    }
    Some(read)
}

/// A number with its unit, of either sign.
fn number<K: Kind>(text: &str) -> Result<Quantity<K>, String> {
    let (sign, size) = text.trim().strip_prefix('-').map_or((1.0, text), |size| (-1.0, size));
    let size = Quantity::<K>::difference(size).map_err(|error| error.to_string())?;
    let most = K::INFO.span.1;
    if size.canonical() > most {
        let unit = K::INFO.units[0].symbol;
        return Err(format!("a {} has at most {most} {unit}", K::INFO.name));
    }
    Quantity::computed(sign * size.canonical()).map_err(|error| error.to_string())
}

impl<K: Kind> ToWire for Column<K> {
    fn to_wire(&self) -> Value {
        let numbers = self.0.iter().map(|value| Number::from_f64(value.canonical()));
        json!({ "values": numbers.collect::<Vec<_>>(), "unit": K::INFO.units[0].symbol })
    }
}

impl<K: Kind> WireSchema for Column<K> {
    fn reference(into: &mut Definitions) -> RefOr<Schema> {
        let number = ObjectBuilder::new().schema_type(Type::Number);
        let numbers =
            ArrayBuilder::new().items(number).min_items(Some(1)).max_items(Some(MOST_SAMPLES));
        let symbols: Vec<_> = K::INFO.units.iter().map(|unit| unit.symbol).collect();
        let unit = ObjectBuilder::new()
            .schema_type(Type::String)
            .description(Some(format!("One of {}.", symbols.join(", "))));
        let columns = ObjectBuilder::new()
            .schema_type(Type::Object)
            .property("values", numbers)
            .required("values")
            .property("unit", unit)
            .required("unit");
        let words = format!("Readings of {} in order, or one value for all.", K::INFO.name);
        let schema = AnyOfBuilder::new()
            .description(Some(words))
            .item(columns)
            .item(ObjectBuilder::new().schema_type(Type::String));
        let name = format!("{}Column", schema_name(K::INFO.name));
        define(into, name, Schema::AnyOf(schema.build()).into())
    }
}

wire_object! {
    /// A sampled record as columns of equal length: the first of each column is the first sample.
    pub struct SamplesIn {
        /// Arc voltage, signed for alternating current.
        pub voltage: Column<VoltageKind>,
        /// Welding current, signed for alternating current.
        pub current: Column<CurrentKind>,
        /// Time until the next sample; one value where samples are equally spaced.
        pub duration: Column<DurationKind>,
    }
}

/// The samples of a record, in order.
#[derive(Debug, Clone, PartialEq)]
pub struct Samples(pub Vec<Sample>);

impl FromWire for Samples {
    fn from_wire(value: &Node<'_>, at: Place<'_>, errors: &mut Errors) -> Option<Self> {
        let sent = SamplesIn::from_wire(value, at, errors)?;
        let lengths = [sent.voltage.0.len(), sent.current.0.len(), sent.duration.0.len()];
        let samples = lengths.into_iter().max().unwrap_or(0);
        if lengths.iter().any(|length| *length != 1 && *length != samples) {
            let [volts, amps, times] = lengths;
            let found = format!("{volts} voltages, {amps} currents and {times} durations");
            return errors.note(at, format!("columns have equal length; found {found}"));
        }
        let short = sent.duration.0.iter().position(|time| time.seconds() <= 0.0);
        if let Some(index) = short {
            let column = Place::Member(&at, "duration");
            let values = Place::Member(&column, "values");
            return errors.note(Place::Item(&values, index), "a sample lasts longer than 0 s");
        }
        let sample = |index| {
            let duration: Duration = sent.duration.at(index)?;
            let (voltage, current) = (sent.voltage.at(index)?, sent.current.at(index)?);
            Some(Sample { voltage, current, duration })
        };
        (0..samples).map(sample).collect::<Option<_>>().map(Self)
    }
}

impl ToWire for Samples {
    fn to_wire(&self) -> Value {
        SamplesIn {
            voltage: Column(self.0.iter().map(|sample| sample.voltage).collect()),
            current: Column(self.0.iter().map(|sample| sample.current).collect()),
            duration: Column(self.0.iter().map(|sample| sample.duration).collect()),
        }
        .to_wire()
    }
}

impl WireSchema for Samples {
    fn reference(into: &mut Definitions) -> RefOr<Schema> {
        SamplesIn::reference(into)
    }
}
