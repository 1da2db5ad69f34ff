//! What an instrument measures, and its accuracy, before the kind is known.

use serde_json::Value;
use utoipa::openapi::{ObjectBuilder, RefOr, Schema, schema::Type};

use super::{
    Definitions, Errors, FromWire, Node, Place, ToWire, WireSchema, accuracy, stated::ACCURACY_FORM,
};
use crate::{
    check::{Accuracy, record::InstrumentAccuracy},
    http::problem::FieldError,
    quantity::{
        CurrentKind, DurationKind, ElectricalStickOutKind, GasFlowKind, Kind, PowerKind,
        RunLengthKind, TemperatureKind, TravelSpeedKind, VoltageKind, WireFeedKind,
    },
    trade::{Coded, ErrorModel, coded},
};

coded! {
    /// What an instrument measures.
    pub enum Measurand: "measured quantity" {
        /// Welding current.
        Current = "current",
        /// Arc voltage.
        Voltage = "voltage",
        /// Wire feed speed.
        WireFeed = "wire-feed",
        /// Travel speed.
        TravelSpeed = "travel-speed",
        /// Mean instantaneous arc power.
        ArcPower = "arc-power",
        /// Length of a run.
        Length = "length",
        /// Time.
        Time = "time",
        /// Temperature.
        Temperature = "temperature",
        /// Gas flow.
        GasFlow = "gas-flow",
        /// Electrical stick-out.
        StickOut = "electrical-stick-out",
    }
}

/// Accuracy as sent; which quantity it is of, the instrument says.
#[derive(Debug, Clone, PartialEq)]
pub struct AnyAccuracy(Value);

impl AnyAccuracy {
    /// The accuracy as one of what the instrument measures.
    ///
    /// # Errors
    /// Why it is none, in words.
    pub fn of(&self, measurand: Measurand) -> Result<InstrumentAccuracy, String> {
        match measurand {
            Measurand::Current => self.as_kind::<CurrentKind>(),
            Measurand::Voltage => self.as_kind::<VoltageKind>(),
            Measurand::WireFeed => self.as_kind::<WireFeedKind>(),
            Measurand::TravelSpeed => self.as_kind::<TravelSpeedKind>(),
            Measurand::ArcPower => self.as_kind::<PowerKind>(),
            Measurand::Length => self.as_kind::<RunLengthKind>(),
            Measurand::Time => self.as_kind::<DurationKind>(),
            Measurand::Temperature => self.as_kind::<TemperatureKind>(),
            Measurand::GasFlow => self.as_kind::<GasFlowKind>(),
            Measurand::StickOut => self.as_kind::<ElectricalStickOutKind>(),
        }
    }

    fn as_kind<K: Kind>(&self) -> Result<InstrumentAccuracy, String> {
        let mut errors = Errors::default();
        match accuracy::<K>(&(&self.0).into(), Place::Root, &mut errors) {
            Some(Accuracy::Known(_, size)) => Ok(size.into()),
            Some(Accuracy::Unknown) => Err(ACCURACY_FORM.to_owned()),
            None => Err(errors.finish().err().map_or_else(String::new, |problem| {
                let said = |error: &FieldError| match error.pointer.strip_prefix('/') {
                    Some(member) => format!("{member}: {}", error.detail),
                    None => error.detail.clone(),
                };
                problem.errors().iter().map(said).collect::<Vec<_>>().join("; ")
            })),
        }
    }

    /// What its figure means.
    #[must_use]
    pub fn model(&self) -> ErrorModel {
        let stated = self.0.get("meaning").and_then(Value::as_str).and_then(ErrorModel::from_code);
        stated.unwrap_or(ErrorModel::Expanded)
    }
}

impl FromWire for AnyAccuracy {
    fn from_wire(value: &Node<'_>, at: Place<'_>, errors: &mut Errors) -> Option<Self> {
        if value.as_object().is_some() {
            Some(Self(value.to_value()))
        } else {
            errors.note(at, "expected an object such as {\"of_reading\": \"2.5 %\"}")
        }
    }
}

impl ToWire for AnyAccuracy {
    fn to_wire(&self) -> Value {
        self.0.clone()
    }
}

impl WireSchema for AnyAccuracy {
    fn reference(_: &mut Definitions) -> RefOr<Schema> {
        ObjectBuilder::new().schema_type(Type::Object).into()
    }
}
